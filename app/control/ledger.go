package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// LedgerLine is one entry of a ledger: a name, its value, and what is said of it below.
type LedgerLine struct {
	Name, Value, Below string
	Grey               bool
	About              string // the key of the number it shows
}

// Ledger is a list of values with words under each.
type Ledger struct {
	widget.BaseWidget

	OnAsk func(number string) // what is the number of a line

	lines []LedgerLine
	feet  []float32 // the lower edge of each line
}

// NewLedger returns an empty ledger.
func NewLedger() *Ledger {
	l := &Ledger{}
	l.ExtendBaseWidget(l)
	return l
}

// Display shows the lines.
func (l *Ledger) Display(lines []LedgerLine) {
	l.lines = lines
	l.Refresh()
}

// Lines returns what is shown.
func (l *Ledger) Lines() []LedgerLine { return l.lines }

// CreateRenderer makes the drawing.
func (l *Ledger) CreateRenderer() fyne.WidgetRenderer {
	r := &ledgerRenderer{l: l}
	r.Refresh()
	return r
}

type ledgerRow struct {
	value       *canvas.Text
	name, below *widget.Label
	rule        *canvas.Rectangle
}

type ledgerRenderer struct {
	l    *Ledger
	rows []ledgerRow
	all  []fyne.CanvasObject
	in   look
	high float32
}

func (r *ledgerRenderer) Objects() []fyne.CanvasObject { return r.all }
func (r *ledgerRenderer) Destroy()                     {}
func (r *ledgerRenderer) MinSize() fyne.Size           { return fyne.NewSize(240, r.high) }

func (r *ledgerRenderer) Layout(size fyne.Size) {
	y := float32(0)
	r.l.feet = r.l.feet[:0]
	for i, w := range r.rows {
		pad, value := lookOf(r.l).th.Size("innerPadding"), w.value.MinSize()
		wide := size.Width - value.Width - 8
		w.name.Resize(fyne.NewSize(wide+2*pad, 1))
		h := w.name.MinSize().Height
		put(w.name, -pad, y+4-pad, wide+2*pad, h)
		put(w.value, size.Width-value.Width, y+4, value.Width, value.Height)
		y += h - 2*pad + 4
		w.below.Resize(fyne.NewSize(size.Width+2*pad, 1))
		h = w.below.MinSize().Height
		put(w.below, -pad, y-pad+1, size.Width+2*pad, h)
		y += h - 2*pad + 6
		put(w.rule, 0, y, size.Width, 1)
		if i < len(r.l.lines) {
			r.l.feet = append(r.l.feet, y)
		}
	}
	r.high = y + 1
}

func (r *ledgerRenderer) Refresh() {
	k := lookOf(r.l)
	r.in.onto(r.l, r.all...)
	for len(r.rows) < len(r.l.lines) {
		w := ledgerRow{new(canvas.Text), widget.NewLabel(""), widget.NewLabel(""), new(canvas.Rectangle)}
		w.name.Wrapping, w.name.SizeName = fyne.TextWrapWord, "helperText"
		w.below.Wrapping, w.below.SizeName, w.below.Importance = fyne.TextWrapWord, "helperText", widget.LowImportance
		r.rows = append(r.rows, w)
		r.all = append(r.all, w.name, w.value, w.below, w.rule)
	}
	for i, w := range r.rows {
		on := i < len(r.l.lines)
		for _, o := range []fyne.CanvasObject{w.name, w.value, w.below, w.rule} {
			show(o, on)
		}
		if !on {
			continue
		}
		e := r.l.lines[i]
		if w.name.Text != e.Name {
			w.name.SetText(e.Name)
		}
		w.value.Text, w.value.Color, w.value.TextSize, w.value.TextStyle.Bold = e.Value, k.Ink, k.caption, !e.Grey
		if e.Grey {
			w.value.Color = k.Soft
		}
		w.rule.FillColor = k.th.Color(colourSeparator, variant())
		if w.below.Text != e.Below {
			w.below.SetText(e.Below)
		}
	}
	r.Layout(r.l.Size())
	canvas.Refresh(r.l)
}
