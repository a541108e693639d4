package control

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// transparent is the very value by which the toolkit knows that there is nothing
// to draw; any other colour without opacity costs as much as a full one.
var transparent = color.Transparent

const (
	colourSeparator = theme.ColorNameSeparator
	colourFocus     = theme.ColorNameFocus
)

func variant() fyne.ThemeVariant { return fyne.CurrentApp().Settings().ThemeVariant() }

// put moves and resizes an object.
func put(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(w, h))
}

// focus gives the keyboard to a widget, where it is on a canvas.
func focus(w interface {
	fyne.CanvasObject
	fyne.Focusable
}) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(w); c != nil && c.Focused() != fyne.Focusable(w) {
		c.Focus(w)
	}
}
