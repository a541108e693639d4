package view

import (
	"fyne.io/fyne/v2"

	"rimclear/app/present"
	"rimclear/kinematics"
)

// chipText names a design by its letter and its name, in a column too narrow for
// that by its letter alone.
func (c *Context) chipText(wide float32, of *kinematics.Case, i int) string {
	text := chipText(c.Words, of, i)
	size := c.Theme.Size("text")
	if wide > 0 && fyne.MeasureText(text, size, fyne.TextStyle{Bold: true}).Width+40 > wide {
		return present.Letter(i)
	}
	return text
}

// chipText names a design by its letter and its name.
func chipText(w *present.Words, c *kinematics.Case, i int) string {
	text := present.Letter(i)
	if name := c.Designs[i].Name; name != "" {
		text = w.Phrase("window_chip", "letter", text, "name", name)
	}
	return text
}
