package figure

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestRasterSVGAndPDFAgreeWhereThingsAre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := points(10, 90, 3, 8).Draw(t, "ring")
		m := Translate(50, 50).Mul(Rotation(rapid.Float64Range(-90, 90).Draw(t, "turn"))).Mul(Scaling(0.5, 0.5)).Mul(Translate(-50, -50))
		f := Figure{Size: Pt(100, 120), Static: func(s *Surface) {
			s.Push(m)
			s.Polygon(ring, Solid(black))
			s.Pop()
		}}
		want, _ := Bounds(m.line(ring))

		svg := NewSVG(f.Size, "", "")
		f.Draw(svg)
		if got := pathBox(svgPath.FindStringSubmatch(svg.body.String())[1], 0); !sameRect(got, want, 0.006) {
			t.Fatalf("SVG fills %v, want %v", got, want)
		}

		pdf := NewPDF(Document{})
		pdf.doc.SetCompression(false)
		pdf.Page(f.Size, "")
		f.Draw(pdf)
		var b bytes.Buffer
		if err := pdf.Write(&b); err != nil {
			t.Fatal(err)
		}
		if got := pathBox(pdfPath.FindStringSubmatch(b.String())[1], f.Size.Y); !sameRect(got, want, 0.001) {
			t.Fatalf("PDF fills %v, want %v", got, want)
		}

		// Thin spikes leave no ink, so the pixels may fall short of the corners
		// but never pass them; each pixel inside must have ink.
		const scale = 3
		img := f.Image(scale)
		got := ink(img)
		if !got.In(outer(Rect{want.Min.Scale(scale), want.Max.Scale(scale)}, img.Rect)) {
			t.Fatalf("ink in %v pixels, want it in %v points", got, want)
		}
		on := [][]Point{m.line(ring)}
		for y := 1; y < 120; y += 7 {
			for x := 1; x < 100; x += 7 {
				p := Pt((float64(x*scale)+0.5)/scale, (float64(y*scale)+0.5)/scale)
				if far(on[0], p) > 1 && (img.RGBAAt(x*scale, y*scale).A > 0) != (winding(on, p) != 0) {
					t.Fatalf("pixel at %v: opacity %d, winding number %d", p, img.RGBAAt(x*scale, y*scale).A, winding(on, p))
				}
			}
		}
	})
}

// far returns the distance of p from the outline of ring.
func far(ring []Point, p Point) float64 {
	d := math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		e := b.Sub(a)
		t := 0.0
		if l := e.X*e.X + e.Y*e.Y; l > 0 {
			t = min(max(((p.X-a.X)*e.X+(p.Y-a.Y)*e.Y)/l, 0), 1)
		}
		d = min(d, p.Sub(a.Add(e.Scale(t))).Norm())
	}
	return d
}

var (
	svgPath = regexp.MustCompile(` d="([^"]*)"`)
	pdfPath = regexp.MustCompile(`rg ([-0-9. mlh]*) f Q`)
	number  = regexp.MustCompile(`-?[0-9.]+`)
)

// pathBox returns the rectangle around the numbers of a path, turned over if
// height is not zero.
func pathBox(path string, height float64) Rect {
	var pts []Point
	v := number.FindAllString(path, -1)
	for i := 0; i+1 < len(v); i += 2 {
		x, _ := strconv.ParseFloat(v[i], 64)
		y, _ := strconv.ParseFloat(v[i+1], 64)
		if height != 0 {
			y = height - y
		}
		pts = append(pts, Point{x, y})
	}
	b, _ := Bounds(pts)
	return b
}

func sameRect(a, b Rect, d float64) bool {
	return math.Abs(a.Min.X-b.Min.X) <= d && math.Abs(a.Min.Y-b.Min.Y) <= d &&
		math.Abs(a.Max.X-b.Max.X) <= d && math.Abs(a.Max.Y-b.Max.Y) <= d
}

func TestEmbeddedPictureIsThePicture(t *testing.T) {
	svg := NewSVG(Pt(10, 10), "", "")
	svg.Image(Scaling(10, 10), checker(4))
	data := regexp.MustCompile(`base64,([^"]*)`).FindStringSubmatch(svg.body.String())[1]
	raw, err := base64.StdEncoding.DecodeString(data)
	if err != nil {
		t.Fatal(err)
	}
	got, err := png.Decode(bytes.NewReader(raw))
	if err != nil {
		t.Fatal(err)
	}
	for y := range 4 {
		for x := range 4 {
			if a, b := got.At(x, y), checker(4).At(x, y); a != b {
				t.Fatalf("pixel (%d, %d) is %v, want %v", x, y, a, b)
			}
		}
	}
}

