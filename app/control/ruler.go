package control

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Reach is one end of a ruler: how far a movement goes, in degrees of its own
// direction.
type Reach struct {
	Asked   bool    // something is known of this direction
	At      float64 // where it stops, or where it was no longer followed
	Stopped bool    // by contact
	Native  float64 // passive range of native hips, 0 where none is known
	Grey    bool    // beyond that range
	Text    string  // the value in words
	Detail  string  // one sentence, shown as a hint
}

// Ruler shows how far a joint angle goes both ways from zero, what stops it,
// and where it stands. Its needle is dragged, or moved by the arrow keys. It
// stands in a column of Rulers, which draws it.
type Ruler struct {
	widget.BaseWidget
	Inquiry

	Moved func(degrees float64) // the needle was moved by hand
	Hint  *Hint

	title     string
	low, high Reach
	needle    float64
	onLine    bool
	hidden    bool // the needle
	needs     []Need

	focused bool
	above   func() bool // its title stands on a line of its own
	drawn
}

// Span is how far a ruler reaches on either side of zero, in degrees.
const Span = 135

// NewRuler returns a ruler for the angle that title names.
func NewRuler(title string) *Ruler {
	r := &Ruler{title: title}
	r.ExtendBaseWidget(r)
	return r
}

// Display shows the two ends.
func (r *Ruler) Display(low, high Reach) {
	if low != r.low || high != r.high {
		r.low, r.high = low, high
		r.redraw()
	}
}

// Stretch moves the ends and leaves their words, which cost more to draw.
func (r *Ruler) Stretch(low, high Reach) {
	low.Text, low.Detail, low.Grey = r.low.Text, r.low.Detail, r.low.Grey
	high.Text, high.Detail, high.Grey = r.high.Text, r.high.Detail, r.high.Grey
	r.Display(low, high)
}

// Point puts the needle at an angle. onLine says whether the posture is one of
// those the ruler asks about; if not, the needle is hollow, or absent if faint.
func (r *Ruler) Point(degrees float64, onLine, faint bool) {
	hidden := faint && !onLine
	if degrees != r.needle || onLine != r.onLine || hidden != r.hidden {
		r.needle, r.onLine, r.hidden = degrees, onLine, hidden
		r.redraw()
	}
}

// SetTitle changes the title.
func (r *Ruler) SetTitle(s string) {
	if s != r.title {
		r.title = s
		r.redraw()
	}
}

// CreateRenderer makes a place for the pointer and the keyboard, with nothing
// in it.
func (r *Ruler) CreateRenderer() fyne.WidgetRenderer { return blank(fyne.Size{}) }

func (r *Ruler) place(deg float64) float32 {
	return r.Size().Width / 2 * float32(1+min(max(deg/Span, -1), 1))
}

func (r *Ruler) move(deg float64) {
	deg = min(max(math.Round(deg*2)/2, -Span), Span)
	if r.Moved != nil && (deg != r.needle || !r.onLine) {
		r.Moved(deg)
	}
}

func (r *Ruler) moveTo(x float32) {
	if w := r.Size().Width; w > 0 {
		r.move(float64(2*x/w-1) * Span)
	}
}

// MouseDown brings the needle to the pointer.
func (r *Ruler) MouseDown(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary {
		focus(r)
		r.Hint.Withdraw(r)
		r.moveTo(e.Position.X)
	}
}

// MouseUp ends a drag.
func (r *Ruler) MouseUp(*desktop.MouseEvent) {}

// Dragged follows the pointer.
func (r *Ruler) Dragged(e *fyne.DragEvent) { r.moveTo(e.Position.X) }

// DragEnd ends a drag.
func (r *Ruler) DragEnd() {}

// TypedKey moves the needle by half a degree, by five, to zero, or to a limit.
func (r *Ruler) TypedKey(e *fyne.KeyEvent) {
	if r.typed(e) {
		return
	}
	switch e.Name {
	case fyne.KeyLeft:
		r.move(r.needle - 0.5)
	case fyne.KeyRight:
		r.move(r.needle + 0.5)
	case fyne.KeyPageDown:
		r.move(r.needle - 5)
	case fyne.KeyPageUp:
		r.move(r.needle + 5)
	case fyne.KeyHome:
		r.move(-r.low.At)
	case fyne.KeyEnd:
		r.move(r.high.At)
	case fyne.KeyDelete, fyne.KeyBackspace:
		r.move(0)
	}
}

// TypedRune does nothing.
func (r *Ruler) TypedRune(rune) {}

// FocusGained shows the focus.
func (r *Ruler) FocusGained() { r.focused = true; r.redraw() }

// FocusLost hides it.
func (r *Ruler) FocusLost() { r.focused = false; r.redraw() }

// MouseIn offers the sentence of the side the pointer is on.
func (r *Ruler) MouseIn(e *desktop.MouseEvent) { r.MouseMoved(e) }

// MouseMoved offers the sentence of the side the pointer is on.
func (r *Ruler) MouseMoved(e *desktop.MouseEvent) {
	text := r.high.Detail
	if e.Position.X < r.Size().Width/2 {
		text = r.low.Detail
	}
	r.Hint.Offer(r, text, e.AbsolutePosition)
}

// MouseOut takes the sentence away.
func (r *Ruler) MouseOut() { r.Hint.Withdraw(r) }

// Cursor is the one for things that move sideways.
func (r *Ruler) Cursor() desktop.Cursor { return desktop.HResizeCursor }
