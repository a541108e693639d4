package view

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"rimclear/app/control"
	"rimclear/app/session"
)

// Compare is one to four designs side by side, and how they differ.
type Compare struct {
	*Context
	lineup  *lineup
	choices *choices
	contest *contest
	foot    *foot
	words   *pacer
	object  *fyne.Container

	Pace Pace
}

// NewCompare returns the view of a session.
func NewCompare(c *Context) *Compare {
	c.transport()
	v := &Compare{Context: c, foot: newFoot(c)}
	v.lineup = newLineup(c)
	v.contest = newContest(c)
	v.choices = newChoices(c, v.contest)
	v.lineup.picture.OnDrawn = v.Pace.drawn
	v.words = &pacer{Context: c, every: wordsEvery, do: v.write}
	v.object = container.New(&columns{Context: c, strip: newStrip(c, CompareView), left: v.choices.object,
		middle: v.lineup.object, right: v.contest.object, foot: v.foot})
	for _, o := range v.object.Layout.(*columns).all() {
		v.object.Add(o)
	}
	v.foot.onGrow = v.object.Refresh
	c.Session.Watch(v.display)
	v.display(c.Session.Now())
	return v
}

// Object returns what to put into the window.
func (v *Compare) Object() fyne.CanvasObject { return v.object }

// Picture returns the designs in three dimensions.
func (v *Compare) Picture() *control.Tiles { return v.lineup.picture }

// Headline returns the answer on screen.
func (v *Compare) Headline() string { return v.contest.headline.Text }

// Close ends the work in the background.
func (v *Compare) Close() {
	v.lineup.halts.solver.Close()
	v.contest.close()
}

// display shows a snapshot: at once what moves, and a little later the words.
// While another view is open nothing is worked out.
func (v *Compare) display(s *session.Snapshot) {
	if !v.object.Visible() {
		v.contest.comparer.Stop()
		return
	}
	start := time.Now()
	v.lineup.display(s)
	v.choices.display(s)
	v.contest.display(s)
	v.words.wish()
	v.Pace.worked(time.Since(start))
}

func (v *Compare) write() {
	v.choices.write()
	v.contest.write()
	v.foot.write(v.Session.Now())
}

// Restyle shows everything again after the theme was changed.
func (v *Compare) Restyle() {
	v.foot.restyle()
	v.display(v.Session.Now())
	v.contest.plots.pace.wish()
	v.object.Refresh()
}

// TypedKey turns the designs by the keyboard.
func (v *Compare) TypedKey(k *fyne.KeyEvent) { v.Picture().TypedKey(k) }

// Places returns the parts of the view that can be reached, by name.
func (v *Compare) Places() map[string]fyne.CanvasObject {
	m := map[string]fyne.CanvasObject{"designs": v.lineup.picture, "differences": v.contest.table, "chart": v.contest.plots.plot}
	for key, d := range v.choices.panel.dials {
		if d.Visible() {
			m[key] = d.Track()
		}
	}
	return m
}
