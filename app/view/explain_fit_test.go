package view

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/scene"
	"rimclear/kinematics/hip"
)

// Letters half as large again are held to what the window has room for.
func TestTheWordsFitBesideThePicture(t *testing.T) {
	sizes := []fyne.Size{{Width: 1024, Height: 674}, {Width: 1280, Height: 770}, {Width: 1920, Height: 1050}, {Width: 2560, Height: 1400}}
	for _, l := range present.Languages() {
		words, err := present.In(l.Tag)
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range []float32{1, 1.25, 1.5} {
			a := openExplainIn(t, words, twoHips(hip.Right), 1024, 670, &control.Theme{Brightness: control.AlwaysLight, Scale: k})
			for _, size := range sizes {
				a.window.Resize(size)
				a.stage.posted()
				a.fits(t, fmt.Sprintf("%s, text %v, %.0f×%.0f", l.Name, k, size.Width, size.Height))
			}
		}
	}
}

// fits fails where words of an activity, told of one joint or of two, have no
// room.
func (a *auditorium) fits(t *testing.T, where string) {
	t.Helper()
	for _, designs := range [][]int{{1}, {0, 1}} {
		a.designs = designs
		for i, act := range scene.Acts {
			a.Show(i)
			words, chips := a.text.scroll, a.tools.joints
			if need, has := words.Content.MinSize(), words.Size(); need.Height > has.Height || need.Width > has.Width {
				t.Errorf("%s, %s, joints %v: words need %v and have %v", where, act.Key, designs, need, has)
			}
			if end := a.text.object.Position().Y + a.text.object.Size().Height; end > chips.Position().Y {
				t.Errorf("%s, %s: the words end at %v, under the chips at %v", where, act.Key, end, chips.Position().Y)
			}
		}
	}
	if bottom := a.tools.object.Position().Y + a.tools.object.Size().Height; bottom > a.object.Size().Height {
		t.Errorf("%s: the buttons end at %v", where, bottom)
	}
}

func TestLettersGrowWithTheWindowUpToWhatIsAskedFor(t *testing.T) {
	a := openExplain(t, twoHips(hip.Right), 1024, 670, &control.Theme{Brightness: control.AlwaysLight, Scale: 1.5})
	was := float32(0)
	for _, width := range []float32{1024, 1280, 1920, 2560} {
		a.window.Resize(fyne.NewSize(width, width*0.65))
		a.stage.posted()
		now := a.big.Size(theme.SizeNameText)
		if now < was || now < explainText || now > 1.5*explainText {
			t.Errorf("at a width of %v letters have %v points, after %v in a smaller window", width, now, was)
		}
		was = now
	}
	if was != 1.5*explainText {
		t.Errorf("in the largest window letters have %v points, want %v", was, 1.5*explainText)
	}
}
