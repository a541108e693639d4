package view

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"rimclear/app/control"
	"rimclear/app/session"
)

// Page is one of the views.
type Page int

// The views, in the order of the strip.
const (
	ExploreView Page = iota
	TargetView
	CompareView
	ExplainView
	viewCount
)

// pageNames are what the views are called: Key in files, Word before its
// "_help" in the words, and their sign in the strip.
var pageNames = [viewCount]struct {
	Key, Word string
	Sign      control.Sign
}{
	{"explore", "window_explore", control.JointSign},
	{"target", "window_target", control.TargetSign},
	{"compare", "window_compare", control.TwinSign},
	{"explain", "window_explain", control.PersonSign},
}

// Key returns the word for a view in files.
func (n Page) Key() string { return pageNames[n].Key }

// Word returns the phrase by which a view is called.
func (n Page) Word() string { return pageNames[n].Word }

// PageByKey returns the view of a key, the first one if there is none.
func PageByKey(key string) Page {
	for i, p := range pageNames {
		if p.Key == key {
			return Page(i)
		}
	}
	return ExploreView
}

// Pageful is what a view is to the window.
type Pageful interface {
	Object() fyne.CanvasObject
	Headline() string                     // the answer on screen
	Places() map[string]fyne.CanvasObject // what may be clicked, by name
	TypedKey(e *fyne.KeyEvent)            // gets the keys no widget has
	Restyle()                             // shows all again in another theme
	Close()                               // ends the work in the background
	display(s *session.Snapshot)
}

// newStrip returns the strip at the left edge by which views are changed, as
// it stands in one of them.
func newStrip(c *Context, open Page) fyne.CanvasObject {
	strip := container.NewVBox()
	for i, p := range pageNames {
		n := Page(i)
		m := control.NewMode(c.Words.Phrase(p.Word), c.Words.Phrase(p.Word+"_help"))
		m.Hint, m.Sign = c.Hint, p.Sign
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

// Pages are the views of one window, of which one is seen. All but Explore are
// made when they are first opened.
type Pages struct {
	Explore *Explore

	context *Context
	all     [viewCount]Pageful
	drawn   func()
	stale   [viewCount]bool // the theme has changed since the view was last seen
	open    Page
	turned  func(Page)
	object  *fyne.Container
}

// NewPages returns the views of a session, Explore open. turned is told when
// another is opened.
func NewPages(c *Context, turned func(Page)) *Pages {
	p := &Pages{context: c, turned: turned, object: container.NewStack()}
	c.Turn = p.Open
	p.Explore = p.page(ExploreView).(*Explore)
	return p
}

// page returns a view, which it makes if there is none yet.
func (p *Pages) page(n Page) Pageful {
	if p.all[n] != nil {
		return p.all[n]
	}
	switch n {
	case ExploreView:
		p.all[n] = NewExplore(p.context)
	case TargetView:
		p.all[n] = NewTarget(p.context)
	case CompareView:
		p.all[n] = NewCompare(p.context)
	case ExplainView:
		p.all[n] = NewExplain(p.context)
	}
	v := p.all[n]
	paceOf(v).OnDrawn = p.drawn
	setVisible(v.Object(), n == p.open)
	p.object.Add(v.Object())
	return v
}

// Target returns the view of where the cup should point.
func (p *Pages) Target() *Target { return p.page(TargetView).(*Target) }

// Object returns what to put into the window.
func (p *Pages) Object() fyne.CanvasObject { return p.object }

// Now returns the view that is open.
func (p *Pages) Now() Page { return p.open }

// Seen returns what is open.
func (p *Pages) Seen() Pageful { return p.page(p.open) }

// Pace is that of the view that is open.
func (p *Pages) Pace() *Pace { return paceOf(p.Seen()) }

func paceOf(v Pageful) *Pace {
	switch v := v.(type) {
	case *Explore:
		return &v.Pace
	case *Target:
		return &v.Pace
	case *Compare:
		return &v.Pace
	case *Explain:
		return &v.Pace
	}
	return nil
}

// OnDrawn has f called after every picture of any view.
func (p *Pages) OnDrawn(f func()) {
	p.drawn = f
	p.each(func(_ Page, v Pageful) { paceOf(v).OnDrawn = f })
}

// each visits the views there are.
func (p *Pages) each(do func(Page, Pageful)) {
	for i, v := range p.all {
		if v != nil {
			do(Page(i), v)
		}
	}
}

// Open opens a view.
func (p *Pages) Open(n Page) {
	if n == p.open {
		return
	}
	p.open = n
	p.context.Hint.Withdraw(nil) // it belongs to what is no longer seen
	seen := p.Seen()
	p.each(func(i Page, v Pageful) { setVisible(v.Object(), i == n) })
	seen.display(p.context.Session.Now())
	p.freshen()
	if p.turned != nil {
		p.turned(n)
	}
}

// Restyle shows all again after the theme was changed: at once what is seen,
// and each other view when it is opened.
func (p *Pages) Restyle() {
	p.each(func(i Page, _ Pageful) { p.stale[i] = true })
	p.freshen()
}

// freshen shows what is seen in the theme as it is now.
func (p *Pages) freshen() {
	if p.stale[p.open] {
		p.stale[p.open] = false
		p.Seen().Object().Refresh() // what is in it has other sizes by which it is laid out
		p.Seen().Restyle()
	}
}

// Keep is to be called every few seconds, lest the toolkit forget how views that
// are not seen are to look.
func (p *Pages) Keep() {
	if e, ok := p.all[ExplainView].(*Explain); ok {
		e.see()
	}
}

// KeepEvery is how often.
const KeepEvery = seeEvery

// Close ends the work in the background.
func (p *Pages) Close() {
	p.each(func(_ Page, v Pageful) { v.Close() })
}
