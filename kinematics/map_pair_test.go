package kinematics_test

import (
	"context"
	"math"
	"testing"

	. "rimclear/kinematics"
	"rimclear/kinematics/unit"
)

// A map of any two numbers says at each cell what the case says with these two
// values put in by hand.
func TestAMapOfAnyTwoNumbersAgreesWithItsCells(t *testing.T) {
	pairs := [][2]string{
		{"neck_diameter_mm", "head_diameter_mm"}, {"lip_height_deg", "lip_centre_deg"}, {"tilt_standing_deg", "cup_anteversion_deg"},
		{"stem_varus_deg", "cup_arc_deg"}, {"stem_anteversion_deg", "neck_shaft_deg"},
	}
	list := widmer()
	for _, keys := range pairs {
		across, up := ParameterByKey(keys[0]), ParameterByKey(keys[1])
		if across == nil || up == nil {
			t.Fatalf("no parameters %v", keys)
		}
		c := Default()
		c.Designs[0].Rim.Lips[0].Plateau, c.Designs[0].Rim.Lips[0].Ramp = 1, 0.5
		g := PairGrid(across, up, c.Designs[0].Cup.Definition, c.Hip.CupPlane)
		g.Across.Count, g.Up.Count = 5, 5
		var m Map
		if err := Survey(context.Background(), c, 0, list, g, 2, &m); err != nil {
			t.Fatal(err)
		}
		compared := 0
		for k := range g.Up.Count {
			for i := range g.Across.Count {
				cell := up.Set(across.Set(c, 0, g.Across.At(i)), 0, g.Up.At(k))
				got, _ := m.At(i, k)
				if got == NoBearing {
					if len(Validate(&cell)) == 0 {
						t.Errorf("%v at %g/%g: a sound bearing has no margin", keys, g.Across.At(i), g.Up.At(k))
					}
					continue
				}
				compared++
				v := NewJoint(cell.Hip, cell.Designs[0]).Judge(list, 5*unit.Degree)
				if want := v.Outcomes[v.First].Least.Margin; math.Abs(got.Degrees()-want.Degrees()) > 0.01 {
					t.Errorf("%v at %g/%g: %.4f°, want %.4f°", keys, g.Across.At(i), g.Up.At(k), got.Degrees(), want.Degrees())
				}
			}
		}
		if compared < 10 {
			t.Errorf("%v: only %d cells hold a bearing", keys, compared)
		}
	}
}
