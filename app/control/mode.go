package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Mode names the view that is open, in the strip at the left edge: a sign of a
// head in its cup, and the view's name.
type Mode struct {
	widget.BaseWidget

	Hint *Hint

	name, help string
}

// NewMode returns the sign of the view that is open.
func NewMode(name, help string) *Mode {
	m := &Mode{name: name, help: help}
	m.ExtendBaseWidget(m)
	return m
}

// MouseIn offers the hint.
func (m *Mode) MouseIn(e *desktop.MouseEvent) { m.Hint.Offer(m, m.help, e.AbsolutePosition) }

// MouseMoved keeps it back while the pointer moves.
func (m *Mode) MouseMoved(e *desktop.MouseEvent) { m.Hint.Offer(m, m.help, e.AbsolutePosition) }

// MouseOut takes it away.
func (m *Mode) MouseOut() { m.Hint.Withdraw(m) }

// CreateRenderer makes the drawing.
func (m *Mode) CreateRenderer() fyne.WidgetRenderer {
	r := &modeRenderer{m, new(canvas.Rectangle), new(canvas.Arc), new(canvas.Circle), new(canvas.Rectangle), new(canvas.Text)}
	r.Refresh()
	return r
}

type modeRenderer struct {
	m    *Mode
	edge *canvas.Rectangle
	cup  *canvas.Arc
	head *canvas.Circle
	neck *canvas.Rectangle
	name *canvas.Text
}

func (r *modeRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.edge, r.cup, r.neck, r.head, r.name}
}

func (r *modeRenderer) Destroy() {}

func (r *modeRenderer) MinSize() fyne.Size {
	t := r.name.MinSize()
	return fyne.NewSize(t.Width, 40+t.Height)
}

func (r *modeRenderer) Layout(size fyne.Size) {
	put(r.edge, 0, 4, 3, size.Height-8)
	const d = 24
	x := (size.Width - d) / 2
	put(r.cup, x, 8, d, d)
	put(r.head, x+6, 14, d-12, d-12)
	put(r.neck, size.Width/2-2, 20, 4, 16)
	t := r.name.MinSize()
	r.name.Move(fyne.NewPos((size.Width-t.Width)/2, size.Height-t.Height-2))
}

func (r *modeRenderer) Refresh() {
	l := lookOf(r.m)
	tone := l.Designs[0].Text
	r.edge.FillColor, r.edge.CornerRadius = tone, 1.5
	r.cup.StartAngle, r.cup.EndAngle, r.cup.CutoutRatio, r.cup.FillColor = -90, 90, 0.72, l.Ink
	r.head.FillColor = l.Soft
	r.neck.FillColor = l.Soft
	r.name.Text, r.name.TextSize, r.name.Color, r.name.TextStyle.Bold = r.m.name, l.caption, l.Ink, true
	r.Layout(r.m.Size())
	canvas.Refresh(r.m)
}
