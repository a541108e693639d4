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
