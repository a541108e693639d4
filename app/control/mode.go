package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Mode names the view that is open, in the strip at the left edge: a sign of a
// head in its cup, and the view's name.
type Mode struct {
	widget.BaseWidget

	Hint   *Hint
	Sign   Sign
	Open   func() // opens the view; nil for the one that is open
	around bool   // the pointer is on it, or the keyboard

	name, help string
}

// Sign tells one view from another in the strip.
type Sign int

// The signs of the views.
const (
	JointSign  Sign = iota // a head in its cup
	TargetSign             // a ring about a point
	TwinSign               // two rings side by side
	PersonSign             // a head over shoulders
)

// NewMode returns the sign of the view that is open.
func NewMode(name, help string) *Mode {
	m := &Mode{name: name, help: help}
	m.ExtendBaseWidget(m)
	return m
}

// Tapped opens the view.
func (m *Mode) Tapped(*fyne.PointEvent) {
	if m.Open != nil {
		m.Open()
	}
}

// TypedKey opens it with Space or Enter.
func (m *Mode) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace || e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter {
		m.Tapped(nil)
	}
}

// TypedRune does nothing.
func (m *Mode) TypedRune(rune) {}

// FocusGained shows the focus.
func (m *Mode) FocusGained() { m.mark(true) }

// FocusLost hides it.
func (m *Mode) FocusLost() { m.mark(false) }

func (m *Mode) mark(on bool) { m.around = on && m.Open != nil; m.Refresh() }

// MouseIn offers the hint.
func (m *Mode) MouseIn(e *desktop.MouseEvent) {
	m.mark(true)
	m.Hint.Offer(m, m.help, e.AbsolutePosition)
}

// MouseMoved keeps it back while the pointer moves.
func (m *Mode) MouseMoved(e *desktop.MouseEvent) { m.Hint.Offer(m, m.help, e.AbsolutePosition) }

// MouseOut takes it away.
func (m *Mode) MouseOut() {
	m.mark(false)
	m.Hint.Withdraw(m)
}

// CreateRenderer makes the drawing.
func (m *Mode) CreateRenderer() fyne.WidgetRenderer {
	r := &modeRenderer{m, new(canvas.Rectangle), new(canvas.Rectangle), new(canvas.Arc), new(canvas.Circle), new(canvas.Rectangle), new(canvas.Text), new(canvas.Arc)}
	r.Refresh()
	return r
}

type modeRenderer struct {
	m    *Mode
	back *canvas.Rectangle
	edge *canvas.Rectangle
	cup  *canvas.Arc
	head *canvas.Circle
	neck *canvas.Rectangle
	name *canvas.Text
	twin *canvas.Arc
}

func (r *modeRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.back, r.edge, r.cup, r.neck, r.head, r.name, r.twin}
}

func (r *modeRenderer) Destroy() {}

func (r *modeRenderer) MinSize() fyne.Size {
	t := r.name.MinSize()
	return fyne.NewSize(t.Width, 40+t.Height)
}

func (r *modeRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	put(r.edge, 0, 4, 3, size.Height-8)
	const d = 24
	x := (size.Width - d) / 2
	put(r.cup, x, 8, d, d)
	put(r.head, x+6, 14, d-12, d-12)
	if r.m.Sign == TargetSign {
		put(r.head, x+8, 16, d-16, d-16)
	}
	if r.m.Sign == TwinSign {
		put(r.cup, x-4, 12, 15, 15)
		put(r.twin, x+d-11, 12, 15, 15)
	}
	if r.m.Sign == PersonSign {
		put(r.cup, x, 20, d, d)
		put(r.head, x+7, 8, d-14, d-14)
	}
	put(r.neck, size.Width/2-2, 20, 4, 16)
	t := r.name.MinSize()
	r.name.Move(fyne.NewPos((size.Width-t.Width)/2, size.Height-t.Height-2))
}

func (r *modeRenderer) Refresh() {
	l := lookOf(r.m)
	tone := l.Designs[0].Text
	open := r.m.Open == nil
	r.edge.FillColor, r.edge.CornerRadius = tone, 1.5
	r.back.FillColor = transparent
	if r.m.around {
		r.back.FillColor = l.th.Color(theme.ColorNameHover, variant())
	}
	show(r.edge, open)
	r.cup.StartAngle, r.cup.EndAngle, r.cup.CutoutRatio, r.cup.FillColor = -90, 90, 0.72, l.Ink
	if r.m.Sign == TargetSign {
		r.cup.StartAngle, r.cup.EndAngle, r.cup.CutoutRatio = 0, 360, 0.8
	}
	if r.m.Sign == TwinSign {
		r.cup.StartAngle, r.cup.EndAngle, r.cup.CutoutRatio = 0, 360, 0.7
	}
	if r.m.Sign == PersonSign {
		r.cup.StartAngle, r.cup.EndAngle, r.cup.CutoutRatio = -90, 90, 0
	}
	r.twin.StartAngle, r.twin.EndAngle, r.twin.CutoutRatio, r.twin.FillColor = 0, 360, 0.7, l.Soft
	show(r.twin, r.m.Sign == TwinSign)
	show(r.head, r.m.Sign != TwinSign)
	show(r.neck, r.m.Sign == JointSign)
	r.head.FillColor = l.Soft
	r.neck.FillColor = l.Soft
	r.name.Text, r.name.TextSize, r.name.Color, r.name.TextStyle.Bold = r.m.name, l.caption, l.Ink, open
	if !open {
		r.name.Color = l.Soft
	}
	r.Layout(r.m.Size())
	canvas.Refresh(r.m)
}
