package chart

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// sweepsOf returns the drawings of both sweeps.
func sweepsOf(s Subject) []*swept {
	var list []*swept
	for _, w := range []sweep{ratioSweep, arcSweep} {
		list = append(list, newSwept(w, s, white))
	}
	return list
}

func TestTheDesignAsItIsLiesOnItsCurve(t *testing.T) {
	for _, c := range sweepsOf(small(sample(hip.Right), 4)) {
		for i, d := range c.Designs {
			v := c.curve(d)
			for p := range sweptPanels {
				for k := 1; k+1 < len(v.x); k++ {
					if v.x[k] != v.at || math.IsNaN(v.y[p][k-1]+v.y[p][k+1]) {
						continue
					}
					share := (v.at - v.x[k-1]) / (v.x[k+1] - v.x[k-1])
					between := v.y[p][k-1] + share*(v.y[p][k+1]-v.y[p][k-1])
					if d := math.Abs(between - v.is[p]); !(d < 1.5) {
						t.Errorf("%s, design %d, panel %d: the design stands at %.2f°, its neighbours on the curve say %.2f°", c.sweep.key, i, p, v.is[p], between)
					}
				}
			}
		}
	}
}

func TestACurveSaysWhatTheEngineSaysOfThatDesign(t *testing.T) {
	s := small(sample(hip.Right), 2)
	for n, c := range sweepsOf(s) {
		for i, d := range c.Designs {
			v := c.curve(d)
			k := len(v.x) / 3
			other := d.Of
			if n == 0 {
				other.Rim.HeadDiameter = v.x[k] * other.Neck.Diameter
			} else {
				other.Rim.Arc = unit.Angle(v.x[k]) * deg
			}
			if math.IsNaN(v.y[1][k]) {
				continue
			}
			q := questionByKey("flexion")
			want := kinematics.NewJoint(s.Hip, other).Answer(s.Hip, q).Reading.Degrees()
			if math.Abs(v.y[1][k]-want) > 1e-9 {
				t.Errorf("%s, design %d at %v: flexion is drawn at %v°, the engine says %v°", c.sweep.key, i, v.x[k], v.y[1][k], want)
			}
		}
	}
}

func TestALargerHeadAndAShallowerCupNeverStopSooner(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		s := anyJoint().Draw(t, "subject")
		for n, c := range sweepsOf(s) {
			v, sign := c.curve(s.Designs[0]), 1.0-2*float64(n)
			for p := range sweptPanels {
				for k := 1; k < len(v.x); k++ {
					if a, b := v.y[p][k-1], v.y[p][k]; !math.IsNaN(a + b) {
						drawn++
						if sign*(b-a) < -1e-6 {
							t.Errorf("%s, panel %d: from %.2f° at %v to %.2f° at %v", c.sweep.key, p, a, v.x[k-1], b, v.x[k])
						}
					}
				}
			}
		}
	})
	if drawn == 0 {
		t.Error("no curve was drawn")
	}
}

func TestADesignWithoutRoundShapesIsNamedNotDrawn(t *testing.T) {
	s := sample(hip.Right)
	s.Designs = s.Designs[2:3] // a lip
	c := newSwept(arcSweep, s, white)
	list := c.curves()
	for _, y := range list[0].y[0] {
		if !math.IsNaN(y) {
			t.Fatalf("a lipped design has an oscillation angle of %v", y)
		}
	}
	if c.missing(list, 0) == "" || c.missing(list, 1) != "" {
		t.Errorf("missing from the panels: %q, %q", c.missing(list, 0), c.missing(list, 1))
	}
}
