package aperture

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// overhanging draws an eccentric oval neck that narrows so steeply, about where
// it leaves the ball, that the edge hangs over what lies beyond, under a lip.
func overhanging(r *rand.Rand) (implant.Rim, implant.Neck) {
	u := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	const d = unit.Degree
	rim := implant.Rim{HeadDiameter: 36, Arc: unit.Angle(u(160, 190)) * d, Wall: u(4, 8)}
	rim.Lips[0] = implant.Lip{Height: unit.Angle(u(3, 15)) * d, Plateau: unit.Angle(u(20, 120)) * d, Ramp: unit.Angle(u(0, 40)) * d}
	wide := u(20, 26)
	oval := implant.Oval{Width: wide, Depth: wide * u(0.7, 0.95), SuperiorShift: u(-2, 2), AnteriorShift: u(1, 3)}
	start := math.Sqrt(18*18-wide*wide/4) + u(-1, 1)
	return rim, implant.Neck{Oval: oval, Taper: implant.Taper{StartDiameter: wide, Start: start, EndDiameter: wide * 0.6, End: start + u(2, 4)}}
}

// eachOverhang calls f with apertures of necks of which the width jumps with the
// azimuth, half of them under a chamfered face.
func eachOverhang(t *testing.T, count int, f func(r *rand.Rand, a *Aperture)) {
	r := rand.New(rand.NewPCG(61, 62))
	for n := 0; n < count; {
		rim, neck := overhanging(r)
		if n%2 == 1 {
			rim.Chamfer = implant.Chamfer{Width: 0.4 * rim.Wall, Depth: 1.5}
		}
		a := Build(rim, neck)
		if a.pair.(*mutual).width.cliffs == nil {
			continue
		}
		n++
		f(r, a)
		if t.Failed() {
			return
		}
	}
}

func TestTheMarginBesideAnOverhangFallsNoFasterThanItsRate(t *testing.T) {
	eachOverhang(t, 12, func(r *rand.Rand, a *Aperture) {
		worst := 0.0
		for range 150 {
			p := poseOf(r.Float64()*1.4, r.Float64()*2*math.Pi, r.Float64()*2*math.Pi)
			turn := unit.Angle(math.Pow(10, -4*r.Float64())) * unit.Degree
			q := turned(p, r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()}, turn)
			before, after := a.Nearest(p).Margin, a.Nearest(q).Margin
			if min(before, after) < a.Steady() {
				continue
			}
			fall := float64((before - after).Abs() / turn)
			if worst = math.Max(worst, fall/a.Rate()); fall > a.Rate() {
				t.Errorf("%+v under %+v: the margin goes from %.5f° to %.5f° in %.5f°, %.2f times the rate",
					a.neck, a.rim, before.Degrees(), after.Degrees(), turn.Degrees(), fall/a.Rate())
				return
			}
		}
		t.Logf("rate %.2f, up to %.2f of it", a.Rate(), worst)
	})
}

func TestTheLookUpOfAnOverhangIsWithinItsBound(t *testing.T) {
	eachOverhang(t, 12, func(r *rand.Rand, a *Aperture) {
		if off := overstatement(r, a, 100); off > a.Overstated().Degrees() {
			t.Errorf("%+v under %+v: the look-up is off by %.4f°, want %.4f° at most", a.neck, a.rim, off, a.Overstated().Degrees())
		}
	})
}

// turned returns a pose after a rotation about an axis.
func turned(p Pose, axis r3.Vec, by unit.Angle) Pose {
	rot := r3.NewRotation(float64(by), axis)
	return Pose{Axis: rot.Rotate(p.Axis), Superior: rot.Rotate(p.Superior), Anterior: rot.Rotate(p.Anterior)}
}
