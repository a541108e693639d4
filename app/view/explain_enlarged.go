package view

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"rimclear/app/control"
)

// enlarged is parts in larger type, each of which is laid out from outside.
//
// The toolkit reads its fonts anew whenever a theme is put over parts, about
// 6 MB a style that it keeps until the window's theme changes. A refresh must
// therefore not put it over again, and all parts share one.
type enlarged struct{ *container.ThemeOverride }

func newEnlarged(th *control.Theme, parts ...fyne.CanvasObject) enlarged {
	return enlarged{container.NewThemeOverride(container.NewWithoutLayout(parts...), th)}
}

// Refresh draws the parts again.
func (e enlarged) Refresh() { e.Content.Refresh() }

// restyle puts the theme over the parts again: after it has changed, or to reach
// parts that the toolkit has forgotten because they were long out of sight.
func (e enlarged) restyle() { e.ThemeOverride.Refresh() }
