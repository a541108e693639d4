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

// Pages are the views of one window, of which one is seen.
type Pages struct {
	Explore *Explore
	Target  *Target
	Compare *Compare
	Explain *Explain

	all    [viewCount]Pageful
	stale  [viewCount]bool // the theme has changed since the view was last seen
	open   Page
	turned func(Page)
	object *fyne.Container
}

// NewPages returns the views of a session, Explore open. turned is told when
// another is opened.
func NewPages(c *Context, turned func(Page)) *Pages {
	p := &Pages{turned: turned, object: container.NewStack()}
	c.Turn = p.Open
	p.Explore, p.Target = NewExplore(c), NewTarget(c)
	p.Compare, p.Explain = NewCompare(c), NewExplain(c)
	p.all = [viewCount]Pageful{p.Explore, p.Target, p.Compare, p.Explain}
	for i, v := range p.all {
		setVisible(v.Object(), Page(i) == p.open)
		p.object.Add(v.Object())
	}
	return p
}

// Object returns what to put into the window.
func (p *Pages) Object() fyne.CanvasObject { return p.object }

// Now returns the view that is open.
func (p *Pages) Now() Page { return p.open }

// Seen returns what is open.
func (p *Pages) Seen() Pageful { return p.all[p.open] }

// Pace is that of the view that is open.
func (p *Pages) Pace() *Pace {
	switch p.open {
	case CompareView:
		return &p.Compare.Pace
	case ExplainView:
		return &p.Explain.Pace
	case TargetView:
		return &p.Target.Pace
	}
	return &p.Explore.Pace
}

// OnDrawn has f called after every picture of any view.
func (p *Pages) OnDrawn(f func()) {
	for _, pace := range []*Pace{&p.Explore.Pace, &p.Target.Pace, &p.Compare.Pace, &p.Explain.Pace} {
		pace.OnDrawn = f
	}
}

// Open opens a view.
func (p *Pages) Open(n Page) {
	if n == p.open {
		return
	}
	p.open = n
	p.Explore.Hint.Withdraw(nil) // it belongs to what is no longer seen
	for i, v := range p.all {
		setVisible(v.Object(), Page(i) == n)
	}
	p.Seen().display(p.Explore.Session.Now())
	p.freshen()
	if p.turned != nil {
		p.turned(n)
	}
}

// Restyle shows all again after the theme was changed: at once what is seen,
// and each other view when it is opened.
func (p *Pages) Restyle() {
	for i := range p.stale {
		p.stale[i] = true
	}
	p.freshen()
}

// freshen shows what is seen in the theme as it is now.
func (p *Pages) freshen() {
	if p.stale[p.open] {
		p.stale[p.open] = false
		p.Seen().Restyle()
	}
}

// Keep is to be called every few seconds, lest the toolkit forget how views that
// are not seen are to look.
func (p *Pages) Keep() { p.Explain.see() }

// KeepEvery is how often.
const KeepEvery = seeEvery

// Close ends the work in the background.
func (p *Pages) Close() {
	for _, v := range p.all {
		v.Close()
	}
}
