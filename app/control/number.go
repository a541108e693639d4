package control

import (
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Number is an entry for a number. Enter or leaving it commits what was typed;
// Escape takes it back; the arrow keys go up and down by a step.
type Number struct {
	widget.Entry

	Step     float64
	Decimals int
	Unit     string        // written behind the number
	Point    string        // written before the decimals, "" for a point
	Absent   bool          // empty stands for 0, which means that there is none
	OnCommit func(float64) // NaN where no number was typed

	value  float64
	typing bool
}

// NewNumber returns an entry as wide as a text.
func NewNumber(step float64, decimals int) *Number {
	n := &Number{Step: step, Decimals: decimals}
	n.ExtendBaseWidget(n)
	n.Scroll, n.Wrapping = fyne.ScrollNone, fyne.TextWrapOff
	n.OnSubmitted = func(string) { n.commit() }
	n.OnChanged = func(string) { n.typing = true }
	return n
}

// Display shows a value, unless one is being typed.
func (n *Number) Display(v float64) {
	n.value = v
	if !n.typing {
		n.write()
	}
}

// Text of a value as the entry shows it.
func (n *Number) text(v float64) string {
	if n.Absent && v == 0 {
		return ""
	}
	s := strconv.FormatFloat(v, 'f', n.Decimals, 64)
	if v < 0 && strings.Trim(s, "-0.") == "" {
		s = s[1:]
	}
	if n.Point != "" {
		s = strings.Replace(s, ".", n.Point, 1)
	}
	return strings.Replace(s, "-", "−", 1) + n.Unit
}

func (n *Number) write() {
	if s := n.text(n.value); s != n.Text {
		n.SetText(s)
	}
	n.typing = false
}

// parse reads a number as people write it: with a comma, a true minus sign, or
// its unit behind it.
func (n *Number) parse(s string) float64 {
	s = strings.TrimSpace(strings.TrimRight(strings.TrimSpace(s), "°m"))
	if s == "" && n.Absent {
		return 0
	}
	v, err := strconv.ParseFloat(strings.NewReplacer(",", ".", "−", "-").Replace(s), 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

func (n *Number) commit() {
	if !n.typing || n.Text == n.text(n.value) {
		n.typing = false
		return
	}
	n.typing = false
	if n.OnCommit != nil {
		n.OnCommit(n.parse(n.Text))
	}
}

// FocusGained marks the text, so that typing replaces it, unit and all.
func (n *Number) FocusGained() {
	n.Entry.FocusGained()
	n.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// FocusLost commits.
func (n *Number) FocusLost() {
	n.commit()
	n.Entry.FocusLost()
}

// TypedKey steps and takes back; all else is the entry's.
func (n *Number) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyUp:
		n.step(1)
	case fyne.KeyDown:
		n.step(-1)
	case fyne.KeyEscape:
		n.write()
	default:
		n.Entry.TypedKey(e)
	}
}

func (n *Number) step(k float64) {
	if n.OnCommit != nil {
		n.typing = false
		n.OnCommit(math.Round((n.value+k*n.Step)/n.Step) * n.Step)
	}
}

// MinSize is that of four digits, a sign and the widest unit.
func (n *Number) MinSize() fyne.Size {
	l := lookOf(n)
	wide := fyne.MeasureText("−000.0 mm", l.text, fyne.TextStyle{}).Width + 3*l.th.Size("innerPadding")
	return fyne.NewSize(wide, fyne.MeasureText("0", l.text, fyne.TextStyle{}).Height+l.th.Size("innerPadding")+4)
}

// Typing reports whether something was typed that is not committed yet.
func (n *Number) Typing() bool { return n.typing }
