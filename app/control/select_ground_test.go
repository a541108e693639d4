package control

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
)

func TestAChoiceStandsOnAGroundAndAnEntryDoesNot(t *testing.T) {
	a := test.NewTempApp(t)
	for _, b := range []Brightness{AlwaysLight, AlwaysDark} {
		th := &Theme{Brightness: b}
		a.Settings().SetTheme(th)
		s := NewSelect([]string{"fixed"}, nil)
		r := s.CreateRenderer().(*groundRenderer)
		r.Layout(fyne.NewSize(120, 30))
		if want := th.Palette(variant()).Paper; r.ground.FillColor != want || r.ground.Size() != fyne.NewSize(120, 30) {
			t.Errorf("ground %v of size %v, want %v", r.ground.FillColor, r.ground.Size(), want)
		}
		if got := th.Color(theme.ColorNameInputBackground, variant()); got != transparent {
			t.Errorf("an entry's ground is %v", got)
		}
	}
}
