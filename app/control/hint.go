package control

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Hint is the layer over a window on which one sentence of help appears when
// the pointer has rested on something. A nil Hint does nothing.
type Hint struct {
	widget.BaseWidget

	// After calls a function later on the goroutine that draws, and returns
	// what calls that off.
	After func(time.Duration, func()) (stop func())

	plate *canvas.Rectangle
	text  *widget.Label
	owner any
	stop  func()
}

// NewHint returns the layer; it lies over the whole content of a window.
func NewHint(after func(time.Duration, func()) func()) *Hint {
	h := &Hint{After: after, plate: new(canvas.Rectangle), text: widget.NewLabel("")}
	h.text.Wrapping = fyne.TextWrapWord
	h.text.SizeName = theme.SizeNameCaptionText
	h.hide()
	h.ExtendBaseWidget(h)
	return h
}

// rest is how long the pointer rests before a hint appears.
const rest = 600 * time.Millisecond

// Offer shows a sentence near a place of the window once the pointer rests on
// its owner.
func (h *Hint) Offer(owner any, sentence string, at fyne.Position) {
	if h == nil || sentence == "" || h.owner == owner && h.plate.Visible() {
		return
	}
	h.Withdraw(nil)
	h.owner = owner
	h.stop = h.After(rest, func() {
		if h.owner == owner {
			h.show(sentence, at)
		}
	})
}

// Withdraw takes the hint of an owner away, any with a nil owner.
func (h *Hint) Withdraw(owner any) {
	if h == nil || owner != nil && owner != h.owner {
		return
	}
	if h.stop != nil {
		h.stop()
	}
	h.owner, h.stop = nil, nil
	if h.plate.Visible() {
		h.hide()
		canvas.Refresh(h)
	}
}

func (h *Hint) hide() {
	h.plate.Hidden, h.text.Hidden = true, true
}

// hintWidth is the width of a hint before its text is enlarged.
const hintWidth = 260

func (h *Hint) show(sentence string, at fyne.Position) {
	origin := fyne.CurrentApp().Driver().AbsolutePositionForObject(h)
	at = at.Subtract(origin)
	h.text.SetText(sentence)
	wide := min(hintWidth*lookOf(h).text/13, h.Size().Width)
	h.text.Resize(fyne.NewSize(wide, 1))
	high := h.text.MinSize().Height
	x := min(max(at.X+12, 0), h.Size().Width-wide)
	y := at.Y + 18
	if y+high > h.Size().Height {
		y = at.Y - 8 - high
	}
	put(h.plate, x, y, wide, high)
	put(h.text, x, y, wide, high)
	h.plate.Hidden, h.text.Hidden = false, false
	h.Refresh()
}

// CreateRenderer makes the drawing.
func (h *Hint) CreateRenderer() fyne.WidgetRenderer { return &hintRenderer{h} }

type hintRenderer struct{ h *Hint }

func (r *hintRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.h.plate, r.h.text} }

func (r *hintRenderer) Destroy() {}

func (r *hintRenderer) MinSize() fyne.Size { return fyne.Size{} }

func (r *hintRenderer) Layout(fyne.Size) {}

func (r *hintRenderer) Refresh() {
	l := lookOf(r.h)
	p := r.h.plate
	p.FillColor, p.StrokeColor, p.StrokeWidth, p.CornerRadius = l.Paper, l.Axis, 1, 3
	canvas.Refresh(r.h)
}
