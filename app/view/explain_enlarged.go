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
// 5 MB a style that it never gives back; its own widget for that does so at
// every refresh. Here a theme is put over the parts when they are first shown,
// and again only when the toolkit may have forgotten it, which it does with
// widgets that it did not see for as long as it keeps anything (FYNE_CACHE).
type enlarged struct {
	*fyne.Container
	theme *control.Theme
	over  fyne.CanvasObject // lies over the window
	hides []*bool           // what may hide parts
	seen  time.Time         // when the toolkit last saw the parts
	lost  bool              // the parts were never in the theme, or may have been forgotten
}

func newEnlarged(th *control.Theme, over fyne.CanvasObject, parts ...fyne.CanvasObject) *enlarged {
	return &enlarged{Container: container.NewWithoutLayout(parts...), theme: th, over: over, lost: true}
}

// restyle puts the theme over the parts.
func (e *enlarged) restyle() {
	container.NewThemeOverride(e.Container, e.theme)
	e.lost = false
}

// How often the toolkit sees the parts, at most, and from when on it may have
// forgotten them.
const (
	seeEvery = 2 * time.Second
	forgets  = 4 * time.Second
)

// see has the toolkit remember the parts, and puts the theme over them where they
// are on show and it may have forgotten them, which it reports.
func (e *enlarged) see(now time.Time, shown bool) bool {
	now = now.Round(0) // the toolkit counts the time of a computer's sleep
	gap := now.Sub(e.seen)
	e.lost = e.lost || gap < 0 || gap > forgets
	if !e.lost && gap >= seeEvery {
		e.remember()
	}
	if e.lost || gap >= seeEvery {
		e.seen = now
	}
	if !shown || !e.lost {
		return false
	}
	e.restyle()
	return true
}

// remember has the toolkit look at every part, hidden ones too. It looks at all
// that is not hidden before what lies over the window; nothing is drawn
// meanwhile.
func (e *enlarged) remember() {
	was := make([]bool, len(e.hides))
	for i, h := range e.hides {
		was[i], *h = *h, false
	}
	fyne.CurrentApp().Driver().AbsolutePositionForObject(e.over)
	for i, h := range e.hides {
		*h = was[i]
	}
}
