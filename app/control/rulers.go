package control

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Rulers is a column of rulers, drawn as one picture, with captions between
// them.
type Rulers struct {
	widget.BaseWidget
	pane

	OnGrow func() // the column has become taller

	rows    []rulerRow
	legend  Legend
	stacked fyne.Size // the width, and size of letters, at which titles needed a line of their own
}

// rulerRow is a ruler, or a caption alone.
type rulerRow struct {
	ruler   *Ruler
	caption string
}

// NewRulers returns an empty column.
func NewRulers() *Rulers {
	s := &Rulers{}
	s.paintedBy(s.Paint)
	s.ExtendBaseWidget(s)
	return s
}

// Add adds a ruler at the foot.
func (s *Rulers) Add(r *Ruler) {
	r.drawnBy(s.redraw)
	r.above = s.titlesAbove
	s.rows = append(s.rows, rulerRow{ruler: r})
}

// AddCaption adds words at the foot.
func (s *Rulers) AddCaption(text string) { s.rows = append(s.rows, rulerRow{caption: text}) }

// Paint draws the column in device pixels. The image is used again.
func (s *Rulers) Paint(w, h int) image.Image {
	l := lookOf(s)
	k, ok := s.begin(s, w, h, l.Panel)
	if !ok {
		return s.picture
	}
	for _, row := range s.rows {
		if row.ruler != nil {
			row.ruler.paint(k, l)
		}
	}
	y := float32(0)
	for _, row := range s.rows {
		if row.ruler == nil {
			t := word{text: row.caption, size: l.caption, colour: opaque(l.Soft)}
			k.text((s.Size().Width-k.words.wide(t))/2, y, t)
		}
		y += s.high(row, l)
	}
	s.paintLegend(k, l, y)
	return s.picture
}

// Heights of the parts of a ruler.
const (
	rulerBar  = 7
	rulerThin = 2 // beyond the native range
	rulerFoot = 14
	rulerNeed = 5 // between words and bar, for marks
)

// titlesAbove reports whether the titles stand on a line of their own. Once there
// was no room between the ends they keep it until the column is of another
// width, so that nothing jumps while a value changes.
func (s *Rulers) titlesAbove() bool { return s.stacked == s.measure() && s.stacked.Width > 0 }

func (s *Rulers) measure() fyne.Size { return fyne.NewSize(s.Size().Width, lookOf(s).caption) }

// Fit makes room for titles that have come to lie over the words beside them.
func (s *Rulers) Fit() {
	if s.Size().Width <= 0 || s.titlesAbove() {
		return
	}
	l := lookOf(s)
	for _, row := range s.rows {
		if r := row.ruler; r != nil && !r.fits(l, s.Size().Width) {
			s.stacked = s.measure()
			s.Refresh()
			if s.OnGrow != nil {
				s.OnGrow()
			}
			return
		}
	}
}

// fits reports whether the title of a ruler has room beside the words of its
// ends: in the middle with two of them, else beside the one.
func (r *Ruler) fits(l look, wide float32) bool {
	of := func(text string, bold bool) float32 { return word{text: text, size: l.caption, bold: bold}.wide() }
	low, high, title := of(r.low.Text, true), of(r.high.Text, true), of(r.title, false)
	const gap = 6
	if r.low.Asked && r.high.Asked {
		return title/2+max(low, high)+gap <= wide/2
	}
	return title+low+high+gap <= wide
}

func (s *Rulers) high(row rulerRow, l look) float32 {
	size := fyne.MeasureText("0", l.caption, fyne.TextStyle{})
	if row.ruler != nil {
		if s.titlesAbove() {
			size.Height *= 2
		}
		size.Height += rulerFoot
		if len(row.ruler.needs) > 0 {
			size.Height += rulerNeed
		}
	}
	return whole(size).Height
}

// CreateRenderer makes the drawing.
func (s *Rulers) CreateRenderer() fyne.WidgetRenderer { return &rulersRenderer{s} }

type rulersRenderer struct{ s *Rulers }

func (r *rulersRenderer) Objects() []fyne.CanvasObject {
	o := []fyne.CanvasObject{r.s.raster}
	for _, row := range r.s.rows {
		if row.ruler != nil {
			o = append(o, row.ruler)
		}
	}
	return o
}

