package control

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// CreateRenderer makes the drawing.
func (r *Ruler) CreateRenderer() fyne.WidgetRenderer {
	d := &rulerRenderer{r: r, title: new(canvas.Text), needle: new(canvas.Rectangle), knob: new(canvas.Circle)}
	for _, p := range []**canvas.Rectangle{&d.back, &d.base, &d.zero} {
		*p = new(canvas.Rectangle)
	}
	for i := range d.side {
		d.side[i] = rulerSide{new(canvas.Rectangle), new(canvas.Rectangle), new(canvas.Rectangle), new(canvas.Text)}
	}
	d.Refresh()
	return d
}

// rulerSide draws one end: the free stretch, what of it lies beyond the native
// range, the bar of the contact, and the value.
type rulerSide struct {
	free, beyond, bar *canvas.Rectangle
	text              *canvas.Text
}

type rulerRenderer struct {
	r                *Ruler
	back, base, zero *canvas.Rectangle
	side             [2]rulerSide
	title            *canvas.Text
	needle           *canvas.Rectangle
	knob             *canvas.Circle
}

func (d *rulerRenderer) Objects() []fyne.CanvasObject {
	o := []fyne.CanvasObject{d.back, d.base}
	for _, s := range d.side {
		o = append(o, s.free, s.beyond, s.bar, s.text)
	}
	return append(o, d.zero, d.title, d.needle, d.knob)
}

func (d *rulerRenderer) Destroy() {}

// Heights of the parts of a ruler.
const (
	rulerBar  = 7
	rulerThin = 2 // beyond the native range
	rulerFoot = 13
)

func (d *rulerRenderer) MinSize() fyne.Size {
	h := d.title.MinSize().Height
	return fyne.NewSize(240, h+rulerFoot)
}

func (d *rulerRenderer) Layout(size fyne.Size) {
	r, head := d.r, d.title.MinSize().Height
	y := head + 2
	d.back.Resize(size)
	put(d.base, 0, y, size.Width, rulerBar)
	put(d.zero, size.Width/2-0.5, y-2, 1, rulerBar+4)
	d.title.Move(fyne.NewPos((size.Width-d.title.MinSize().Width)/2, 0))
	for i, s := range d.side {
		d.layoutSide(s, []Reach{r.low, r.high}[i], float64(2*i-1), y, size)
	}
	x := r.place(r.needle)
	put(d.needle, x-1, y-3, 2, rulerBar+6)
	put(d.knob, x-4, y+rulerBar/2-4, 8, 8)
}

// layoutSide lays out one end; sign is its direction along the ruler.
func (d *rulerRenderer) layoutSide(s rulerSide, e Reach, sign float64, y float32, size fyne.Size) {
	for _, o := range []fyne.CanvasObject{s.free, s.beyond, s.bar, s.text} {
		show(o, e.Asked)
	}
	if !e.Asked {
		return
	}
	inside := e.At
	if e.Native > 0 {
		inside = min(e.At, e.Native)
	}
	stretch := func(o *canvas.Rectangle, from, to float64, high float32) {
		a, b := d.r.place(sign*from), d.r.place(sign*to)
		put(o, min(a, b), y+(rulerBar-high)/2, max(a, b)-min(a, b), high)
	}
	stretch(s.free, 0, max(inside, 0), rulerBar)
	stretch(s.beyond, max(inside, 0), max(e.At, 0), rulerThin)
	put(s.bar, d.r.place(sign*e.At)-1.5, y-3, 3, rulerBar+6)
	show(s.bar, e.Stopped && e.At <= Span)
	x := float32(0)
	if sign > 0 {
		x = size.Width - s.text.MinSize().Width
	}
	s.text.Move(fyne.NewPos(x, 0))
}

func (d *rulerRenderer) Refresh() {
	l, r := lookOf(d.r), d.r
	d.back.FillColor, d.back.CornerRadius = transparent, 3
	if r.focused {
		d.back.FillColor = l.th.Color(colourFocus, variant())
	}
	d.base.FillColor = l.th.Color(colourSeparator, variant())
	d.zero.FillColor = l.Axis
	d.title.Text, d.title.TextSize, d.title.Color = r.title, l.caption, l.Soft
	for i, s := range d.side {
		e := []Reach{r.low, r.high}[i]
		s.free.FillColor, s.beyond.FillColor = l.Free.Line, l.Axis
		s.bar.FillColor = l.Contact.Line
		s.text.Text, s.text.TextSize, s.text.Color = e.Text, l.caption, color.Color(l.Ink)
		s.text.TextStyle.Bold = !e.Grey
		if e.Grey {
			s.text.Color, s.bar.FillColor = l.Soft, l.Axis
		}
	}
	d.needle.FillColor = l.Ink
	d.knob.StrokeColor, d.knob.StrokeWidth, d.knob.FillColor = l.Ink, 1.5, l.Paper
	show(d.needle, !r.hidden)
	show(d.knob, !r.hidden)
	if r.onLine {
		d.knob.FillColor = l.Ink
	}
	d.Layout(r.Size())
	canvas.Refresh(r)
}
