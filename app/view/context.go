package view

import (
	"time"

	"fyne.io/fyne/v2/theme"

	"fyne.io/fyne/v2"

	"rimclear/app/control"
	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/app/session"
)

// Context is what every part of a view works with.
type Context struct {
	Session *session.Session
	Words   *present.Words
	Theme   *control.Theme
	Hint    *control.Hint
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
