package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Spec is what a dial shows of a value: words, unit, range.
type Spec struct {
	Name, Help, Unit        string
	Point                   string // before the decimals, "" for a point
	Min, Max, Step, Default float64
	Decimals                int
	Optional                bool // 0 means that there is none
	Reset                   string
	None                    string // stands in the entry where there is none
}

// Dial is a value with its name, an entry, its unit, a button that resets it,
// and a track. A value that is refused stays on show with the reason under it.
// It stands in a Group, which draws the name and the track.
type Dial struct {
	widget.BaseWidget

	// Change is asked to take a value; it returns why it cannot be, or "".
	Change func(float64) string
	// Held says at what a value that was tried stops; nil holds nothing.
	Held func(float64) float64
	Hint *Hint

	spec    Spec
	refusal string

	entry   *Number
	track   *Track
	reset   *IconButton
	message *widget.Label
}

// NewDial returns a dial at its default.
func NewDial(s Spec) *Dial {
	d := &Dial{spec: s}
	d.entry = NewNumber(s.Step, s.Decimals)
	d.entry.Unit, d.entry.Point = s.Unit, s.Point
	d.track = NewTrack(s.Min, s.Max, s.Step, s.Default)
	d.entry.Absent, d.track.Absent = s.Optional, s.Optional
	if s.Optional {
		d.entry.PlaceHolder = s.None
	}
	d.entry.OnCommit, d.track.OnChanged = d.try, d.try
	d.reset = NewIconButton(theme.ContentUndoIcon(), s.Reset, func() { d.try(s.Default) })
	d.message = widget.NewLabel("")
	d.message.Wrapping = fyne.TextWrapWord
	d.message.Importance = widget.DangerImportance
	d.message.SizeName = theme.SizeNameCaptionText
	d.message.Hide()
	d.ExtendBaseWidget(d)
	d.Display(s.Default)
	return d
}

// try asks for a value and shows it, taken or refused.
func (d *Dial) try(v float64) {
	if d.Held != nil {
		v = d.Held(v)
	}
	reason := ""
	if d.Change != nil {
		reason = d.Change(v)
	}
	if reason == "" {
		d.Display(v)
		return
	}
	d.refusal = reason
	d.show(v)
}

// Display shows the value that holds.
func (d *Dial) Display(v float64) {
	d.refusal = ""
	d.show(v)
}

func (d *Dial) show(v float64) {
	if v == v {
		d.entry.Display(v)
		d.track.Display(v)
	}
	d.reset.SetEnabled(v != d.spec.Default)
	if d.refusal != d.message.Text {
		d.message.SetText(d.refusal)
	}
	if hidden := d.refusal == ""; hidden == d.message.Visible() {
		d.message.Hidden = hidden
		d.Refresh()
	}
}

// Refusal returns why the value on show is refused, "" if it is not.
func (d *Dial) Refusal() string { return d.refusal }

// Track and Entry are the parts that can be moved.
func (d *Dial) Track() *Track { return d.track }

// Entry is the part that can be typed in.
func (d *Dial) Entry() *Number { return d.entry }

// MouseIn shows the help.
func (d *Dial) MouseIn(e *desktop.MouseEvent) { d.Hint.Offer(d, d.spec.Help, e.AbsolutePosition) }

// MouseMoved keeps the help back while the pointer moves.
func (d *Dial) MouseMoved(e *desktop.MouseEvent) { d.Hint.Offer(d, d.spec.Help, e.AbsolutePosition) }

// MouseOut takes the help away.
func (d *Dial) MouseOut() { d.Hint.Withdraw(d) }

// CreateRenderer makes the drawing.
func (d *Dial) CreateRenderer() fyne.WidgetRenderer {
	r := &dialRenderer{d: d}
	r.Refresh()
	return r
}

type dialRenderer struct {
	d  *Dial
	in look
}

func (r *dialRenderer) Objects() []fyne.CanvasObject {
	d := r.d
	return []fyne.CanvasObject{d.reset, d.entry, d.track, d.message}
}

func (r *dialRenderer) Destroy() {}

// roomForName is the width, before the text is enlarged, from which a name is
// set in smaller letters, so that no name makes the whole column wider.
const roomForName = 150

// name is the name as it is drawn.
func (d *Dial) name(l look) word {
	w := word{text: d.spec.Name, size: l.text, colour: opaque(l.Ink)}
	if w.wide() > roomForName*l.text/13 {
		w.size = l.caption
	}
	return w
}

func (r *dialRenderer) MinSize() fyne.Size {
	d := r.d
	s, l := d.entry.MinSize(), lookOf(d)
	h := s.Height + trackHigh
	if d.message.Visible() {
		h += d.message.MinSize().Height - l.th.Size(theme.SizeNameInnerPadding)
	}
	return fyne.NewSize(d.name(l).wide()+d.reset.MinSize().Width+s.Width+8, h)
}

func (r *dialRenderer) Layout(size fyne.Size) {
	d := r.d
	e, b := d.entry.MinSize(), d.reset.MinSize()
	put(d.reset, size.Width-e.Width-b.Width-4, (e.Height-b.Height)/2, b.Width, b.Height)
	put(d.entry, size.Width-e.Width, 0, e.Width, e.Height)
	put(d.track, 0, e.Height, size.Width, trackHigh)
	pad := lookOf(d).th.Size(theme.SizeNameInnerPadding)
	put(d.message, -pad, e.Height+trackHigh-pad, size.Width+2*pad, d.message.MinSize().Height)
}

func (r *dialRenderer) Refresh() {
	r.in.onto(r.d, r.Objects()...)
	r.Layout(r.d.Size())
	canvas.Refresh(r.d)
	r.d.track.redraw()
}

// drawnBy says who draws name and track.
func (d *Dial) drawnBy(changed func()) { d.track.drawnBy(changed) }

// paint draws name and track.
func (d *Dial) paint(k ink, l look, at fyne.Position) {
	w := d.name(l)
	k.text(at.X, at.Y+(d.entry.Size().Height-w.high())/2, w)
	d.track.paint(k, l, at.Add(d.track.Position()))
}

// SetHint says where the help of the dial and of its parts appears.
func (d *Dial) SetHint(h *Hint) {
	d.Hint, d.reset.Hint, d.track.hint = h, h, h
	d.track.help = d.spec.Help
}
