package motion

import (
	"testing"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

func TestAnUncertainActivityGoesToEveryCornerOfItsTolerance(t *testing.T) {
	sit, _ := builtIn(t).Activity("sit_to_stand")
	wide := sit.Widened(UsualTolerance).Paths(Setting{})
	if len(wide) != 9 {
		t.Fatalf("%d paths, want 9", len(wide))
	}
	want := map[hip.Posture]bool{}
	for _, f := range []float64{100, 110} {
		for _, a := range []float64{-20, -10} {
			for _, r := range []float64{0, 10} {
				want[posture(f, a, r)] = true
			}
		}
	}
	for _, p := range wide[1:] {
		for q := range want {
			if near(q, p.At(p.End())) {
				delete(want, q)
			}
		}
		if p.Waypoints[0] != hip.Neutral {
			t.Errorf("the start moved to %v", p.Waypoints[0])
		}
	}
	if len(want) != 0 {
		t.Errorf("corners not gone to: %v", want)
	}
	if n := len(sit.Paths(Setting{})); n != 1 {
		t.Errorf("the activity itself now has %d paths", n)
	}
}

func TestSeparateMaximaGrowAwayFromZero(t *testing.T) {
	l := builtIn(t)
	for key, want := range map[string][2][3]float64{
		"stoop":         {{0, -26, -23}, {122, 0, 0}},
		"shoe_on_floor": {{0, -24, -20}, {129, 22, 15}},
	} {
		a, _ := l.Activity(key)
		least, most := a.Widened(5 * unit.Degree).Range()
		for k := range least {
			if d := least[k].Degrees() - want[0][k]; d > 1e-9 || d < -1e-9 {
				t.Errorf("%s: least %v of angle %d, want %v", key, least[k].Degrees(), k, want[0][k])
			}
			if d := most[k].Degrees() - want[1][k]; d > 1e-9 || d < -1e-9 {
				t.Errorf("%s: most %v of angle %d, want %v", key, most[k].Degrees(), k, want[1][k])
			}
		}
	}
}
