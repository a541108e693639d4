package view

import (
	"time"

	"fyne.io/fyne/v2/theme"

	"fyne.io/fyne/v2"

	"rimclear/app/control"
	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Context is what every part of a view works with.
type Context struct {
	Session *session.Session
	Words   *present.Words
	Theme   *control.Theme
	Hint    *control.Hint
	Motions *session.Motions // what there is to require
	Turn    func(Page)       // opens a view
	Play    *Transport       // plays a motion
	Import  func()           // reads a recording
	Ask     func(key string) // shows what there is to know of a number; nil does nothing
	Still   bool             // nothing moves but what is asked for
	Past    bool             // a posture moved by hand goes past contact
	// Post runs a function on the goroutine that draws, soon; After does so
	// later, and returns what calls it off.
	Post  func(func())
	After func(time.Duration, func()) (stop func())
	Now   func() time.Time
}

// palette returns the colours in force.
func (c *Context) palette() *figure.Palette {
	v := theme.VariantLight
	if a := fyne.CurrentApp(); a != nil {
		v = a.Settings().ThemeVariant()
	}
	return c.Theme.Palette(v)
}

// angle says a joint angle: "10° extension".
func (c *Context) angle(a hip.JointAngle, v unit.Angle) string {
	m, v := present.Signed(a, v)
	return c.Words.Phrase("given", "angle", c.Words.Shortest(v.Degrees(), 1)+c.Words.Unit(kinematics.Degrees),
		"movement", c.Words.Movement(m))
}
