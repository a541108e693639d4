package figure

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

func block(c color.Color) image.Image {
	img := image.NewNRGBA(image.Rect(0, 0, 8, 8))
	for i := range 64 {
		img.Set(i%8, i/8, c)
	}
	return img
}

// three draws three images of one size side by side.
func three() Figure {
	return Figure{Size: Pt(120, 40), Paper: Hex("#FFFFFF"), Static: func(s *Surface) {
		for i, c := range []string{"#D55E00", "#009E73", "#0072B2"} {
			s.Image(Box(10+30*float64(i), 5, 30, 30), block(Hex(c)))
		}
	}}
}

func TestImagesOfOneSizeAreWrittenAlikeEachTime(t *testing.T) {
	var first bytes.Buffer
	if err := three().WritePDF(&first); err != nil {
		t.Fatal(err)
	}
	for range 30 {
		var b bytes.Buffer
		if err := three().WritePDF(&b); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first.Bytes(), b.Bytes()) {
			t.Fatal("two writings of one figure differ")
		}
	}
}

func TestAnImageThatWasWidenedLooksAsBefore(t *testing.T) {
	pdftoppm := tool(t, "pdftoppm")
	path := filepath.Join(t.TempDir(), "f")
	var b bytes.Buffer
	if err := three().WritePDF(&b); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path+".pdf", b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(pdftoppm, "-png", "-singlefile", "-r", "72", path+".pdf", path).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	data, err := os.ReadFile(path + ".png")
	if err != nil {
		t.Fatal(err)
	}
	got, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	want := three().Image(1)
	for _, x := range []int{5, 14, 25, 36, 44, 55, 66, 74, 85, 96, 105} {
		r, g, bl, _ := got.At(x, 20).RGBA()
		p := want.RGBAAt(x, 20)
		if d := max(diff(int(r>>8), int(p.R)), diff(int(g>>8), int(p.G)), diff(int(bl>>8), int(p.B))); d > 12 {
			t.Errorf("at %d the page has %d %d %d, want %v", x, r>>8, g>>8, bl>>8, p)
		}
	}
}

func diff(a, b int) int { return max(a-b, b-a) }
