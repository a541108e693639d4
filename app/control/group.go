package control

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Group is a headed list that opens and closes. What is in its rest is shown
// only when asked for. Headings, names and tracks are drawn as one picture.
type Group struct {
	widget.BaseWidget
	pane

	OnFold func() // after it was opened or closed

	head *header
	more *header
	main []fyne.CanvasObject
	rest []fyne.CanvasObject
}

// NewGroup returns an open group; without main rows it is closed, and opens to
// the rest. more names what shows the rest.
func NewGroup(title, more string, main, rest []fyne.CanvasObject) *Group {
	g := &Group{main: main, rest: rest}
	if len(main) == 0 {
		g.main, g.rest = rest, nil
	}
	g.head = newHeader(title, len(main) > 0, g.fold)
	g.more = newHeader(more, false, g.fold)
	g.more.plain = true
	g.paintedBy(g.Paint)
	g.ExtendBaseWidget(g)
	for _, o := range g.parts() {
		if p, ok := o.(painted); ok {
			p.drawnBy(g.redraw)
		}
	}
	g.arrange()
	return g
}

// SetHint says where the help of its headings appears, and what it is: on
// opening and closing, and on showing the rest.
func (g *Group) SetHint(h *Hint, open, more string) {
	g.head.hint, g.head.help = h, open
	g.more.hint, g.more.help = h, more
}

// SetOpen opens or closes it.
func (g *Group) SetOpen(open bool) {
	if g.head.open != open {
		g.head.toggle()
	}
}

// SetMore shows or hides the rest.
func (g *Group) SetMore(open bool) {
	if g.more.open != open {
		g.more.toggle()
	}
}

// Open reports whether it is open.
func (g *Group) Open() bool { return g.head.open }

func (g *Group) fold() {
	g.arrange()
	g.Refresh()
	if g.OnFold != nil {
		g.OnFold()
	}
}

// arrange shows what is to be seen.
func (g *Group) arrange() {
	for _, o := range g.main {
		show(o, g.head.open)
	}
	show(g.more, g.head.open && len(g.rest) > 0)
	for _, o := range g.rest {
		show(o, g.head.open && g.more.open)
	}
}

// Paint draws the group in device pixels. The image is used again.
func (g *Group) Paint(w, h int) image.Image {
	l := lookOf(g)
	k, ok := g.begin(g, w, h, l.Panel)
	if !ok {
		return g.picture
	}
	for _, o := range g.parts() {
		if p, ok := o.(painted); ok && o.Visible() {
			p.paint(k, l, o.Position())
		}
	}
	return g.picture
}

// parts are all that is in it, in order.
func (g *Group) parts() []fyne.CanvasObject {
	return append(append([]fyne.CanvasObject{g.head, g.more}, g.main...), g.rest...)
}

func show(o fyne.CanvasObject, on bool) {
	if on {
		o.Show()
	} else {
		o.Hide()
	}
}

// CreateRenderer makes the drawing.
func (g *Group) CreateRenderer() fyne.WidgetRenderer { return &groupRenderer{g: g} }

type groupRenderer struct {
	g  *Group
	in look
}

func (r *groupRenderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.g.raster}, r.g.parts()...)
}

func (r *groupRenderer) Destroy() {}

// Space between the rows of a group, and on its sides.
const (
	rowGap  = 2
	sideGap = 10
)

func (r *groupRenderer) MinSize() fyne.Size {
	var s fyne.Size
	for _, o := range r.g.parts() {
		if o.Visible() && o != fyne.CanvasObject(r.g.more) {
			m := whole(o.MinSize())
			s.Width, s.Height = max(s.Width, m.Width+2*sideGap), s.Height+m.Height+rowGap
		}
	}
	return s
}

