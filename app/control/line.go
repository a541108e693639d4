package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Line is an entry of a dialog. Escape is not for it but for what it lies on:
// the window gets that key as if nothing had the focus.
type Line struct{ widget.Entry }

// NewLine returns an empty line.
func NewLine() *Line {
	l := &Line{}
	l.ExtendBaseWidget(l)
	return l
}

// TypedKey passes Escape on.
func (l *Line) TypedKey(e *fyne.KeyEvent) {
	if e.Name != fyne.KeyEscape {
		l.Entry.TypedKey(e)
		return
	}
	c := fyne.CurrentApp().Driver().CanvasForObject(l)
	if c == nil {
		return
	}
	c.Unfocus()
	if typed := c.OnTypedKey(); typed != nil {
		typed(e)
	}
}