func (r *rulersRenderer) Destroy() {}

func (r *rulersRenderer) MinSize() fyne.Size {
	l, h := lookOf(r.s), float32(0)
	for _, row := range r.s.rows {
		h += r.s.high(row, l)
	}
	return fyne.NewSize(240, h)
}

func (r *rulersRenderer) Layout(size fyne.Size) {
	r.s.raster.Resize(size)
	l, y := lookOf(r.s), float32(0)
	for _, row := range r.s.rows {
		h := r.s.high(row, l)
		if row.ruler != nil {
			put(row.ruler, 0, y, size.Width, h-1)
		}
		y += h
	}
	r.s.Fit()
}

func (r *rulersRenderer) Refresh() {
	r.Layout(r.s.Size())
	canvas.Refresh(r.s)
	r.s.redraw()
}

// within returns how far an end is free within the native range.
func (e Reach) within() float64 {
	if e.Native > 0 {
		return max(min(e.At, e.Native), 0)
	}
	return max(e.At, 0)
}

// paint draws a ruler where it stands in its column.
func (r *Ruler) paint(k ink, l look) {
	top, wide := r.Position().Y, r.Size().Width
	if r.focused {
		k.rect(0, top, wide, r.Size().Height, l.th.Color(colourFocus, variant()))
	}
	head := fyne.MeasureText("0", l.caption, fyne.TextStyle{}).Height
	above := r.above != nil && r.above()
	if above {
		r.paintTitle(k, l, top, true)
		top += head
	}
	y := top + head + 2
	if len(r.needs) > 0 {
		y += rulerNeed
	}
	k.rect(0, y, wide, rulerBar, l.th.Color(colourSeparator, variant()))
	stretch := func(low, high float64, thick float32, c color.Color) {
		a, b := r.place(-low), r.place(high)
		k.rect(a, y+(rulerBar-thick)/2, b-a, thick, c)
	}
	stretch(max(r.low.At, 0), max(r.high.At, 0), rulerThin, l.Axis)
	stretch(r.low.within(), r.high.within(), rulerBar, l.Free.Line)
	k.rect(wide/2-0.5, y-2, 1, rulerBar+4, l.Axis)
	for i, e := range []Reach{r.low, r.high} {
		r.paintEnd(k, l, i, e, top, y)
	}
	if !above {
		r.paintTitle(k, l, top, false)
	}
	r.paintNeeds(k, l, y)
	if r.hidden {
		return
	}
	x := r.place(r.needle)
	k.rect(x-1, y-3, 2, rulerBar+6, l.Ink)
	fill := color.Color(l.Paper)
	if r.onLine {
		fill = l.Ink
	}
	k.disc(x, y+rulerBar/2, 4, 1.5, fill, l.Ink)
}

// paintEnd draws the bar where a movement stops, and its value.
func (r *Ruler) paintEnd(k ink, l look, side int, e Reach, top, y float32) {
	if !e.Asked {
		return
	}
	bar, text := color.Color(l.Contact.Line), word{text: e.Text, size: l.caption, bold: !e.Grey, colour: opaque(l.Ink)}
	if e.Grey {
		bar, text.colour = l.Axis, opaque(l.Soft)
	}
	if e.Stopped && e.At <= Span {
		k.rect(r.place(float64(2*side-1)*e.At)-1.5, y-3, 3, rulerBar+6, bar)
	}
	k.text(float32(side)*(r.Size().Width-k.words.wide(text)), top, text)
}

// paintTitle draws the title in the middle; that of a ruler with one end stands
// on the empty side.
func (r *Ruler) paintTitle(k ink, l look, top float32, alone bool) {
	t := word{text: r.title, size: l.caption, colour: opaque(l.Soft)}
	wide := k.words.wide(t)
	x := (r.Size().Width - wide) / 2
	switch {
	case alone:
	case r.high.Asked && !r.low.Asked:
		x = 0
	case r.low.Asked && !r.high.Asked:
		x = r.Size().Width - wide
	}
	k.text(x, top, t)
}
