package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Spec is what a dial shows of a value: words, unit, range.
type Spec struct {
	Name, Help, Unit        string
	Min, Max, Step, Default float64
	Decimals                int
	Optional                bool // 0 means that there is none
	Reset                   string
}

// Dial is a value with its name, an entry, its unit, a button that resets it,
// and a track. A value that is refused stays on show with the reason under it.
type Dial struct {
	widget.BaseWidget

	// Change is asked to take a value; it returns why it cannot be, or "".
	Change func(float64) string
	Hint   *Hint

	spec    Spec
	refusal string

	name    *canvas.Text
	entry   *Number
	field   *container.ThemeOverride // of the entry
	track   *Track
	reset   *IconButton
	message *widget.Label
}

// NewDial returns a dial at its default.
func NewDial(s Spec) *Dial {
	d := &Dial{spec: s, name: canvas.NewText(s.Name, nil)}
	d.entry = NewNumber(s.Step, s.Decimals)
	d.entry.Unit = s.Unit
	d.field = container.NewThemeOverride(d.entry, outlined{fyne.CurrentApp().Settings().Theme()})
	d.track = NewTrack(s.Min, s.Max, s.Step, s.Default)
	d.entry.Absent, d.track.Absent = s.Optional, s.Optional
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
	r := &dialRenderer{d}
	r.Refresh()
	return r
}

type dialRenderer struct{ d *Dial }

func (r *dialRenderer) Objects() []fyne.CanvasObject {
	d := r.d
	return []fyne.CanvasObject{d.name, d.reset, d.field, d.track, d.message}
}

func (r *dialRenderer) Destroy() {}

func (r *dialRenderer) MinSize() fyne.Size {
	d := r.d
	s := d.entry.MinSize()
	h := s.Height + d.track.MinSize().Height
	if d.message.Visible() {
		h += d.message.MinSize().Height - lookOf(d).th.Size(theme.SizeNameInnerPadding)
	}
	return fyne.NewSize(d.name.MinSize().Width+d.reset.MinSize().Width+s.Width+8, h)
}

func (r *dialRenderer) Layout(size fyne.Size) {
	d := r.d
	e, b := d.entry.MinSize(), d.reset.MinSize()
	put(d.name, 0, (e.Height-d.name.MinSize().Height)/2, size.Width-e.Width-b.Width-8, d.name.MinSize().Height)
	put(d.reset, size.Width-e.Width-b.Width-4, (e.Height-b.Height)/2, b.Width, b.Height)
	put(d.field, size.Width-e.Width, 0, e.Width, e.Height)
	t := d.track.MinSize().Height
	put(d.track, 0, e.Height, size.Width, t)
	pad := lookOf(d).th.Size(theme.SizeNameInnerPadding)
	put(d.message, -pad, e.Height+t-pad, size.Width+2*pad, d.message.MinSize().Height)
}

func (r *dialRenderer) Refresh() {
	l, d := lookOf(r.d), r.d
	d.name.Color, d.name.TextSize = l.Ink, l.text
	r.Layout(d.Size())
	canvas.Refresh(d)
}

// SetHint says where the help of the dial and of its button appears.
func (d *Dial) SetHint(h *Hint) { d.Hint, d.reset.Hint = h, h }
