package view

import (
	"os"
	"testing"

	"fyne.io/fyne/v2/driver/software"

	"rimclear/app/control"
	"rimclear/assets"
)

// On a screen with two pixels to the unit, where sizes are rounded elsewhere.
func TestNoTextIsCutOffOnADenseScreen(t *testing.T) {
	sizes := shownAt[1][:1]
	if os.Getenv("RIMCLEAR_LONG") == "1" {
		sizes = shownAt[1]
	}
	for _, k := range []float32{1, 1.5} {
		s := assets.Cases()[0]
		p := openPages(t, s.Data, &control.Theme{Brightness: control.AlwaysLight, Scale: k})
		p.window.Canvas().(software.WindowlessCanvas).SetScale(2)
		p.leafed(t, s.Name+" in twice the pixels", k, sizes)
	}
}
