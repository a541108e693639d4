package view

import (
	"time"

	"fyne.io/fyne/v2"

	"rimclear/app/control"
	"rimclear/app/session"
)

// Explore is the joint with what one may change and what follows from it.
type Explore struct {
	*Context
	strip   fyne.CanvasObject
	panel   *panel
	centre  *centre
	answers *answers
	bar     *playbar
	foot    *foot
	words   *pacer
	object  *fyne.Container

	Pace Pace
}

// NewExplore returns the view of a session.
func NewExplore(c *Context) *Explore {
	e := &Explore{Context: c, panel: newPanel(c), centre: newCentre(c), answers: newAnswers(c), foot: newFoot(c)}
	e.centre.picture.OnDrawn = e.Pace.drawn
	e.words = &pacer{Context: c, every: wordsEvery, do: e.write}
	e.strip, e.bar = newStrip(c, ExploreView), newPlaybar(c)
	e.object = e.arrange()
	e.bar.OnGrow, e.foot.onGrow = e.object.Refresh, e.object.Refresh
	c.Session.Watch(e.display)
	e.display(c.Session.Now())
	return e
}

// Close ends the work in the background.
func (e *Explore) Close() { e.answers.plots.solver.Close() }

// Object returns what to put into the window.
func (e *Explore) Object() fyne.CanvasObject { return e.object }

// Picture returns the joint in three dimensions.
func (e *Explore) Picture() *control.Orbit { return e.centre.picture }

// display shows a snapshot: at once what moves, and a little later the words.
func (e *Explore) display(s *session.Snapshot) {
	if !e.object.Visible() {
		return // another view is open
	}
	start := time.Now()
	e.panel.display(s)
	e.centre.display(s)
	e.answers.display(s)
	e.bar.display()
	e.words.wish()
	e.Pace.worked(time.Since(start))
}

func (e *Explore) write() {
	e.centre.write()
	e.answers.write()
	e.bar.write()
	e.foot.write(e.Session.Now())
}

// Restyle shows everything again after the theme was changed.
func (e *Explore) Restyle() {
	e.foot.restyle()
	e.display(e.Session.Now())
	e.answers.plots.pace.wish()
	e.object.Refresh()
}

// TypedKey turns the joint by the keyboard.
func (e *Explore) TypedKey(k *fyne.KeyEvent) { e.Picture().TypedKey(k) }

// Headline returns the answer on screen.
func (e *Explore) Headline() string { return e.answers.headline.Text }

// Places returns the parts of the view that can be reached, by name: sliders by
// the key of their parameter, and areas.
func (e *Explore) Places() map[string]fyne.CanvasObject {
	m := map[string]fyne.CanvasObject{"joint": e.centre.picture, "chart": e.answers.plots.plot}
	for key, d := range e.panel.dials {
		if d.Visible() {
			m[key] = d.Track()
		}
	}
	return m
}
