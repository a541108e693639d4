package e2e

import (
	"image"
	"image/color"
	"slices"
	"testing"
)

func TestPicturesDifferByTheShareOfChangedPixels(t *testing.T) {
	a, b := image.NewRGBA(image.Rect(0, 0, 10, 10)), image.NewRGBA(image.Rect(0, 0, 10, 10))
	if got := Changed(a, b); got != 0 {
		t.Errorf("Changed(same, same) = %v, want 0", got)
	}
	for x := range 5 {
		b.Set(x, 3, color.RGBA{G: 200, A: 255})
	}
	b.Set(9, 9, color.RGBA{R: 8}) // too little to see
	if got := Changed(a, b); got != 0.05 {
		t.Errorf("Changed(five of a hundred pixels) = %v, want 0.05", got)
	}
	if got := Changed(a, image.NewRGBA(image.Rect(0, 0, 9, 10))); got != 1 {
		t.Errorf("Changed(other size) = %v, want 1", got)
	}
}

func TestLineKeepsItsEnds(t *testing.T) {
	got := Line(image.Pt(10, 0), image.Pt(0, 4), 4)
	want := []image.Point{{10, 0}, {8, 1}, {5, 2}, {3, 3}, {0, 4}}
	if !slices.Equal(got, want) {
		t.Errorf("Line = %v, want %v", got, want)
	}
}

func TestPlaceUnknownToTheStateIsAnError(t *testing.T) {
	s := State{Places: map[string][4]int{"joint": {300, 40, 600, 500}}}
	if got, err := s.Place("joint"); err != nil || got != image.Rect(300, 40, 900, 540) {
		t.Errorf("Place(joint) = %v, %v", got, err)
	}
	if _, err := s.Place("cup"); err == nil {
		t.Error("Place(cup) reports success")
	}
}
