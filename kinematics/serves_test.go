package kinematics

import (
	"math/rand/v2"
	"testing"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
)

// Both ways to look at a placement agree on whether it serves.
func TestAPlacementServesIfNoMotionIsShort(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 7))
	lip := usual()
	lip.Rim.Lips[0] = implant.Lip{Height: deg(10), Plateau: deg(60), Ramp: deg(30)}
	var list []motion.Requirement
	for _, key := range []string{"low_chair", "pivot_standing", "leg_crossed", "sit_to_stand"} {
		a, _ := library(t).Activity(key)
		list = append(list, a.Requirement(motion.Setting{}))
	}
	for name, design := range map[string]Design{"round": usual(), "lip": lip} {
		s := Simulation{Search: Search{Design: design, Required: list}, Scatter: UsualScatter}
		d, err := s.draw()
		if err != nil {
			t.Fatal(err)
		}
		served, n := 0, 4000
		if name == "lip" {
			n = 300
		}
		for i := range n {
			var z [VariableCount]float64
			for k := range z {
				z[k] = r.NormFloat64()
			}
			p := d.place(d.mix.of(&z))
			d.judge(&p)
			want := len(d.motion) == 0
			if got := d.serves(&p); got != want {
				t.Fatalf("%s, placement %d: serves %v, motions short: %d", name, i, got, len(d.motion))
			}
			if want {
				served++
			}
		}
		if served == 0 || served == n {
			t.Errorf("%s: %d of %d serve; the test tells nothing", name, served, n)
		}
	}
}
