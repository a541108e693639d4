package aperture

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/unit"
)

// spun is a pose turned at unit speed about a fixed axis.
func spun(p Pose, axis r3.Vec, by float64) Pose {
	r := r3.NewRotation(by, axis)
	return Pose{Axis: r.Rotate(p.Axis), Superior: r.Rotate(p.Superior), Anterior: r.Rotate(p.Anterior)}
}

// From a free place with a rise r there is no contact within √(2r) of turning
// unless it lasts to the end of it: no dip below zero between two free places.
func TestAFreePlaceReachesOverNoDip(t *testing.T) {
	for k, features := range designs {
		r := rand.New(rand.NewPCG(51, uint64(k)))
		leaps, longest := 0, 0.0
		for range 12 {
			a := randomParts(r, strings.Fields(features)...).build()
			for range 30 {
				from := poseOf(r.Float64()*1.4, r.Float64()*2*math.Pi, r.Float64()*2*math.Pi)
				axis := r3.Unit(r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()})
				margin := a.Nearest(from).Margin
				rise := a.Rise(margin)
				if rise <= 0 {
					continue
				}
				reach := math.Sqrt(2 * rise)
				leaps, longest = leaps+1, math.Max(longest, reach/float64(margin)*a.Rate())
				touched := math.Inf(1)
				for i := 1; i <= 40; i++ {
					at := reach * float64(i) / 40
					switch m := a.Margin(spun(from, axis, at)); {
					case m <= 0:
						touched = math.Min(touched, at)
					case touched < at && m > 0.02*unit.Degree:
						t.Fatalf("[%s] margin %.4f°: in contact after %.4f°, free again after %.4f° of a reach of %.4f°", features,
							margin.Degrees(), touched*180/math.Pi, at*180/math.Pi, reach*180/math.Pi)
					}
				}
			}
		}
		t.Logf("[%s] %d leaps, up to %.1f times a certain step", features, leaps, longest)
	}
}

func TestOvalsHaveAReachBeyondTheirRate(t *testing.T) {
	for _, d := range benchDesigns {
		a := Build(d.rim, d.neck)
		for _, margin := range []unit.Angle{0.1 * unit.Degree, 1 * unit.Degree, 5 * unit.Degree} {
			reach, step := math.Sqrt(2*a.Rise(margin)), float64(margin)/a.Rate()
			if reach < 1.5*step {
				t.Errorf("%s: from a margin of %v° a leap reaches %.4f, a certain step %.4f", d.name, margin.Degrees(), reach, step)
			}
		}
	}
}
