package figure

import (
	"image"
	"testing"
)

// Every hatch line of a large area is drawn whole: the rasteriser's numbers
// overflow on edges of several hundred pixels, which then left bands bare.
func TestLongEdgesAreDrawnWhole(t *testing.T) {
	const pitch = 8.0 // along a row
	for _, side := range []float64{300, 465, 511, 520} {
		size := int(side) + 60
		img := image.NewRGBA(image.Rect(0, 0, size, size))
		f := Figure{Size: Pt(float64(size), float64(size)), Paper: Hex("#FFFFFF"), Static: func(s *Surface) {
			s.Polygon(Box(30, 20, side, side).Ring(), Fill{Pattern: Pattern{Kind: Hatch, Colour: Hex("#000000"), Pitch: pitch / 1.4142135623730951, Width: 0.8}})
		}}
		f.DrawStatic(img, 1)
		want := (size - 95) / int(pitch)
		for y := 40; y < size-60; y++ {
			lines, on := 0, false
			for x := 45; x < size-50; x++ {
				dark := img.Pix[img.PixOffset(x, y)] < 200
				if dark && !on {
					lines++
				}
				on = dark
			}
			if lines < want-2 {
				t.Fatalf("%.0f points wide: row %d crosses %d lines, want %d", side, y, lines, want)
			}
		}
	}
}
