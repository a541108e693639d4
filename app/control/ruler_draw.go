package control

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// CreateRenderer makes the drawing. It is of as few things as can be, since
// each costs the toolkit time in every picture.
func (r *Ruler) CreateRenderer() fyne.WidgetRenderer {
	d := &rulerRenderer{r: r, title: new(canvas.Text), knob: new(canvas.Circle)}
	for _, p := range []**canvas.Rectangle{&d.back, &d.base, &d.reach, &d.free, &d.zero, &d.needle} {
		*p = new(canvas.Rectangle)
	}
	for i := range d.end {
		d.end[i] = rulerEnd{new(canvas.Rectangle), new(canvas.Text)}
	}
	d.Refresh()
	return d
}

// rulerEnd draws the bar where a movement stops, and its value.
type rulerEnd struct {
	bar  *canvas.Rectangle
	text *canvas.Text
}

type rulerRenderer struct {
	r            *Ruler
	back, base   *canvas.Rectangle
	reach        *canvas.Rectangle // a thin line as far as the model goes
	free         *canvas.Rectangle // what of it lies within the native range
	zero, needle *canvas.Rectangle
	knob         *canvas.Circle
	end          [2]rulerEnd
	title        *canvas.Text
}

func (d *rulerRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{
		d.back, d.base, d.reach, d.free, d.zero, d.end[0].bar, d.end[1].bar,
		d.title, d.end[0].text, d.end[1].text, d.needle, d.knob,
	}
}

func (d *rulerRenderer) Destroy() {}

// Heights of the parts of a ruler.
const (
	rulerBar  = 7
	rulerThin = 2 // beyond the native range
	rulerFoot = 13
)

func (d *rulerRenderer) MinSize() fyne.Size {
	return fyne.NewSize(240, d.title.MinSize().Height+rulerFoot)
}

// within returns how far an end is free within the native range.
func (e Reach) within() float64 {
	if e.Native > 0 {
		return max(min(e.At, e.Native), 0)
	}
	return max(e.At, 0)
}

func (d *rulerRenderer) Layout(size fyne.Size) {
	r := d.r
	y := d.title.MinSize().Height + 2
	d.back.Resize(size)
	put(d.base, 0, y, size.Width, rulerBar)
	put(d.zero, size.Width/2-0.5, y-2, 1, rulerBar+4)
	// The title of a ruler with one end stands on the empty side.
	x := (size.Width - d.title.MinSize().Width) / 2
	switch {
	case r.high.Asked && !r.low.Asked:
		x = 0
	case r.low.Asked && !r.high.Asked:
		x = size.Width - d.title.MinSize().Width
	}
	d.title.Move(fyne.NewPos(x, 0))
	stretch := func(o *canvas.Rectangle, low, high float64, thick float32) {
		a, b := r.place(-low), r.place(high)
		put(o, a, y+(rulerBar-thick)/2, b-a, thick)
	}
	stretch(d.reach, max(r.low.At, 0), max(r.high.At, 0), rulerThin)
	stretch(d.free, r.low.within(), r.high.within(), rulerBar)
	for i, e := range []Reach{r.low, r.high} {
		at := r.place(float64(2*i-1) * e.At)
		put(d.end[i].bar, at-1.5, y-3, 3, rulerBar+6)
		x := float32(i) * (size.Width - d.end[i].text.MinSize().Width)
		d.end[i].text.Move(fyne.NewPos(x, 0))
	}
	x = r.place(r.needle)
	put(d.needle, x-1, y-3, 2, rulerBar+6)
	put(d.knob, x-4, y+rulerBar/2-4, 8, 8)
}

func (d *rulerRenderer) Refresh() {
	l, r := lookOf(d.r), d.r
	d.back.FillColor, d.back.CornerRadius = transparent, 3
	if r.focused {
		d.back.FillColor = l.th.Color(colourFocus, variant())
	}
	d.base.FillColor = l.th.Color(colourSeparator, variant())
	d.zero.FillColor, d.reach.FillColor, d.free.FillColor = l.Axis, l.Axis, l.Free.Line
	show(d.reach, r.low.Grey || r.high.Grey)
	d.title.Text, d.title.TextSize, d.title.Color = r.title, l.caption, l.Soft
	for i, e := range []Reach{r.low, r.high} {
		bar, text := d.end[i].bar, d.end[i].text
		show(bar, e.Asked && e.Stopped && e.At <= Span)
		show(text, e.Asked)
		bar.FillColor = l.Contact.Line
		text.Text, text.TextSize, text.Color, text.TextStyle.Bold = e.Text, l.caption, color.Color(l.Ink), !e.Grey
		if e.Grey {
			text.Color, bar.FillColor = l.Soft, l.Axis
		}
	}
	d.needle.FillColor = l.Ink
	d.knob.StrokeColor, d.knob.StrokeWidth, d.knob.FillColor = l.Ink, 1.5, l.Paper
	show(d.needle, !r.hidden)
	show(d.knob, !r.hidden)
	show(d.zero, r.hidden || r.needle != 0)
	if r.onLine {
		d.knob.FillColor = l.Ink
	}
	d.Layout(r.Size())
	canvas.Refresh(r)
}
