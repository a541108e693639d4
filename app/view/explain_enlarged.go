package view

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"rimclear/app/control"
)

// enlarged is parts in larger type, each of which is laid out from outside.
//
// The toolkit reads its fonts anew whenever a theme is put over parts, about
// 6 MB a style that it keeps until the window's theme changes; its own widget
// for that does so at every refresh. Here a theme is put over the parts when it
// has changed, or when the toolkit may have forgotten it, which it does with
// widgets that it did not see for a minute.
type enlarged struct {
	*fyne.Container
	theme *control.Theme
	seen  time.Time // when the toolkit last saw the parts
	lost  bool      // the parts may have been forgotten
}

func newEnlarged(th *control.Theme, parts ...fyne.CanvasObject) *enlarged {
	e := &enlarged{Container: container.NewWithoutLayout(parts...), theme: th}
	e.restyle()
	return e
}

// restyle puts the theme over the parts.
func (e *enlarged) restyle() {
	container.NewThemeOverride(e.Container, e.theme)
	e.lost = false
}

// How often the toolkit sees the parts, at most, and from when on it may have
// forgotten them. Its clock stands still while nothing is drawn.
const (
	seeEvery = 5 * time.Second
	forgets  = 30 * time.Second
)

// see has the toolkit remember the parts, and puts the theme over them again
// where they are on show and it may have forgotten them.
func (e *enlarged) see(now time.Time, shown bool) {
	gap := now.Sub(e.seen)
	if gap < 0 || gap >= seeEvery {
		e.lost = e.lost || gap < 0 || gap > forgets
		e.seen = now
		remember(e.Container)
	}
	if shown && e.lost {
		e.restyle()
	}
}

// remember looks at all widgets of an object, hidden ones too.
func remember(o fyne.CanvasObject) {
	switch c := o.(type) {
	case *fyne.Container:
		for _, o := range c.Objects {
			remember(o)
		}
	case *container.Scroll:
		remember(c.Content)
	case fyne.Widget:
		c.MinSize()
	}
}
