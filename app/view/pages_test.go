package view

import (
	"testing"

	"rimclear/app/control"
	"rimclear/assets"
)

// What is not open costs nothing at the start: no view is made, and nothing is
// worked out for it.
func TestAViewIsMadeWhenItIsFirstOpened(t *testing.T) {
	p := openPages(t, assets.Cases()[0].Data, &control.Theme{Brightness: control.AlwaysLight})
	for n := range viewCount {
		if made := p.all[n] != nil; made != (n == ExploreView) {
			t.Errorf("at the start there is a view %q: %v", n.Key(), made)
		}
	}
	drawn := 0
	p.OnDrawn(func() { drawn++ })
	p.Pages.Explore.Play.LoadKey("low_chair")
	for n := viewCount - 1; n >= 0; n-- {
		p.Open(n)
		p.settled()
		p.window.Canvas().Capture()
		if p.Now() != n || !p.Seen().Object().Visible() || p.Pace().Pictures == 0 || drawn == 0 {
			t.Errorf("%q: open %q, %d pictures, %d told", n.Key(), p.Now().Key(), p.Pace().Pictures, drawn)
		}
		if drawn = 0; n > 0 && p.Pages.Explore.Object().Visible() {
			t.Errorf("%q lies over Explore", n.Key())
		}
	}
	if got := p.Pages.Target().goals.chosen; got != "low_chair" {
		t.Errorf("the motion loaded before is marked as %q", got)
	}
}
