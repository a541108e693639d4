package figure

import (
	"image"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// slow is a raster that draws hatches line by line.
type slow struct{ Canvas }

func TestQuickHatchLooksLikeItsLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := points(-10, 70, 3, 6).Draw(t, "ring")
		period := rapid.IntRange(4, 20).Draw(t, "period")
		p := Pattern{Kind: Hatch, Colour: black, Pitch: float64(period) / math.Sqrt2}
		p.Width = rapid.Float64Range(0.3, p.Pitch/2).Draw(t, "width")
		size := Pt(60, 60)
		at := image.Rect(7, 11, 67, 71)
		quick, lines := image.NewRGBA(at), image.NewRGBA(at)
		for _, s := range []*Surface{On(NewRaster(quick, 1), size), On(slow{NewRaster(lines, 1)}, size)} {
			s.PushClip(ring)
			s.Polygon(s.Bounds().Inset(-20).Ring(), Fill{Pattern: p})
			s.PopClip()
		}
		for i := range quick.Pix {
			if d := int(quick.Pix[i]) - int(lines.Pix[i]); d > 4 || d < -4 {
				t.Fatalf("byte %d: quick %d, by lines %d", i, quick.Pix[i], lines.Pix[i])
			}
		}
	})
}

func TestLinesThatFallUnlikeOnPixelsAreNoTable(t *testing.T) {
	if _, ok := hatchingOf(6, 0.8); ok {
		t.Error("lines 8.49 pixels apart along the axes were taken for 8")
	}
	if _, ok := hatchingOf(8/math.Sqrt2, 0.8); !ok {
		t.Error("lines 8 pixels apart along the axes were not taken")
	}
}
