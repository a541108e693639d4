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

	help   string
	name   *canvas.Text
	choose *widget.Select
	silent bool
}

// NewPick returns a choice that shows the first word.
func NewPick(name, help string, words []string) *Pick {
	p := &Pick{help: help, name: canvas.NewText(name, nil)}
	p.choose = widget.NewSelect(words, func(word string) {
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
	r := &pickRenderer{p}
	r.Refresh()
	return r
}

type pickRenderer struct{ p *Pick }

func (r *pickRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.p.name, r.p.choose}
}

func (r *pickRenderer) Destroy() {}

func (r *pickRenderer) MinSize() fyne.Size {
	n, c := r.p.name.MinSize(), r.p.choose.MinSize()
	return fyne.NewSize(n.Width+8+c.Width, max(n.Height, c.Height))
}

func (r *pickRenderer) Layout(size fyne.Size) {
	n, c := r.p.name.MinSize(), r.p.choose.MinSize()
	put(r.p.name, 0, (size.Height-n.Height)/2, n.Width, n.Height)
	w := min(max(c.Width, size.Width*0.55), size.Width-n.Width-8)
	put(r.p.choose, size.Width-w, 0, w, size.Height)
}

func (r *pickRenderer) Refresh() {
	l := lookOf(r.p)
	r.p.name.Color, r.p.name.TextSize = l.Ink, l.text
	r.Layout(r.p.Size())
	canvas.Refresh(r.p)
}
