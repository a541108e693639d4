package kinematics

import (
	"testing"

	"rimclear/kinematics/unit"
)

func TestTheArcOfAResurfacingFollowsItsHeadUntilItIsEdited(t *testing.T) {
	head, arc := ParameterByKey("head_diameter_mm"), ParameterByKey("cup_arc_deg")
	c := Default()
	c.Designs[0].Bearing = Resurfacing
	c = head.Set(c, 0, 50)
	if got := c.Designs[0].Rim.Arc; got != 180*unit.Degree {
		t.Fatalf("an arc of 180°, which is not the usual one, became %.2f°", got.Degrees())
	}
	c.Designs[0].Rim.Arc = UsualArc(50)
	c = head.Set(c, 0, 56)
	if got := c.Designs[0].Rim.Arc; got != UsualArc(56) {
		t.Errorf("the usual arc did not follow the head: %.2f°, want %.2f°", got.Degrees(), UsualArc(56).Degrees())
	}
	c = arc.Set(c, 0, 160)
	c = head.Set(c, 0, 50)
	if got := arc.Get(&c, 0); got != 160 {
		t.Errorf("an edited arc of 160° became %v°", got)
	}
	c.Designs[0].Bearing = FixedLiner
	c.Designs[0].Rim.Arc = UsualArc(50)
	c = head.Set(c, 0, 40)
	if got := c.Designs[0].Rim.Arc; got != UsualArc(50) {
		t.Errorf("the arc of a fixed liner followed its head: %.2f°", got.Degrees())
	}
}

func TestTheOuterCupIsTheHeadAndTwoWalls(t *testing.T) {
	outer := ParameterByKey("outer_cup_mm")
	c := ParameterByKey("head_diameter_mm").Set(Default(), 0, 48)
	c = outer.Set(c, 0, 54)
	if w := c.Designs[0].Rim.Wall; w != 3 {
		t.Errorf("a head of 48 mm in a cup of 54 mm has a wall of %v mm, want 3", w)
	}
	if got := outer.Get(&c, 0); got != 54 {
		t.Errorf("outer cup = %v mm, want 54", got)
	}
}
