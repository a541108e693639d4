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
// has changed, or when the toolkit has forgotten it, which it does with widgets
// that it did not see for a minute.
type enlarged struct {
	*fyne.Container
	theme *control.Theme
	over  fyne.Theme // what the parts have of it
	kept  time.Time  // when the toolkit last saw them
}

// themed is a widget that knows its theme.
type themed interface {
	fyne.Widget
	Theme() fyne.Theme
}

func newEnlarged(th *control.Theme, parts ...fyne.CanvasObject) *enlarged {
	e := &enlarged{Container: container.NewWithoutLayout(parts...), theme: th}
	e.restyle()
	return e
}

// restyle puts the theme, which has changed, over the parts.
func (e *enlarged) restyle() {
	container.NewThemeOverride(e.Container, e.theme)
	e.each(e.Container, func(w themed) { e.over = w.Theme() })
}

// see has the toolkit remember the parts, and puts the theme over them again if
// it has not.
func (e *enlarged) see(now time.Time) {
	if d := now.Sub(e.kept); d >= 0 && d < 20*time.Second {
		return
	}
	e.kept = now
	lost := false
	e.each(e.Container, func(w themed) {
		lost = lost || w.Theme() != e.over
		w.MinSize()
	})
	if lost {
		e.restyle()
	}
}

// each calls f with all widgets among the parts.
func (e *enlarged) each(o fyne.CanvasObject, f func(themed)) {
	switch c := o.(type) {
	case *fyne.Container:
		for _, o := range c.Objects {
			e.each(o, f)
		}
	case *container.Scroll:
		e.each(c.Content, f)
	case themed:
		f(c)
	}
}
