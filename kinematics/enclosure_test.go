package kinematics_test

import (
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	. "rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/sphere"
	"rimclear/kinematics/unit"
)

// brute returns the greatest angle between a cup axis and the motions by
// posture after posture, refined beside every one that comes close to the
// greatest; it knows no arcs.
func brute(h Hip, s hip.Stem, list []motion.Requirement) func(n r3.Vec) unit.Angle {
	us, at := directions(h, s, list, degrees(1))
	j := Assemble(h, Design{Stem: s}, roundAperture)
	cos := make([]float64, len(us))
	return func(n r3.Vec) unit.Angle {
		least := 2.0
		for k, u := range us {
			cos[k] = r3.Dot(n, u)
			least = min(least, cos[k])
		}
		var most unit.Angle
		for k, u := range us {
			if cos[k] > least+2e-4 { // a degree's sag is 1.5e-4
				continue
			}
			most = max(most, sphere.Between(n, u))
			m := at[k]
			if k == 0 || k+1 == len(us) || at[k-1].Motion != m.Motion || at[k-1].Place.Leg != m.Place.Leg ||
				at[k+1].Motion != m.Motion || at[k+1].Place.Leg != m.Place.Leg || cos[k-1] < cos[k] || cos[k+1] < cos[k] {
				continue // an end, or not the lowest of three
			}
			p := list[m.Motion].Paths[m.Path]
			v := func(x float64) r3.Vec {
				return j.APPFromNeck(p.ShaftAt(motion.Place{Leg: m.Place.Leg, Fraction: x}), p.Zero).Column(2)
			}
			// The bottom of a parabola through three places, and once more closely.
			x, reach := m.Place.Fraction, at[k+1].Place.Fraction-m.Place.Fraction
			for range 3 {
				a, b, c := r3.Dot(n, v(x-reach)), r3.Dot(n, v(x)), r3.Dot(n, v(x+reach))
				if d := a - 2*b + c; d > 0 {
					x += reach * (a - c) / 2 / d
				}
				reach /= 30
			}
			most = max(most, sphere.Between(n, v(x)))
		}
		return most
	}
}

func TestSmallestCapOfAThousandRandomMotionSetsAgreesWithBruteForce(t *testing.T) {
	sets := 1000
	if testing.Short() {
		sets = 50
	}
	r := rand.New(rand.NewPCG(7, 44))
	fit, three := 0, 0
	for range sets {
		h, s, list := Hip{Tilts: randomTilts(r)}, randomStem(r), randomMotions(r)
		e, _ := NewDemand(h, s, list).Enclosure()
		if !e.Fits {
			continue
		}
		fit++
		if e.Gap > 1e-9*unit.Degree {
			t.Errorf("gap %.3g°", e.Gap.Degrees())
		}
		greatest := brute(h, s, list)
		// The axis is as good as its radius says, and nowhere about it is better:
		// the greatest angle to a set has no other valley.
		about(t, "radius measured anew", greatest(e.Axis).Degrees(), e.Radius.Degrees(), 1e-6)
		axis, least := descend(e.Axis, greatest)
		about(t, "least radius by brute force", least.Degrees(), e.Radius.Degrees(), 1e-6)
		if len(e.Support) == 3 {
			three++
			if off := sphere.Between(axis, e.Axis).Degrees(); off > 0.01 {
				t.Errorf("three directions bind: axis %.4f° off the one by brute force", off)
			}
		}
	}
	t.Logf("%d of %d sets fit a hemisphere, %d bound by three directions", fit, sets, three)
	if fit < sets/2 || three < sets/10 {
		t.Errorf("the sets say little")
	}
}

// descend looks for an axis of smaller greatest angle about a start put
// off the middle, by golden section within golden section in the gnomonic chart,
// in which caps are convex.
func descend(start r3.Vec, greatest func(n r3.Vec) unit.Angle) (r3.Vec, unit.Angle) {
	t := sphere.Toward(start, r3.Vec{X: 1, Y: 2, Z: 3})
	s := r3.Cross(start, t)
	at := func(x, y float64) r3.Vec {
		return r3.Unit(r3.Add(start, r3.Add(r3.Scale(x, t), r3.Scale(y, s))))
	}
	down := func(x float64) (float64, float64) {
		return narrow(-0.006, 0.008, func(y float64) float64 { return float64(greatest(at(x, y))) })
	}
	x, v := narrow(-0.008, 0.006, func(x float64) float64 {
		_, v := down(x)
		return v
	})
	y, _ := down(x)
	return at(x, y), unit.Angle(v)
}

// narrow returns place and value of the least f between a and b.
func narrow(a, b float64, f func(float64) float64) (x, v float64) {
	const g = 0.6180339887498949
	c, d := b-g*(b-a), a+g*(b-a)
	fc, fd := f(c), f(d)
	for b-a > 1e-8 {
		if fc < fd {
			b, d, fd = d, c, fc
			c = b - g*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + g*(b-a)
			fd = f(d)
		}
	}
	if fc < fd {
		return c, fc
	}
	return d, fd
}
