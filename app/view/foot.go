package view

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/session"
	"rimclear/kinematics"
)

// foot is what is said along the foot of a view: what one should know of the
// case at hand, and the quiet line that always holds. It has the rules between
// the parts of the view as well.
type foot struct {
	*Context
	warned *widget.Label
	scroll *container.Scroll // of the warnings, where they are many and the room is little
	label  *widget.Label
	rules  [4]*canvas.Rectangle
	told   kinematics.Case // of which the warnings are
	onGrow func()          // lays the view out again
}

func newFoot(c *Context) *foot {
	f := &foot{Context: c, warned: widget.NewLabel(""), label: widget.NewLabel(c.Words.Caution())}
	f.label.Importance, f.warned.Importance = widget.LowImportance, widget.WarningImportance
	for _, l := range []*widget.Label{f.warned, f.label} {
		l.SizeName = theme.SizeNameCaptionText
		l.Wrapping, l.Alignment = fyne.TextWrapWord, fyne.TextAlignCenter
	}
	f.scroll = container.NewVScroll(f.warned)
	f.scroll.Hide()
	for i := range f.rules {
		f.rules[i] = canvas.NewRectangle(color.Transparent)
	}
	f.restyle()
	return f
}

func (f *foot) restyle() {
	for _, r := range f.rules {
		r.FillColor = f.Theme.Color(theme.ColorNameSeparator, fyne.CurrentApp().Settings().ThemeVariant())
		r.Refresh()
	}
}

// objects are what a view has to show of it.
func (f *foot) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{f.scroll, f.label, f.rules[0], f.rules[1], f.rules[2], f.rules[3]}
}

// write says the warnings of the case at hand. They do not depend on the
// posture, which changes most often.
func (f *foot) write(s *session.Snapshot) {
	c := s.Case
	c.Posture = f.told.Posture
	if c == f.told {
		return
	}
	f.told = c
	text := strings.Join(f.Words.Warned(&c), "\n")
	if text == f.warned.Text {
		return
	}
	setVisible(f.scroll, text != "")
	f.warned.SetText(text)
	if f.onGrow != nil {
		f.onGrow()
	}
}

// mostWarned is the share of a view's height that warnings may take.
const mostWarned = 1. / 7

// lay lays what is said along the foot of a view of a size, and returns the
// height that is left above it.
func (f *foot) lay(size fyne.Size) float32 {
	y := size.Height
	row := func(o fyne.CanvasObject, h float32) {
		y -= h
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, h))
	}
	row(f.label, heightFor(f.label, size.Width))
	if f.scroll.Visible() {
		row(f.scroll, min(heightFor(f.warned, size.Width), ceil(size.Height*mostWarned)))
	}
	return y
}

// column is an object at the side of a view, and how wide it is.
type column struct {
	fyne.CanvasObject
	wide float32
}

// columns lays the strip, the left and the right column of a view beside each
// other, as high as the body, and the rules between all parts. It returns where
// the middle begins and how wide it is.
func (f *foot) columns(size fyne.Size, body float32, strip, left, right column) (x, wide float32) {
	lay(strip.CanvasObject, 0, 0, strip.wide, body)
	lay(f.rules[3], strip.wide, 0, 1, body)
	lay(left.CanvasObject, strip.wide+1, 0, left.wide, body)
	end := strip.wide + 1 + left.wide
	lay(f.rules[0], end, 0, 1, body)
	lay(f.rules[1], size.Width-right.wide-1, 0, 1, body)
	lay(right.CanvasObject, size.Width-right.wide, 0, right.wide, body)
	lay(f.rules[2], 0, body, size.Width, 1)
	return end + 1, size.Width - end - right.wide - 2
}

func lay(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(w, h))
}

// heightFor is how high the words of a label are in a width.
func heightFor(l *widget.Label, width float32) float32 {
	l.Resize(fyne.NewSize(width, 1)) // lines know how high they are once they know how wide
	return ceil(l.MinSize().Height)
}
