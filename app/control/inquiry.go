package control

import "fyne.io/fyne/v2"

// Inquiry is what a widget offers about the number it shows: which number that
// is, and who answers. Without either it offers nothing.
type Inquiry struct {
	Of  func() string    // the number's key, "" for none
	Ask func(key string) // shows what there is to know of it
}

// Numbered is a widget that shows a number.
type Numbered interface{ Number() string }

// Number returns the key of the number that is shown, "" for none.
func (q *Inquiry) Number() string {
	if q.Of == nil {
		return ""
	}
	return q.Of()
}

// TappedSecondary asks about the number.
func (q *Inquiry) TappedSecondary(*fyne.PointEvent) { q.inquire() }

func (q *Inquiry) inquire() {
	if key := q.Number(); key != "" && q.Ask != nil {
		q.Ask(key)
	}
}

// typed asks with F2, and reports whether that was the key.
func (q *Inquiry) typed(e *fyne.KeyEvent) bool {
	if e.Name != fyne.KeyF2 {
		return false
	}
	q.inquire()
	return true
}