func TestPictureFileSaysHowLargeItIs(t *testing.T) {
	var b bytes.Buffer
	if err := (Figure{Size: Pt(36, 18)}).WritePNG(&b, 300.0/72); err != nil {
		t.Fatal(err)
	}
	at := bytes.Index(b.Bytes(), []byte("pHYs"))
	if at < 0 {
		t.Fatal("no resolution in the file")
	}
	if got := int(b.Bytes()[at+6])<<8 | int(b.Bytes()[at+7]); got != 11811 { // 300 / 0.0254
		t.Errorf("%d pixels a metre, want 11811", got)
	}
	img, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	if img.Bounds() != image.Rect(0, 0, 150, 75) {
		t.Errorf("picture of %v, want 150 by 75", img.Bounds())
	}
}

// tool returns the path of a program that the check needs, or skips it.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("%s is not installed", name)
	}
	return path
}

func writtenPDF(t *testing.T, f Figure) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "f.pdf")
	w, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.WritePDF(w); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestLettersOfAPDFCanBeSelected(t *testing.T) {
	pdftotext := tool(t, "pdftotext")
	lines := []string{"38.7° ≥ 12 µm — “so” ½", "Ελληνικά αβγδθω", "Русский текст Ж", "ÄÖÜ žšč ñ łő (a\\b)"}
	f := Figure{Size: Pt(300, 200), Static: func(s *Surface) {
		for i, l := range lines {
			s.Text(Pt(20, 30+30*float64(i)), l, TextStyle{Font: Font{Size: 12, Bold: i%2 == 1}, Colour: black})
		}
	}}
	out, err := exec.Command(pdftotext, "-layout", writtenPDF(t, f), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range lines {
		if !strings.Contains(string(out), l) {
			t.Errorf("%q is not in the text of the file:\n%s", l, out)
		}
	}
}

func TestTextOfAPDFLiesWhereItIsMeasured(t *testing.T) {
	pdftotext := tool(t, "pdftotext")
	font := Font{Size: 14}
	words := map[string]HAlign{"Anteversion": Left, "ΜικρόΠλάτος": Centre, "Наклон38,7°": Right}
	f := Figure{Size: Pt(400, 300), Static: func(s *Surface) {
		for w, h := range words {
			s.Text(Pt(200, 60+70*float64(h)), w, TextStyle{Font: font, Colour: black, H: h})
		}
	}}
	out, err := exec.Command(pdftotext, "-bbox", writtenPDF(t, f), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	word := regexp.MustCompile(`<word xMin="([0-9.]+)" yMin="[0-9.]+" xMax="([0-9.]+)" yMax="[0-9.]+">([^<]*)<`)
	found := 0
	for _, m := range word.FindAllStringSubmatch(string(out), -1) {
		h, ok := words[m[3]]
		if !ok {
			t.Errorf("word %q in the file", m[3])
			continue
		}
		found++
		lo, _ := strconv.ParseFloat(m[1], 64)
		hi, _ := strconv.ParseFloat(m[2], 64)
		want := 200 + TextStyle{Font: font, H: h}.start(m[3])
		if math.Abs(lo-want) > 0.1 || math.Abs(hi-want-font.Width(m[3])) > 0.1 {
			t.Errorf("%q from %v to %v, want %v to %v", m[3], lo, hi, want, want+font.Width(m[3]))
		}
	}
	if found != len(words) {
		t.Errorf("%d of %d words found", found, len(words))
	}
}

func TestPrintedPageLooksLikeTheScreen(t *testing.T) {
	pdftoppm := tool(t, "pdftoppm")
	for _, f := range []Figure{sampler(Light()), chart(200, 10, Light())} {
		out, err := exec.Command(pdftoppm, "-r", "144", "-png", writtenPDF(t, f)).Output()
		if err != nil {
			t.Fatal(err)
		}
		page, err := png.Decode(bytes.NewReader(out))
		if err != nil {
			t.Fatal(err)
		}
		screen := f.Image(2)
		if page.Bounds() != screen.Bounds() {
			t.Fatalf("page of %v, screen of %v pixels", page.Bounds(), screen.Bounds())
		}
		// Means over small squares forgive another antialiasing, not another
		// place.
		const n = 8
		for y := 0; y+n <= screen.Rect.Dy(); y += n {
			for x := 0; x+n <= screen.Rect.Dx(); x += n {
				a, b := meanOf(page, x, y, n), meanOf(screen, x, y, n)
				for k := range a {
					if math.Abs(a[k]-b[k]) > 36 {
						t.Fatalf("%s: square at (%d, %d) is %v on the page, %v on the screen", f.Title, x, y, a, b)
					}
				}
			}
		}
	}
}

func meanOf(img image.Image, x, y, n int) (m [3]float64) {
	for j := range n {
		for i := range n {
			r, g, b, _ := img.At(x+i, y+j).RGBA()
			for k, v := range [3]uint32{r, g, b} {
				m[k] += float64(v>>8) / float64(n*n)
			}
		}
	}
	return m
}
