package view

import (
	"time"

	"fyne.io/fyne/v2"

	"rimclear/app/control"
	"rimclear/app/scene"
	"rimclear/app/session"
)

// Explore is the joint with what one may change and what follows from it.
type Explore struct {
	*Context
	panel   *panel
	joint   *joint
	picture *control.Orbit
	object  fyne.CanvasObject

	Pace Pace
}

// NewExplore returns the view of a session.
func NewExplore(c *Context) *Explore {
	e := &Explore{Context: c, panel: newPanel(c), joint: newJoint(), picture: control.NewOrbit(home)}
	e.picture.OnDrawn = e.Pace.drawn
	e.object = e.arrange()
	c.Session.Watch(e.Display)
	e.Display(c.Session.Now())
	return e
}

// home is the view a new window begins with.
var home = func() scene.Camera {
	c := scene.Oblique()
	return c
}()

// Object returns what to put into the window.
func (e *Explore) Object() fyne.CanvasObject { return e.object }

// Display shows a snapshot.
func (e *Explore) Display(s *session.Snapshot) {
	start := time.Now()
	e.panel.display(s)
	e.picture.Mirror(s.Case.Hip.Side != 0)
	e.picture.Display(e.joint.instances(s), e.label(s))
	e.Pace.worked(time.Since(start))
}

// closeMargin is the margin under which a posture counts as close to contact,
// in degrees; our own choice, no source.
const closeMargin = 5

// label names the place of contact, or the place nearest to it.
func (e *Explore) label(s *session.Snapshot) control.Label {
	w, c := e.Words, s.Contact
	l := control.Label{At: c.RimPoint, Lines: []string{w.Clock(c.Azimuth), ""}}
	switch {
	case c.InContact():
		l.State = control.StateContact
		l.Lines[1] = w.Phrase("window_into", "margin", w.Degrees(c.Margin.Abs()))
	case c.Margin.Degrees() < closeMargin:
		l.State = control.StateClose
		fallthrough
	default:
		l.Lines[1] = w.Phrase("window_clear", "margin", w.Degrees(c.Margin), "clearance", w.Millimetres(c.Clearance))
	}
	return l
}
