package report

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"testing"
	"time"
)

// moving is a film of a square that moves over a slow gradient.
func moving() Film {
	return Film{
		Size: image.Pt(120, 80), Frames: 10,
		Draw: func(i int, into *image.RGBA) {
			for y := range 80 {
				for x := range 120 {
					into.SetRGBA(x, y, color.RGBA{uint8(120 + x), uint8(200 - y), uint8(x + y), 255})
				}
			}
			at := image.Rect(5+8*i, 30, 17+8*i, 42)
			draw.Draw(into, at, image.NewUniform(color.RGBA{213, 94, 0, 255}), image.Point{}, draw.Src)
		},
		Delay: func(i int) time.Duration { return time.Duration(i+1) * 10 * time.Millisecond },
	}
}

func filmed(t *testing.T, f Film) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := f.WriteGIF(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestAFilmLooksLikeItsPictures(t *testing.T) {
	f := moving()
	g, err := gif.DecodeAll(bytes.NewReader(filmed(t, f)))
	if err != nil {
		t.Fatal(err)
	}
	if len(g.Image) != f.Frames || g.LoopCount != 0 {
		t.Fatalf("%d pictures, shown %d times, want %d for ever", len(g.Image), g.LoopCount, f.Frames)
	}
	screen, want := image.NewRGBA(image.Rectangle{Max: f.Size}), image.NewRGBA(image.Rectangle{Max: f.Size})
	for i, part := range g.Image {
		draw.Draw(screen, part.Rect, part, part.Rect.Min, draw.Over)
		f.Draw(i, want)
		sum, worst := 0, 0
		for k, v := range want.Pix {
			d := int(v) - int(screen.Pix[k])
			d = max(d, -d)
			sum, worst = sum+d, max(worst, d)
		}
		if mean := float64(sum) / float64(len(want.Pix)); mean > 3 || worst > 24 {
			t.Errorf("picture %d is off by %.1f levels on average and by %d at most", i, mean, worst)
		}
		if g.Delay[i] != i+1 {
			t.Errorf("picture %d is seen for %d hundredths, want %d", i, g.Delay[i], i+1)
		}
	}
	if wide := g.Image[1].Rect.Dx(); wide > 20 {
		t.Errorf("the second picture redraws %d columns although 20 changed", wide)
	}
}

func TestAFilmIsTheSameEachTime(t *testing.T) {
	if !bytes.Equal(filmed(t, moving()), filmed(t, moving())) {
		t.Error("made twice it differs")
	}
}

func TestAFilmOfNothingIsRefused(t *testing.T) {
	if err := (Film{Size: image.Pt(3, 3)}).WriteGIF(&bytes.Buffer{}); err == nil {
		t.Error("a film without pictures was written")
	}
}

// Small things keep their colour beside large ones.
func TestARareColourIsKept(t *testing.T) {
	f := moving()
	f.Frames = 1
	g, err := gif.DecodeAll(bytes.NewReader(filmed(t, f)))
	if err != nil {
		t.Fatal(err)
	}
	c := color.RGBAModel.Convert(g.Image[0].At(10, 35)).(color.RGBA)
	if c.R < 190 || c.G > 120 || c.B > 30 {
		t.Errorf("the square is %v, want vermilion", c)
	}
}
