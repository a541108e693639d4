package control

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Chip is a small button that can be the chosen one of its row. Design, where
// it is 0 to 3, gives it that design's colour and dashes.
type Chip struct {
	widget.BaseWidget

	Design int
	Solid  bool // nothing shows through it, as over a picture
	Hint   *Hint

	text, help       string
	act              func()
	chosen           bool
	focused, hovered bool
}

// NewChip returns a chip without a design.
func NewChip(text, help string, act func()) *Chip {
	c := &Chip{Design: -1, text: text, help: help, act: act}
	c.ExtendBaseWidget(c)
	return c
}

// SetText changes the words.
func (c *Chip) SetText(s string) {
	if s != c.text {
		c.text = s
		c.Refresh()
	}
}

// SetChosen says whether it is the chosen one.
func (c *Chip) SetChosen(on bool) {
	if on != c.chosen {
		c.chosen = on
		c.Refresh()
	}
}

// Tapped does what the chip is for.
func (c *Chip) Tapped(*fyne.PointEvent) { c.act() }

// TypedKey does it with Space or Enter.
func (c *Chip) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace || e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter {
		c.act()
	}
}

// TypedRune does nothing.
func (c *Chip) TypedRune(rune) {}

// FocusGained shows the focus.
func (c *Chip) FocusGained() { c.focused = true; c.Refresh() }

// FocusLost hides it.
func (c *Chip) FocusLost() { c.focused = false; c.Refresh() }

// MouseIn shows that it can be pressed.
func (c *Chip) MouseIn(e *desktop.MouseEvent) {
	c.hovered = true
	c.Refresh()
	c.MouseMoved(e)
}

// MouseMoved offers the hint.
func (c *Chip) MouseMoved(e *desktop.MouseEvent) { c.Hint.Offer(c, c.help, e.AbsolutePosition) }

// MouseOut undoes MouseIn.
func (c *Chip) MouseOut() {
	c.hovered = false
	c.Refresh()
	c.Hint.Withdraw(c)
}

// CreateRenderer makes the drawing.
func (c *Chip) CreateRenderer() fyne.WidgetRenderer {
	r := &chipRenderer{c: c, back: new(canvas.Rectangle), text: new(canvas.Text)}
	for i := range r.dash {
		r.dash[i] = new(canvas.Rectangle)
	}
	r.Refresh()
	return r
}

type chipRenderer struct {
	c    *Chip
	back *canvas.Rectangle
	text *canvas.Text
	dash [8]*canvas.Rectangle
}

func (r *chipRenderer) Objects() []fyne.CanvasObject {
	o := []fyne.CanvasObject{r.back, r.text}
	for _, d := range r.dash {
		o = append(o, d)
	}
	return o
}

func (r *chipRenderer) Destroy() {}

func (r *chipRenderer) MinSize() fyne.Size {
	m := r.text.MinSize()
	return fyne.NewSize(max(m.Width+20, 34), m.Height+10)
}

func (r *chipRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	m := r.text.MinSize()
	r.text.Move(fyne.NewPos((size.Width-m.Width)/2, (size.Height-m.Height)/2-1))
	r.layoutDash(size)
}

// layoutDash draws a line in the design's dashes along the foot.
func (r *chipRenderer) layoutDash(size fyne.Size) {
	for _, d := range r.dash {
		d.Hide()
	}
	if r.c.Design < 0 {
		return
	}
	const high, inset = 3, 5
	pattern := lookOf(r.c).Designs[r.c.Design].Dash
	x, k := float32(inset), 0
	for i := 0; x < size.Width-inset && k < len(r.dash); i++ {
		w := size.Width - 2*inset
		if len(pattern) > 0 {
			w = float32(pattern[i%len(pattern)])
		}
		if i%2 == 0 {
			put(r.dash[k], x, size.Height-high-2, min(w, size.Width-inset-x), high)
			r.dash[k].Show()
			k++
		}
		x += w
	}
}

// over returns a wash of colour as it looks over what is below it, where the
// chip is solid.
func (c *Chip) over(wash, below color.Color) color.Color {
	if !c.Solid {
		return wash
	}
	top, base := color.NRGBAModel.Convert(wash).(color.NRGBA), color.NRGBAModel.Convert(below).(color.NRGBA)
	mix := func(a, b uint8) uint8 { return uint8((int(a)*int(top.A) + int(b)*(255-int(top.A))) / 255) }
	return color.NRGBA{R: mix(top.R, base.R), G: mix(top.G, base.G), B: mix(top.B, base.B), A: 255}
}

func (r *chipRenderer) Refresh() {
	l, c := lookOf(r.c), r.c
	r.text.Text, r.text.TextSize, r.text.Color, r.text.TextStyle.Bold = c.text, l.text, l.Ink, c.chosen
	r.back.CornerRadius, r.back.StrokeWidth = 4, 1
	r.back.FillColor, r.back.StrokeColor = transparent, l.th.Color(theme.ColorNameSeparator, variant())
	if c.Solid {
		r.back.FillColor = l.Panel
	}
	if c.chosen {
		r.back.FillColor, r.back.StrokeColor = l.Paper, l.Axis
	}
	if c.Design >= 0 {
		r.text.Color = l.Designs[c.Design].Text
		for _, d := range r.dash {
			d.FillColor = l.Designs[c.Design].Line
		}
		if c.chosen {
			r.back.StrokeColor, r.back.StrokeWidth = l.Designs[c.Design].Text, 2
		}
	}
	switch {
	case c.focused:
		r.back.FillColor = c.over(l.th.Color(theme.ColorNameFocus, variant()), r.back.FillColor)
	case c.hovered:
		r.back.FillColor = c.over(l.th.Color(theme.ColorNameHover, variant()), r.back.FillColor)
	}
	r.Layout(c.Size())
	canvas.Refresh(c)
}
