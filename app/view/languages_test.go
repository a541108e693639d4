package view

import (
	"os"
	"testing"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/assets"
)

// Other languages have longer words, for which there must be room as well.
func TestNoTextOfAnotherLanguageIsCutOff(t *testing.T) {
	if os.Getenv("RIMCLEAR_LONG") != "1" {
		t.Skip("every other language is looked at in the long run: RIMCLEAR_LONG=1")
	}
	looked := 0
	for _, l := range present.Languages() {
		words, err := present.In(l.Tag)
		if err != nil {
			t.Fatal(err)
		}
		if l.Tag == present.English().Language() {
			continue
		}
		looked++
		p := openPagesIn(t, words, assets.Cases()[0].Data, &control.Theme{Brightness: control.AlwaysLight, Scale: 1})
		p.leafed(t, l.Name, 1, shownAt[1][:2])
	}
	if looked == 0 {
		t.Error("there is no other language")
	}
}
