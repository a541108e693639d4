package view

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"rimclear/app/control"
)

// Page is one of the views.
type Page int

// The views, in the order of the strip.
const (
	ExploreView Page = iota
	TargetView
	viewCount
)

// viewKeys name the views in words and files.
var viewKeys = [viewCount]string{"explore", "target"}

// Key returns the word for a view in files.
func (n Page) Key() string { return viewKeys[n] }

// newStrip returns the strip at the left edge by which views are changed, as
// it stands in one of them.
func newStrip(c *Context, open Page) fyne.CanvasObject {
	strip := container.NewVBox()
	signs := [viewCount]control.Sign{control.JointSign, control.TargetSign}
	for i, key := range [viewCount]string{"window_explore", "window_target"} {
		n := Page(i)
		m := control.NewMode(c.Words.Phrase(key), c.Words.Phrase(key+"_help"))
		m.Hint, m.Sign = c.Hint, signs[i]
		if n != open {
			m.Open = func() {
				if c.Turn != nil {
					c.Turn(n)
				}
			}
		}
		strip.Add(m)
	}
	return strip
}

// Pages are the views of one window, of which one is seen.
type Pages struct {
	Explore *Explore
	Target  *Target

	open   Page
	turned func(Page)
	object *fyne.Container
}

// NewPages returns the views of a session, Explore open. turned is told when
// another is opened.
func NewPages(c *Context, turned func(Page)) *Pages {
	p := &Pages{turned: turned}
	c.Turn = p.Open
	p.Explore, p.Target = NewExplore(c), NewTarget(c)
	p.Target.Object().Hide()
	p.object = container.NewStack(p.Explore.Object(), p.Target.Object())
	return p
}

// Object returns what to put into the window.
func (p *Pages) Object() fyne.CanvasObject { return p.object }

// Now returns the view that is open.
func (p *Pages) Now() Page { return p.open }

// Open opens a view.
func (p *Pages) Open(n Page) {
	if n == p.open {
		return
	}
	p.open = n
	setVisible(p.Explore.Object(), n == ExploreView)
	setVisible(p.Target.Object(), n == TargetView)
	switch n {
	case TargetView:
		p.Target.display(p.Target.Session.Now())
	default:
		p.Explore.display(p.Explore.Session.Now())
	}
	if p.turned != nil {
		p.turned(n)
	}
}

// Restyle shows all again after the theme was changed.
func (p *Pages) Restyle() {
	p.Explore.Restyle()
	p.Target.Restyle()
}

// Close ends the work in the background.
func (p *Pages) Close() {
	p.Explore.Close()
	p.Target.Close()
}
