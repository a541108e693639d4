package kinematics

import (
	"math"
	"math/rand/v2"
	"testing"

	"rimclear/kinematics/implant"
)

// jumpOf looks for a jump of the margin between two values of a parameter: it
// halves the way to where the margin changes more, and returns what is left of
// the change. Contact counts as no margin, whatever its depth. It is not a
// number where a value on the way is not valid.
func jumpOf(p *Parameter, c Case, from, to float64) float64 {
	margin := func(v float64) float64 {
		k := p.Set(c, 0, v)
		if len(Validate(&k)) > 0 {
			return math.NaN()
		}
		return math.Max(0, NewJoint(k.Hip, k.Designs[0]).Margin(k.Posture).Degrees())
	}
	a, b := margin(from), margin(to)
	for range 20 {
		mid := (from + to) / 2
		m := margin(mid)
		if math.Abs(m-a) > math.Abs(b-m) {
			to, b = mid, m
		} else {
			from, a = mid, m
		}
	}
	return math.Abs(b - a)
}

// continuous tries one design and reports whether a parameter could be changed
// in it, whether that moved the margin, and the change left at the worst place.
func continuous(t *testing.T, r *rand.Rand, p *Parameter) (tried, moved bool, jump float64) {
	sets := []string{"plain", "lip", "steep lip2", "step notch", "taper", "oval shift", "trapezoid", "bump", "chamfer recess", "extension",
		"lip oval", "edge lip", "inset oval bump", "thick flare"}
	c := Default()
	h, d := shaped(r, sets[r.IntN(len(sets))])
	c.Designs[0] = d
	c.Hip.Side, c.Hip.Tilts, c.Hip.CupPlane, c.Hip.PosturePlane = h.Side, h.Tilts, h.CupPlane, h.PosturePlane
	c.Posture = posture(-20+110*r.Float64(), -20+35*r.Float64(), -30+60*r.Float64())
	if p.Key == "mobile_head_mm" || p.Key == "mobile_arc_deg" {
		c.Designs[0].Bearing, c.Designs[0].Rim.Mobile = DualMobility, implant.Mobile{Head: 22, Arc: deg(200)}
	}
	from := p.Get(&c, 0)
	if from == 0 && (p.Group == RimGroup || p.Group == NeckGroup) || len(Validate(&c)) > 0 {
		return false, false, 0
	}
	for span := (p.Max - p.Min) * (2*r.Float64() - 1); math.Abs(span) > p.Step; span /= 2 {
		to := max(p.Min, min(p.Max, from+span))
		if jump = jumpOf(p, c, from, to); math.IsNaN(jump) || to*from == 0 && from != 0 {
			continue
		}
		if jump > continuityTolerance {
			t.Errorf("%s from %v to %v: the margin jumps by %.4f°\n%+v at %+v", p.Key, from, to, jump, c.Designs[0], c.Posture)
		}
		a, b := p.Set(c, 0, from), p.Set(c, 0, to)
		return true, NewJoint(a.Hip, a.Designs[0]).Margin(a.Posture) != NewJoint(b.Hip, b.Designs[0]).Margin(b.Posture), jump
	}
	return false, false, 0
}

// continuityTolerance is what may be left of a change of the margin, in degrees,
// over a millionth of a range: the look-up overstates by so much (aperture.Margin).
const continuityTolerance = 0.005

// Continuity in every number of the table: nothing that a slider can do makes
// the margin jump. Two things do and are left out. A skirt's flat end meets the
// rim at once, at some breadth, as it comes out of the head. And a lip or notch
// that appears under a neck that is not round changes what the margin is: the
// gap along the neck's meridian takes the place of the geodesic one
// (aperture.Margin); contact itself does not jump.
func TestTheMarginIsContinuousInEveryNumber(t *testing.T) {
	if testing.Short() {
		t.Skip("the full run builds thousands of bearings")
	}
	r := rand.New(rand.NewPCG(41, 3))
	for k := range Parameters {
		p := &Parameters[k]
		if p.Kind == Choice || p.Group == GoalGroup || p.Key == "skirt_diameter_mm" || p.Key == "skirt_length_mm" {
			continue // a goal is no geometry
		}
		tried, moving, worst := 0, 0, 0.0
		for n := 0; n < 100 && tried < 8 && moving < 3; n++ {
			did, moved, jump := continuous(t, r, p)
			if did {
				tried, worst = tried+1, math.Max(worst, jump)
			}
			if moved {
				moving++
			}
		}
		t.Logf("%s: %d tried, %d of which move the margin, largest change left %.1g°", p.Key, tried, moving, worst)
		if tried == 0 {
			t.Errorf("%s was never tried", p.Key)
		}
	}
}
