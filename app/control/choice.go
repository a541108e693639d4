package control

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Pick is a choice among words, with its name before it.
type Pick struct {
	widget.BaseWidget

	Change func(int)
	Hint   *Hint

	name, help string
	choose     *Select
	silent     bool
	drawn
}

// NewPick returns a choice that shows the first word.
func NewPick(name, help string, words []string) *Pick {
	p := &Pick{name: name, help: help}
	p.choose = NewSelect(words, func(word string) {
		if i := slices.Index(words, word); p.Change != nil && !p.silent && i >= 0 {
			p.Change(i)
		}
	})
	p.Display(0)
	p.ExtendBaseWidget(p)
	return p
}

// Display shows the i-th word without telling of a change.
func (p *Pick) Display(i int) {
	if i != p.choose.SelectedIndex() {
		p.silent = true
		p.choose.SetSelectedIndex(i)
		p.silent = false
	}
}

// Choose picks the i-th word by hand.
func (p *Pick) Choose(i int) { p.choose.SetSelectedIndex(i) }

// MouseIn shows the help.
func (p *Pick) MouseIn(e *desktop.MouseEvent) { p.Hint.Offer(p, p.help, e.AbsolutePosition) }

// MouseMoved keeps the help back while the pointer moves.
func (p *Pick) MouseMoved(e *desktop.MouseEvent) { p.Hint.Offer(p, p.help, e.AbsolutePosition) }

// MouseOut takes the help away.
func (p *Pick) MouseOut() { p.Hint.Withdraw(p) }

// CreateRenderer makes the drawing.
func (p *Pick) CreateRenderer() fyne.WidgetRenderer {
	r := &pickRenderer{p: p}
	r.Refresh()
	return r
}

type pickRenderer struct {
	p  *Pick
	in look
}

func (r *pickRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.p.choose} }

func (r *pickRenderer) Destroy() {}

// word is the name as it is drawn.
func (p *Pick) word(l look) word { return word{text: p.name, size: l.text, colour: opaque(l.Ink)} }

func (r *pickRenderer) MinSize() fyne.Size {
	w, c := r.p.word(lookOf(r.p)), r.p.choose.MinSize()
	if r.p.stacked(r.p.Size().Width) {
		return fyne.NewSize(max(w.wide(), c.Width), w.high()+c.Height)
	}
	return fyne.NewSize(w.wide()+8+c.Width, max(w.high(), c.Height))
}

// stacked reports whether the choice stands under its name, for want of room
// beside it.
func (p *Pick) stacked(wide float32) bool {
	return wide > 0 && p.name != "" && p.word(lookOf(p)).wide()+8+p.choose.Longest() > wide
}

func (r *pickRenderer) Layout(size fyne.Size) {
	c := r.p.choose.MinSize()
	if r.p.stacked(size.Width) {
		put(r.p.choose, 0, size.Height-c.Height, size.Width, c.Height)
		return
	}
	w := min(max(c.Width, size.Width*0.55, r.p.choose.Longest()), size.Width-r.p.word(lookOf(r.p)).wide()-8)
	put(r.p.choose, size.Width-w, 0, w, size.Height)
}

func (r *pickRenderer) Refresh() {
	r.in.onto(r.p, r.p.choose)
	r.p.choose.Hint, r.p.choose.Help = r.p.Hint, r.p.help
	r.Layout(r.p.Size())
	canvas.Refresh(r.p)
	r.p.redraw()
}

// paint draws the name.
func (p *Pick) paint(k ink, l look, at fyne.Position) {
	w, y := p.word(l), at.Y
	if !p.stacked(p.Size().Width) {
		y += (p.Size().Height - w.high()) / 2
	}
	k.text(at.X, y, w)
}
