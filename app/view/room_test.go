package view

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"rimclear/app/control"
)

// TestNoTextIsClipped walks all that is shown and finds words that leave the
// window, or the column they stand in.
func TestNoTextIsClipped(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1024, Height: 676}, {Width: 1280, Height: 776}, {Width: 2560, Height: 1416}} {
		for _, scale := range []float32{1, 1.3} {
			e := openWith(t, size.Width, size.Height, &control.Theme{Scale: scale, Brightness: control.AlwaysDark})
			e.rest()
			e.object.Refresh()
			within(t, e.object, fyne.NewPos(0, 0), fyne.NewPos(0, 0), size, func(text string, at fyne.Position, m fyne.Size) {
				t.Errorf("%v, text ×%v: %q at %v, %v is cut off", size, scale, text, at, m)
			})
		}
	}
}

// TestEveryRowHasRoomForItsWords covers what is drawn as pictures of groups:
// no row is given less room than its words and entries need.
func TestEveryRowHasRoomForItsWords(t *testing.T) {
	for _, scale := range []float32{1, 1.3} {
		e := openWith(t, 1024, 676, &control.Theme{Scale: scale})
		for _, g := range e.panel.groups {
			g.SetOpen(true)
			g.SetMore(true)
		}
		e.object.Refresh()
		const hair = 0.5
		room := func(key string, o fyne.CanvasObject) {
			if m, s := o.MinSize(), o.Size(); s.Width < m.Width-hair || s.Height < m.Height-hair {
				t.Errorf("text ×%v: %s needs %v and has %v", scale, key, m, s)
			}
		}
		for key, d := range e.panel.dials {
			room(key, d)
		}
		for key, p := range e.panel.picks {
			room(key, p)
		}
	}
}

// within reports the texts below an object at a place that lie outside a
// rectangle. What scrolls is cut off only sideways.
func within(t *testing.T, o fyne.CanvasObject, at, least fyne.Position, most fyne.Size, cut func(string, fyne.Position, fyne.Size)) {
	if !o.Visible() {
		return
	}
	if s, ok := o.(*container.Scroll); ok {
		least = at
		most = fyne.NewSize(at.X+s.Size().Width, 1e6)
		within(t, s.Content, at, least, most, cut)
		return
	}
	if x, ok := o.(*canvas.Text); ok && x.Text != "" {
		m := x.MinSize()
		const hair = 1
		if at.X < least.X-hair || at.Y < least.Y-hair || at.X+m.Width > most.Width+hair || at.Y+m.Height > most.Height+hair {
			cut(x.Text, at, m)
		}
	}
	var below []fyne.CanvasObject
	switch x := o.(type) {
	case *fyne.Container:
		below = x.Objects
	case fyne.Widget:
		below = test.WidgetRenderer(x).Objects()
	}
	for _, c := range below {
		within(t, c, at.Add(c.Position()), least, most, cut)
	}
}

func TestNoWordIsMissing(t *testing.T) {
	e := open(t, 1280, 776)
	e.rest()
	var walk func(fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if x, ok := o.(*canvas.Text); ok && strings.Contains(x.Text, "[") {
			t.Errorf("the window says %q", x.Text)
		}
		switch x := o.(type) {
		case *fyne.Container:
			for _, c := range x.Objects {
				walk(c)
			}
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(x).Objects() {
				walk(c)
			}
		}
	}
	walk(e.object)
}
