package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// IconButton is a small button of an icon alone, with its meaning as a hint.
// While it can do nothing it is not shown, but keeps its place.
type IconButton struct {
	widget.BaseWidget

	Hint *Hint

	icon             fyne.Resource
	help             string
	act              func()
	disabled         bool
	focused, hovered bool
}

// NewIconButton returns a button that does act.
func NewIconButton(icon fyne.Resource, help string, act func()) *IconButton {
	b := &IconButton{icon: icon, help: help, act: act}
	b.ExtendBaseWidget(b)
	return b
}

// SetEnabled says whether there is anything for it to do.
func (b *IconButton) SetEnabled(on bool) {
	if b.disabled == on {
		b.disabled = !on
		b.Refresh()
	}
}

// Tapped does it.
func (b *IconButton) Tapped(*fyne.PointEvent) {
	if !b.disabled {
		b.act()
	}
}

// TypedKey does it with Space or Enter.
func (b *IconButton) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace || e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter {
		b.Tapped(nil)
	}
}

// TypedRune does nothing.
func (b *IconButton) TypedRune(rune) {}

// Disabled keeps the keyboard from stopping here for nothing.
func (b *IconButton) Disabled() bool { return b.disabled }

// Enable and Disable make it a fyne.Disableable.
func (b *IconButton) Enable() { b.SetEnabled(true) }

// Disable says that there is nothing for it to do.
func (b *IconButton) Disable() { b.SetEnabled(false) }

// FocusGained shows the focus.
func (b *IconButton) FocusGained() { b.focused = true; b.Refresh() }

// FocusLost hides it.
func (b *IconButton) FocusLost() { b.focused = false; b.Refresh() }

// MouseIn shows that it can be pressed.
func (b *IconButton) MouseIn(e *desktop.MouseEvent) {
	b.hovered = true
	b.Refresh()
	b.MouseMoved(e)
}

// MouseMoved offers the hint.
func (b *IconButton) MouseMoved(e *desktop.MouseEvent) {
	if !b.disabled {
		b.Hint.Offer(b, b.help, e.AbsolutePosition)
	}
}

// MouseOut undoes MouseIn.
func (b *IconButton) MouseOut() {
	b.hovered = false
	b.Refresh()
	b.Hint.Withdraw(b)
}

// CreateRenderer makes the drawing.
func (b *IconButton) CreateRenderer() fyne.WidgetRenderer {
	r := &iconButtonRenderer{b, new(canvas.Rectangle), widget.NewIcon(theme.NewThemedResource(b.icon))}
	r.Refresh()
	return r
}

type iconButtonRenderer struct {
	b    *IconButton
	back *canvas.Rectangle
	icon *widget.Icon
}

func (r *iconButtonRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.back, r.icon}
}

func (r *iconButtonRenderer) Destroy() {}

func (r *iconButtonRenderer) MinSize() fyne.Size {
	s := lookOf(r.b).th.Size(theme.SizeNameInlineIcon)
	return fyne.NewSize(s+4, s+4)
}

func (r *iconButtonRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	put(r.icon, 3, 3, size.Width-6, size.Height-6)
}

func (r *iconButtonRenderer) Refresh() {
	l, b := lookOf(r.b), r.b
	r.back.CornerRadius, r.back.FillColor = 3, transparent
	switch {
	case b.disabled:
	case b.focused:
		r.back.FillColor = l.th.Color(theme.ColorNameFocus, variant())
	case b.hovered:
		r.back.FillColor = l.th.Color(theme.ColorNameHover, variant())
	}
	r.icon.Hidden = b.disabled
	canvas.Refresh(b)
}
