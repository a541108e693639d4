package aperture

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// Lips and notch turned about the cup's axis, and the neck with them, are the
// same bearing seen from another side.
func TestTurningLipsAndNeckTogetherAboutTheCupChangesNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 30))
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	lip := func() implant.Lip {
		return implant.Lip{Height: deg(in(2, 20)), Centre: deg(in(-180, 180)), Plateau: deg(in(5, 90)), Ramp: deg([]float64{0, in(1, 4), in(10, 40)}[r.IntN(3)])}
	}
	worst := 0.0
	for n := range 300 {
		rim := implant.Rim{HeadDiameter: 36, Arc: deg(in(160, 190)), Wall: 5, Lips: [2]implant.Lip{lip(), lip()}, Notch: lip()}
		neck := implant.Neck{Diameter: in(11, 18)}
		if n%3 == 0 {
			neck = implant.Neck{Oval: implant.Oval{Width: in(12, 18), Depth: in(10, 16), Roll: deg(in(-90, 90)), AnteriorShift: in(-2, 2)}}
		}
		by := deg(in(-180, 180))
		turned := rim
		for _, l := range []*implant.Lip{&turned.Lips[0], &turned.Lips[1], &turned.Notch} {
			l.Centre = (l.Centre + by).Wrapped()
		}
		a, b := Build(rim, neck), Build(turned, neck)
		for range 20 {
			p := poseOf(in(0, 1.2), in(-math.Pi, math.Pi), in(-math.Pi, math.Pi))
			q := Pose{Axis: aboutCup(by, p.Axis), Superior: aboutCup(by, p.Superior), Anterior: aboutCup(by, p.Anterior)}
			exactTo := 0.02 // the margin is looked up on samples of the rim, which turn with it
			if _, round := a.Theta(); round {
				exactTo = 1e-9
			}
			off := (max(0, a.Margin(p)) - max(0, b.Margin(q))).Abs().Degrees() // contact has no exact depth
			worst = math.Max(worst, off)
			if off > exactTo {
				t.Fatalf("%+v %+v turned by %.4f°: margin %.9f°, was %.9f°; exact %.9f°, %.9f°", rim, neck, by.Degrees(), b.Margin(q).Degrees(), a.Margin(p).Degrees(), b.Nearest(q).Margin.Degrees(), a.Nearest(p).Margin.Degrees())
			}
			if off := (a.Nearest(p).Margin - b.Nearest(q).Margin).Abs().Degrees(); a.Nearest(p).Margin > 0 && off > 1e-4 {
				t.Fatalf("%+v %+v turned by %.4f°: exact margin off by %.3g°", rim, neck, by.Degrees(), off)
			}
			if a.Margin(p).Abs() > deg(exactTo) && a.Free(p) != b.Free(q) {
				t.Fatalf("%+v %+v turned by %.4f°: free %v, was %v", rim, neck, by.Degrees(), b.Free(q), a.Free(p))
			}
		}
	}
	t.Logf("largest difference %.2g°", worst)
}

func aboutCup(by unit.Angle, v r3.Vec) r3.Vec {
	s, c := by.Sincos()
	return r3.Vec{X: c*v.X - s*v.Y, Y: s*v.X + c*v.Y, Z: v.Z}
}
