package control

import (
	"image/color"
	"math"

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

// whole rounds a size up to whole units, so that what is drawn as a picture
// lies on the screen's own pixels where a unit is one.
func whole(s fyne.Size) fyne.Size {
	return fyne.NewSize(float32(math.Ceil(float64(s.Width))), float32(math.Ceil(float64(s.Height))))
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

// drawn is part of a widget that another one draws.
type drawn struct{ changed func() }

// redraw has the widget drawn anew.
func (d *drawn) redraw() {
	if d.changed != nil {
		d.changed()
	}
}

// drawnBy says who draws it.
func (d *drawn) drawnBy(changed func()) { d.changed = changed }

// painted is what a group draws of the rows in it.
type painted interface {
	drawnBy(func())
	paint(k ink, l look, at fyne.Position)
}

// blank is the renderer of a widget that another one draws.
func blank(least fyne.Size) fyne.WidgetRenderer { return &blankRenderer{least: least} }

type blankRenderer struct {
	least   fyne.Size
	objects []fyne.CanvasObject
}

func (r *blankRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *blankRenderer) Destroy()                     {}
func (r *blankRenderer) MinSize() fyne.Size           { return r.least }
func (r *blankRenderer) Layout(fyne.Size)             {}
func (r *blankRenderer) Refresh()                     {}
