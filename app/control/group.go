package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Group is a headed list that opens and closes. What is in its Rest is shown
// only when asked for.
type Group struct {
	widget.BaseWidget

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
	g.ExtendBaseWidget(g)
	g.arrange()
	return g
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

func show(o fyne.CanvasObject, on bool) {
	if on {
		o.Show()
	} else {
		o.Hide()
	}
}

// CreateRenderer makes the drawing.
func (g *Group) CreateRenderer() fyne.WidgetRenderer { return &groupRenderer{g} }

type groupRenderer struct{ g *Group }

func (r *groupRenderer) Objects() []fyne.CanvasObject {
	all := append([]fyne.CanvasObject{r.g.head, r.g.more}, r.g.main...)
	return append(all, r.g.rest...)
}

func (r *groupRenderer) Destroy() {}

// Space between the rows of a group, and on its sides.
const (
	rowGap  = 2
	sideGap = 10
)

func (r *groupRenderer) MinSize() fyne.Size {
	var s fyne.Size
	for _, o := range r.Objects() {
		if o.Visible() && o != fyne.CanvasObject(r.g.more) {
			m := o.MinSize()
			s.Width, s.Height = max(s.Width, m.Width+2*sideGap), s.Height+m.Height+rowGap
		}
	}
	return s
}

func (r *groupRenderer) Layout(size fyne.Size) {
	y := float32(0)
	for _, o := range r.Objects() {
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
		h := o.MinSize().Height
		put(o, x, y, size.Width-2*x, h)
		if hh := o.MinSize().Height; hh != h {
			h = hh
			o.Resize(fyne.NewSize(size.Width-2*x, h))
		}
		y += h + rowGap
	}
}

func (r *groupRenderer) Refresh() {
	r.Layout(r.g.Size())
	canvas.Refresh(r.g)
}

// header is the line that opens and closes.
type header struct {
	widget.BaseWidget

	title            string
	open, plain      bool
	act              func()
	focused, hovered bool
}

func newHeader(title string, open bool, act func()) *header {
	h := &header{title: title, open: open, act: act}
	h.ExtendBaseWidget(h)
	return h
}

func (h *header) toggle() {
	h.open = !h.open
	h.Refresh()
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

func (h *header) TypedRune(rune)                 {}
func (h *header) FocusGained()                   { h.focused = true; h.Refresh() }
func (h *header) FocusLost()                     { h.focused = false; h.Refresh() }
func (h *header) MouseIn(*desktop.MouseEvent)    { h.hovered = true; h.Refresh() }
func (h *header) MouseMoved(*desktop.MouseEvent) {}
func (h *header) MouseOut()                      { h.hovered = false; h.Refresh() }
func (h *header) Cursor() desktop.Cursor         { return desktop.PointerCursor }
func (h *header) CreateRenderer() fyne.WidgetRenderer {
	r := &headerRenderer{h, new(canvas.Rectangle), new(canvas.Text), widget.NewIcon(nil)}
	r.Refresh()
	return r
}

type headerRenderer struct {
	h    *header
	back *canvas.Rectangle
	text *canvas.Text
	icon *widget.Icon
}

func (r *headerRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.back, r.icon, r.text}
}

func (r *headerRenderer) Destroy() {}

func (r *headerRenderer) MinSize() fyne.Size {
	m := r.text.MinSize()
	if r.h.plain {
		return fyne.NewSize(m.Width+18, m.Height+7)
	}
	return fyne.NewSize(m.Width+36, m.Height+7)
}

func (r *headerRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	s, x := r.text.TextSize+2, float32(8)
	put(r.icon, x, (size.Height-s)/2, s, s)
	if r.h.plain {
		s = -4
	}
	r.text.Move(fyne.NewPos(x+s+4, (size.Height-r.text.MinSize().Height)/2))
}

func (r *headerRenderer) Refresh() {
	l, h := lookOf(r.h), r.h
	r.text.Text, r.text.TextStyle.Bold = h.title, !h.plain
	r.text.Color, r.text.TextSize = l.Ink, l.text
	r.back.FillColor = l.th.Color(theme.ColorNameButton, variant())
	if h.plain {
		r.text.Color, r.text.TextSize, r.back.FillColor = l.Soft, l.caption, transparent
	}
	if h.focused {
		r.back.FillColor = l.th.Color(theme.ColorNameFocus, variant())
	} else if h.hovered {
		r.back.FillColor = l.th.Color(theme.ColorNamePressed, variant())
	}
	icon := theme.MenuExpandIcon()
	if h.open {
		icon = theme.MenuDropDownIcon()
	}
	r.icon.SetResource(icon)
	show(r.icon, !h.plain)
	r.text.TextStyle.Underline = h.plain && h.open
	canvas.Refresh(h)
}
