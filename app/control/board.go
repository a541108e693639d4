package control

import (
	"image"
	"image/color"
	"image/draw"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/figure"
)

// Board shows a figure that is drawn whenever the window is: what it shows is
// never older than what was last changed. A place on it is picked by pressing
// or dragging, and nudged with the arrow keys.
type Board struct {
	widget.BaseWidget
	pane
	Inquiry

	// Draw draws the figure, of a size in points, into an image of so many
	// pixels to the point, and returns where data lie on it.
	Draw func(img *image.RGBA, size figure.Point, scale float64) figure.Frame
	// Pick is told where in the data the pointer is pressed or dragged.
	Pick func(x, y float64)
	// Nudge is told by how many steps the arrow keys move.
	Nudge func(x, y int)
	Hint  *Hint
	Help  string

	frame figure.Frame
	edge  *canvas.Rectangle
	held  bool
}

// NewBoard returns an empty board.
func NewBoard() *Board {
	b := &Board{edge: canvas.NewRectangle(color.Transparent)}
	b.paintedBy(b.Paint)
	b.edge.Hide()
	b.ExtendBaseWidget(b)
	return b
}

// Redraw has the figure drawn anew.
func (b *Board) Redraw() { canvas.Refresh(b.raster) }

// Frame returns where data lay when it was last drawn.
func (b *Board) Frame() figure.Frame { return b.frame }

// Paint draws in device pixels. The image is used again.
func (b *Board) Paint(w, h int) image.Image {
	b.sized(w, h)
	size := b.Size()
	if b.Draw == nil || size.Width <= 0 {
		draw.Draw(b.picture, b.picture.Rect, image.NewUniform(lookOf(b).Paper), image.Point{}, draw.Src)
		return b.picture
	}
	b.frame = b.Draw(b.picture, figure.Pt(float64(size.Width), float64(size.Height)), float64(w)/float64(size.Width))
	return b.picture
}

func (b *Board) pick(at fyne.Position) {
	if b.Pick != nil && b.frame.Box.Max != b.frame.Box.Min {
		b.Pick(b.frame.Data(figure.Pt(float64(at.X), float64(at.Y))))
	}
}

// MouseDown picks the place that is pressed.
func (b *Board) MouseDown(e *desktop.MouseEvent) {
	at := figure.Pt(float64(e.Position.X), float64(e.Position.Y))
	b.held = e.Button == desktop.MouseButtonPrimary && b.frame.Box.Contains(at)
	b.Hint.Withdraw(b)
	if b.held {
		focus(b)
		b.pick(e.Position)
	}
}

// MouseUp ends a drag.
func (b *Board) MouseUp(*desktop.MouseEvent) {}

// Dragged picks the place under the pointer.
func (b *Board) Dragged(e *fyne.DragEvent) {
	if b.held {
		b.pick(e.Position)
	}
}

// DragEnd ends a drag.
func (b *Board) DragEnd() { b.held = false }

// TypedKey nudges by a step, with Page up and down by ten.
func (b *Board) TypedKey(e *fyne.KeyEvent) {
	if b.typed(e) || b.Nudge == nil {
		return
	}
	switch e.Name {
	case fyne.KeyLeft:
		b.Nudge(-1, 0)
	case fyne.KeyRight:
		b.Nudge(1, 0)
	case fyne.KeyUp:
		b.Nudge(0, 1)
	case fyne.KeyDown:
		b.Nudge(0, -1)
	case fyne.KeyPageUp:
		b.Nudge(0, 10)
	case fyne.KeyPageDown:
		b.Nudge(0, -10)
	case fyne.KeyHome:
		b.Nudge(-10, 0)
	case fyne.KeyEnd:
		b.Nudge(10, 0)
	}
}

// TypedRune does nothing.
func (b *Board) TypedRune(rune) {}

// FocusGained shows the focus.
func (b *Board) FocusGained() { b.edge.Show(); b.Refresh() }

// FocusLost hides it.
func (b *Board) FocusLost() { b.edge.Hide(); b.Refresh() }

// MouseIn offers the help.
func (b *Board) MouseIn(e *desktop.MouseEvent) { b.Hint.Offer(b, b.Help, e.AbsolutePosition) }

// MouseMoved offers the help once the pointer rests.
func (b *Board) MouseMoved(e *desktop.MouseEvent) { b.Hint.Offer(b, b.Help, e.AbsolutePosition) }

// MouseOut takes it away.
func (b *Board) MouseOut() { b.Hint.Withdraw(b) }

// CreateRenderer makes the drawing.
func (b *Board) CreateRenderer() fyne.WidgetRenderer { return &boardRenderer{b} }

type boardRenderer struct{ b *Board }

func (r *boardRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.b.raster, r.b.edge}
}
func (r *boardRenderer) Destroy()           {}
func (r *boardRenderer) MinSize() fyne.Size { return fyne.NewSize(240, 180) }

func (r *boardRenderer) Layout(size fyne.Size) {
	r.b.raster.Resize(size)
	r.b.edge.Resize(size)
}

func (r *boardRenderer) Refresh() {
	r.b.edge.StrokeColor, r.b.edge.StrokeWidth = lookOf(r.b).Designs[0].Text, 1.5
	canvas.Refresh(r.b)
	r.b.Redraw()
}
