package view

import (
	"bytes"
	"math"
	"slices"
	"testing"

	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

func TestAMapRunsOverAnyTwoNumbers(t *testing.T) {
	e := openTarget(t, 1280, 776)
	e.settle(t, session.AimPart)
	cups := slices.Clone(e.paint().Pix)
	e.aim.choose(kinematics.PairMap)
	e.paint()
	e.settle(t, session.AimPart)
	if bytes.Equal(cups, e.paint().Pix) {
		t.Error("the map of two numbers looks like that of cup positions")
	}
	if k := e.aim.chart.Map.Grid; k.Across.Key != firstPair[0] || k.Up.Key != firstPair[1] {
		t.Errorf("the map is of %s and %s, want %v", k.Across.Key, k.Up.Key, firstPair)
	}
	e.aim.pair.picks[1].SetSelectedIndex(slices.IndexFunc(e.aim.pair.list, func(p *kinematics.Parameter) bool { return p.Key == "stem_anteversion_deg" }))
	e.paint()
	e.settle(t, session.AimPart)
	e.paint()
	step := e.aim.chart
	e.press([2]float64{20, 0}, [2]float64{13.04, 24.6})
	d := e.Session.Now().Design()
	if d.Neck.Diameter != 13 || math.Abs(d.Stem.Anteversion.Degrees()-24.5) > 0.51 {
		t.Errorf("dragged to a neck of 13 mm and a stem at 24.6°, they are %.2f and %.2f", d.Neck.Diameter, d.Stem.Anteversion.Degrees())
	}
	if s, _ := e.Session.Undoable(); s.Key != "pair" {
		t.Errorf("the step is called %q", s.Key)
	}
	e.paint()
	if e.aim.chart.Map != step.Map {
		t.Error("moving along the map had it worked out anew")
	}
}

func TestOneNumberCannotRunBothWays(t *testing.T) {
	e := openTarget(t, 1280, 776)
	p := e.aim.pair
	p.picks[0].SetSelectedIndex(p.chosen[1])
	if p.chosen[0] == p.chosen[1] {
		t.Error("both ways run over the same number")
	}
	if p.list[p.chosen[0]].Key != firstPair[1] || p.list[p.chosen[1]].Key != firstPair[0] {
		t.Error("they did not change places")
	}
}

// Over the diameter of a neck that is an oval every column would be the same.
func TestAMapRunsOverWhatTakesThePlaceOfANumber(t *testing.T) {
	e := openTarget(t, 1280, 776)
	e.Session.Activate(1)
	if g := e.aim.pair.grid(e.Session.Now()); g.Across.Key != "oval_width_mm" || g.Up.Key != "head_diameter_mm" {
		t.Errorf("of the resurfacing the map runs over %s and %s", g.Across.Key, g.Up.Key)
	}
	e.Session.Activate(0)
	if g := e.aim.pair.grid(e.Session.Now()); g.Across.Key != "neck_diameter_mm" {
		t.Errorf("of the stem the map runs over %s", g.Across.Key)
	}
}

// The joint stands in the place of the map, wherever it is in its motion.
func TestTheJointCanBeLookedAtInPlaceOfTheMap(t *testing.T) {
	e := openTarget(t, 1280, 776)
	e.aim.lookAtJoint()
	for _, flexion := range []unit.Angle{0, 150 * unit.Degree} {
		e.Session.Edit(session.Step{Key: "flexion_deg", Design: -1}, func(c *kinematics.Case) { c.Posture.Flexion = flexion })
		e.paint()
		if !e.aim.picture.Visible() {
			t.Errorf("at %v the joint is not shown", flexion)
		}
	}
}
