package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Told is a label that says a number and can be asked about it: with a click,
// with F2, Space or Enter.
type Told struct {
	widget.Label
	Inquiry

	Hint *Hint
	Help string
	// Part returns the key of the number at a place, where there are several.
	Part func(x float32) string

	edge *canvas.Rectangle
}

// NewTold returns an empty label that wraps.
func NewTold() *Told {
	t := &Told{edge: new(canvas.Rectangle)}
	t.Wrapping = fyne.TextWrapWord
	t.edge.Hide()
	t.ExtendBaseWidget(t)
	return t
}

// Tapped asks about the number under the pointer.
func (t *Told) Tapped(e *fyne.PointEvent) {
	if t.Part == nil {
		t.inquire()
		return
	}
	if key := t.Part(e.Position.X); key != "" && t.Ask != nil {
		t.Ask(key)
	}
}

// TypedKey asks with F2, Space or Enter.
func (t *Told) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace || e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter {
		t.inquire()
		return
	}
	t.typed(e)
}

// TypedRune does nothing.
func (t *Told) TypedRune(rune) {}

// FocusGained shows the focus.
func (t *Told) FocusGained() { t.edge.Show(); t.Refresh() }

// FocusLost hides it.
func (t *Told) FocusLost() { t.edge.Hide(); t.Refresh() }

// MouseIn offers the hint.
func (t *Told) MouseIn(e *desktop.MouseEvent) { t.MouseMoved(e) }

// MouseMoved keeps it back while the pointer moves.
func (t *Told) MouseMoved(e *desktop.MouseEvent) { t.Hint.Offer(t, t.Help, e.AbsolutePosition) }

// MouseOut takes it away.
func (t *Told) MouseOut() { t.Hint.Withdraw(t) }

// CreateRenderer draws the label with an edge where it has the focus.
func (t *Told) CreateRenderer() fyne.WidgetRenderer {
	return &toldRenderer{t.Label.CreateRenderer(), t}
}

type toldRenderer struct {
	fyne.WidgetRenderer
	t *Told
}

func (r *toldRenderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.t.edge}, r.WidgetRenderer.Objects()...)
}

func (r *toldRenderer) Layout(size fyne.Size) {
	put(r.t.edge, 0, 0, size.Width, size.Height)
	r.WidgetRenderer.Layout(size)
}

func (r *toldRenderer) Refresh() {
	l := lookOf(r.t)
	r.t.edge.FillColor, r.t.edge.CornerRadius = l.th.Color(colourFocus, variant()), 3
	r.WidgetRenderer.Refresh()
	canvas.Refresh(r.t)
}
