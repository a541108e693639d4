package view

import (
	"testing"

	"fyne.io/fyne/v2"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/assets"
)

// A design whose figures need another line is given it when it is looked at, in
// every language.
func TestWordsThatGrowAreGivenRoom(t *testing.T) {
	for _, lang := range present.Languages() {
		words, err := present.In(lang.Tag)
		if err != nil {
			t.Fatal(err)
		}
		p := openPagesIn(t, words, assets.Cases()[0].Data, &control.Theme{Brightness: control.AlwaysLight, Scale: 1})
		p.Pages.Open(ExploreView)
		for _, size := range []fyne.Size{{Width: 1024, Height: 700}, {Width: 1280, Height: 800}} {
			p.window.Resize(size)
			for i := range 4 {
				p.session.Activate(i % 2)
				p.settled()
				p.whole(t, lang.Name, ExploreView, "design "+present.Letter(i%2), 1, size)
			}
		}
	}
}

// No tab lies outside the line of tabs, with large letters neither.
func TestEveryTabCanBeReached(t *testing.T) {
	words, err := present.In("de")
	if err != nil {
		t.Fatal(err)
	}
	p := openPagesIn(t, words, assets.Cases()[0].Data, &control.Theme{Brightness: control.AlwaysLight, Scale: 1.5})
	p.Pages.Open(ExploreView)
	p.window.Resize(fyne.NewSize(1024, 700))
	p.settled()
	a := p.Pages.Explore.answers
	for i, tab := range a.tabs {
		line := a.object.Layout.(*answersLayout).tabs
		if foot := tab.Position().Y + tab.Size().Height; tab.Visible() && foot > line.Size().Height+1 {
			t.Errorf("tab %d ends at %.0f in a line of tabs %.0f high", i, foot, line.Size().Height)
		}
	}
}
