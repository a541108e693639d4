package kinematics

import (
	"testing"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// standIns are designs in which one value stands in for another.
func standIns() map[string]Design {
	of := func(change func(*Design)) Design {
		c := Default()
		change(&c.Designs[0])
		return c.Designs[0]
	}
	return map[string]Design{
		"oval":      of(func(d *Design) { d.Neck.Oval = implant.Oval{Width: 16, Depth: 12} }),
		"trapezoid": of(func(d *Design) { d.Neck.Trapezoid = implant.Trapezoid{Width: 14, Superior: 10, Inferior: 12} }),
		"taper":     of(func(d *Design) { d.Neck.Taper = implant.Taper{StartDiameter: 11, EndDiameter: 14, Start: 12, End: 30} }),
		"circle":    of(func(d *Design) { d.Rim.Edge = implant.Edge{Radius: 16.5, Height: 1} }),
		"plain":     of(func(*Design) {}),
	}
}

// limitsOf are all limits of a design on the usual hip.
func limitsOf(d Design) (list []unit.Angle) {
	h := Default().Hip
	j := NewJoint(h, d)
	for _, q := range Questions {
		list = append(list, j.Answer(h, q).Reading)
	}
	return list
}

// The table says which values are replaced; the solver knows nothing of it. A
// value that is called replaced moves no limit, one that is not moves some.
func TestAReplacedValueMovesNoLimitAndOthersDo(t *testing.T) {
	step := map[string]float64{"neck_diameter_mm": 1, "cup_arc_deg": -3, "inset_mm": 0.5}
	for name, d := range standIns() {
		was := limitsOf(d)
		for key, by := range step {
			p := ParameterByKey(key)
			c := Default()
			c.Designs[0] = d
			p.Put(&c, 0, p.Get(&c, 0)+by)
			if len(Validate(&c)) > 0 {
				t.Fatalf("%s with other %s: %+v", name, key, Validate(&c))
			}
			moved := false
			for i, a := range limitsOf(c.Designs[0]) {
				moved = moved || a != was[i]
			}
			if by := p.Replaced(&d); moved == (by != "") {
				t.Errorf("%s: %s is replaced by %q, and changing it moves a limit: %v", name, key, by, moved)
			}
		}
	}
}

func TestAValueWithoutEffectIsToldUnlessItWasNeverChosen(t *testing.T) {
	c := Default()
	c.Designs[0] = standIns()["oval"]
	if w := Warnings(&c); len(w) != 0 {
		t.Errorf("a neck diameter left at its default: %+v", w)
	}
	c.Designs[0].Neck.Diameter = 20
	if w := Warnings(&c); len(w) != 1 || w[0].Key != "neck_diameter_mm" || w[0].Reason != NoEffect || w[0].Value != 20 {
		t.Errorf("a neck diameter of 20 mm beside an oval: %+v", w)
	}
	c.Designs[0].Neck.Oval = implant.Oval{}
	if w := Warnings(&c); len(w) != 0 {
		t.Errorf("a cylinder of 20 mm: %+v", w)
	}
}
