package view

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"rimclear/app/control"
	"rimclear/assets"
)

// visit visits all that is visible.
func visit(o fyne.CanvasObject, at fyne.Position, do func(o fyne.CanvasObject, at fyne.Position)) {
	if o == nil || !o.Visible() {
		return
	}
	at = at.Add(o.Position())
	do(o, at)
	switch o := o.(type) {
	case *fyne.Container:
		for _, c := range o.Objects {
			visit(c, at, do)
		}
	case *container.Scroll:
		visit(o.Content, at, do)
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(o).Objects() {
			visit(c, at, do)
		}
	}
}

// ours reports whether a widget is one of this program's.
func ours(o fyne.CanvasObject) bool { return strings.HasPrefix(fmt.Sprintf("%T", o), "*control.") }

// Whatever can be pressed, dragged or typed in says what it is for when the
// pointer rests on it.
func TestEveryControlHasAHint(t *testing.T) {
	p := openPages(t, assets.Demo().Data, &control.Theme{Brightness: control.AlwaysLight})
	hint := p.Pages.Explore.Hint
	p.window.SetContent(container.NewStack(p.Pages.Object(), hint))
	p.window.Resize(fyne.NewSize(1280, 800))
	for n := range Page(viewCount) {
		p.Pages.Open(n)
		p.settled()
		seen, silent := 0, map[string]int{}
		p.turned(n, func(string) {
			p.rest()
			visit(p.Pages.Object(), fyne.Position{}, func(o fyne.CanvasObject, at fyne.Position) {
				h, can := o.(desktop.Hoverable)
				if _, acts := o.(fyne.Focusable); !acts || !can || !ours(o) || o.Size().Width < 1 {
					return
				}
				if d, ok := o.(fyne.Disableable); ok && d.Disabled() {
					return
				}
				seen++
				// A ruler speaks of the side the pointer is on, a list of the row.
				for i := range 8 {
					s := o.Size()
					e := &desktop.MouseEvent{}
					e.Position = fyne.NewPos(s.Width*(0.2+0.6*float32(i%2)), min(s.Height/2, 12+30*float32(i/2)))
					e.AbsolutePosition = at.Add(e.Position)
					hint.Withdraw(nil)
					h.MouseIn(e)
					p.rest()
					if hint.Shown() != "" {
						h.MouseOut()
						return
					}
					h.MouseOut()
				}
				silent[fmt.Sprintf("%T", o)]++
			})
		})
		if seen < 5 {
			t.Errorf("%s: only %d controls were found", n.Key(), seen)
		}
		for what, many := range silent {
			t.Errorf("%s: %d times %s says nothing", n.Key(), many, what)
		}
	}
}

// Tab reaches every control that can be reached by the keyboard.
func TestTabReachesEveryControl(t *testing.T) {
	p := openPages(t, assets.Demo().Data, &control.Theme{Brightness: control.AlwaysLight})
	p.window.Resize(fyne.NewSize(1280, 800))
	for n := range Page(viewCount) {
		p.Pages.Open(n)
		p.settled()
		want := map[fyne.Focusable]bool{}
		visit(p.Pages.Object(), fyne.Position{}, func(o fyne.CanvasObject, _ fyne.Position) {
			f, ok := o.(fyne.Focusable)
			if d, can := o.(fyne.Disableable); ok && !(can && d.Disabled()) {
				want[f] = true
			}
		})
		c := p.window.Canvas()
		c.Unfocus()
		reached := map[fyne.Focusable]bool{}
		for range 2*len(want) + 4 {
			c.FocusNext()
			reached[c.Focused()] = true
		}
		for f := range want {
			if !reached[f] {
				t.Errorf("%s: Tab does not reach a %T", n.Key(), f)
			}
		}
		if len(want) < 10 {
			t.Errorf("%s: only %d controls", n.Key(), len(want))
		}
	}
}