func (r *groupRenderer) Layout(size fyne.Size) {
	r.g.raster.Resize(size)
	y := float32(0)
	for _, o := range r.g.parts() {
		if !o.Visible() {
			continue
		}
		if o == fyne.CanvasObject(r.g.more) {
			m := o.MinSize()
			put(o, size.Width-m.Width, 0, m.Width, r.g.head.MinSize().Height)
			continue
		}
		x := float32(sideGap)
		if o == fyne.CanvasObject(r.g.head) {
			x = 0
		}
		h := whole(o.MinSize()).Height
		put(o, x, y, size.Width-2*x, h)
		if hh := whole(o.MinSize()).Height; hh != h {
			h = hh
			o.Resize(fyne.NewSize(size.Width-2*x, h))
		}
		y += h + rowGap
	}
}

func (r *groupRenderer) Refresh() {
	r.in.onto(r.g, r.g.parts()...)
	r.Layout(r.g.Size())
	canvas.Refresh(r.g)
	r.g.redraw()
}

// header is the line that opens and closes.
type header struct {
	widget.BaseWidget

	title            string
	hint             *Hint
	help             string
	open, plain      bool
	act              func()
	focused, hovered bool
	drawn
}

func newHeader(title string, open bool, act func()) *header {
	h := &header{title: title, open: open, act: act}
	h.ExtendBaseWidget(h)
	return h
}

func (h *header) toggle() {
	h.open = !h.open
	h.redraw()
	h.act()
}

func (h *header) Tapped(*fyne.PointEvent) { h.toggle() }

func (h *header) TypedKey(e *fyne.KeyEvent) {
	switch {
	case e.Name == fyne.KeySpace, e.Name == fyne.KeyReturn, e.Name == fyne.KeyEnter,
		e.Name == fyne.KeyRight && !h.open, e.Name == fyne.KeyLeft && h.open:
		h.toggle()
	}
}

func (h *header) TypedRune(rune) {}
func (h *header) FocusGained()   { h.focused = true; h.redraw() }
func (h *header) FocusLost()     { h.focused = false; h.redraw() }

func (h *header) MouseIn(e *desktop.MouseEvent) {
	h.hovered = true
	h.redraw()
	h.MouseMoved(e)
}

func (h *header) MouseMoved(e *desktop.MouseEvent) { h.hint.Offer(h, h.help, e.AbsolutePosition) }

func (h *header) MouseOut() {
	h.hovered = false
	h.redraw()
	h.hint.Withdraw(h)
}

func (h *header) Cursor() desktop.Cursor { return desktop.PointerCursor }

// CreateRenderer makes a place for the pointer and the keyboard; the group
// draws it.
func (h *header) CreateRenderer() fyne.WidgetRenderer { return &headerRenderer{h: h} }

type headerRenderer struct {
	blankRenderer
	h *header
}

func (r *headerRenderer) MinSize() fyne.Size {
	w := r.h.word(lookOf(r.h))
	if r.h.plain {
		return whole(fyne.NewSize(w.wide()+18, w.high()+7))
	}
	return whole(fyne.NewSize(w.wide()+36, w.high()+7))
}

// word is the title as it is drawn.
func (h *header) word(l look) word {
	if h.plain {
		return word{text: h.title, size: l.caption, colour: opaque(l.Soft), bold: h.open}
	}
	return word{text: h.title, size: l.text, colour: opaque(l.Ink), bold: true}
}

// paint draws ground, arrow and title; plain ones have no ground and no arrow.
func (h *header) paint(k ink, l look, at fyne.Position) {
	w, size := h.word(l), h.Size()
	if !h.plain {
		k.rect(at.X, at.Y, size.Width, size.Height, l.th.Color(theme.ColorNameButton, variant()))
	}
	if h.focused {
		k.rect(at.X, at.Y, size.Width, size.Height, l.th.Color(theme.ColorNameFocus, variant()))
	} else if h.hovered {
		k.rect(at.X, at.Y, size.Width, size.Height, l.th.Color(theme.ColorNameHover, variant()))
	}
	x := at.X + 8
	if !h.plain {
		k.triangle(x, at.Y+(size.Height-l.text)/2, l.text, h.open, l.Ink)
		x += l.text + 6
	}
	k.text(x, at.Y+(size.Height-w.high())/2, w)
}
