package view

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"rimclear/app/casefile"
	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/implant"
)

// doubtful is a case of which there is much to know: designs that are not tied
// to one socket, a neck that hangs over, and one too near to its head.
func doubtful(t *testing.T) (kinematics.Case, []byte) {
	t.Helper()
	c := kinematics.Default()
	c.Count = 3
	for i := range c.Count {
		c.Designs[i] = c.Designs[0]
	}
	c.Designs[1].Neck = implant.Neck{
		Oval:  implant.Oval{Width: 20, Depth: 14},
		Taper: implant.Taper{StartDiameter: 14, Start: 12, EndDiameter: 10, End: 14},
	}
	c.Designs[2].Bearing = kinematics.Resurfacing
	c.Designs[2].Neck.Diameter = c.Designs[2].Rim.HeadDiameter - 2
	data, err := casefile.Encode(casefile.File{Case: c})
	if err != nil {
		t.Fatal(err)
	}
	return c, data
}

// footOf returns what is said along the foot of a view.
func footOf(p Pageful) *foot {
	switch v := p.(type) {
	case *Explore:
		return v.foot
	case *Target:
		return v.foot
	case *Compare:
		return v.foot
	}
	return nil
}

func TestWhatToKnowOfACaseIsSaidInEveryView(t *testing.T) {
	german, err := present.In("de")
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct {
		words *present.Words
		scale float32
	}{{present.English(), 1}, {german, 1.5}} {
		c, data := doubtful(t)
		p := openPagesIn(t, x.words, data, &control.Theme{Brightness: control.AlwaysLight, Scale: x.scale})
		if x.scale > 1 { // there is least room
			p.leafed(t, "a doubtful case", x.scale, []fyne.Size{{Width: 1024, Height: 700}})
		}
		want := x.words.Warned(&c)
		if len(want) != 3 {
			t.Fatalf("there is more or less to know than three things: %q", want)
		}
		for _, n := range []Page{ExploreView, TargetView, CompareView} {
			p.Pages.Open(n)
			p.settled()
			f := footOf(p.Seen())
			if got := f.warned.Text; !f.scroll.Visible() || got != strings.Join(want, "\n") {
				t.Errorf("%s says %q along its foot, want %q", n.Key(), got, want)
			}
			if low, high := f.scroll.Position().Y, f.label.Position().Y; low+f.scroll.Size().Height > high+1 {
				t.Errorf("%s: warnings lie over the caution", n.Key())
			}
		}
	}
}

func TestAWarningGoesWithItsCause(t *testing.T) {
	e := open(t, 1280, 776)
	e.rest()
	q, bearing := kinematics.ParameterByKey("neck_diameter_mm"), kinematics.ParameterByKey("bearing")
	height := e.centre.object.Size().Height
	e.Session.Set(bearing, float64(kinematics.Resurfacing))
	wide := e.Session.Now().Design().Rim.HeadDiameter - 2
	for _, x := range []struct {
		diameter float64
		said     bool
	}{{wide, true}, {wide - 6, false}} {
		if faults := e.Session.Set(q, x.diameter); len(faults) > 0 {
			t.Fatal(faults)
		}
		e.rest()
		if got := e.foot.scroll.Visible(); got != x.said {
			t.Errorf("a neck of %v mm: warned %v, want %v", x.diameter, got, x.said)
		}
		if less := e.centre.object.Size().Height < height; less != x.said {
			t.Errorf("a neck of %v mm: the picture gives room %v, want %v", x.diameter, less, x.said)
		}
	}
}
