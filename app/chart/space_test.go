package chart

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

func TestSpaceIsMirroredForALeftHip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		right := anyJoint().Draw(t, "subject")
		right.Hip.Side = hip.Right
		left := right
		left.Hip.Side = hip.Left
		a, b := rimChart{page: newPage(right, white)}, rimChart{page: newPage(left, white)}
		a.layout()
		b.layout()
		axis := inCup(right.Designs[0].Joint, right.Posture, right.Hip.PosturePlane).Axis
		p, q := a.place(axis), b.place(axis)
		if !near2(figure.Pt(380-p.X, p.Y), q, 1e-9) {
			t.Errorf("neck axis at %v and %v: not mirrored", p, q)
		}
		g, h := globeChart{page: newPage(right, white), eye: globeEye}, globeChart{page: newPage(left, white), eye: globeEye}
		g.layout()
		h.layout()
		thighAt := hip.Posture{Flexion: 45 * deg, Adduction: right.Posture.Adduction}
		p, q = g.place(thighAt), h.place(thighAt)
		if !near2(figure.Pt(380-p.X, p.Y), q, 1e-9) {
			t.Errorf("thigh at %v and %v: not mirrored", p, q)
		}
	})
}

func TestThreeOClockIsAnterior(t *testing.T) {
	for side, want := range map[hip.Side]float64{hip.Right: 0, hip.Left: 180} {
		r := rimChart{page: newPage(small(sample(side), 1), white)}
		r.layout()
		if got := math.Mod(r.hour(90*deg), 360); got != want {
			t.Errorf("side %v: 3 o'clock is drawn at %v°, want %v", side, got, want)
		}
		// A neck turned towards anterior is drawn towards 3.
		to := heading(r.frame.Box.Centre(), r.place(r3.Unit(r3.Vec{Y: 1, Z: 1})))
		if math.Abs(math.Remainder(to-want, 360)) > 1e-9 {
			t.Errorf("side %v: an anterior neck axis is drawn at %v°, want %v", side, to, want)
		}
	}
}

func TestAbductedThighPointsToTheOuterSide(t *testing.T) {
	for side, sign := range map[hip.Side]float64{hip.Right: -1, hip.Left: 1} { // seen from in front
		g := globeChart{page: newPage(small(sample(side), 1), white), eye: globeEye}
		g.layout()
		out, in := g.place(thigh(30, -40)), g.place(thigh(30, 20))
		if (out.X-in.X)*sign <= 0 {
			t.Errorf("side %v: abducted at x %v, adducted at %v", side, out.X, in.X)
		}
		if up, down := g.place(thigh(90, 0)), g.place(thigh(0, 0)); up.Y >= down.Y {
			t.Errorf("side %v: flexed at y %v is not above extended at %v", side, up.Y, down.Y)
		}
	}
}

func TestMapsOfTheSphereAreInverses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-100, 100).Draw(t, "x")
		y := rapid.Float64Range(-100, 100).Draw(t, "y")
		if got := onClock(offClock(x, y)); !near2(got, figure.Pt(x, y), 1e-6) {
			t.Errorf("onClock(offClock(%v, %v)) = %v", x, y, got)
		}
		u, v := x/150, y/150
		if gx, gy, depth := globeEye.see(globeEye.at(u, v)); math.Hypot(gx-u, gy-v) > 1e-12 || depth < 0 {
			t.Errorf("see(at(%v, %v)) = %v, %v, %v", u, v, gx, gy, depth)
		}
		p := hip.Posture{Flexion: unit.Angle(x) * deg, Adduction: unit.Angle(y*0.85) * deg, InternalRotation: 7 * deg}
		got := pelvisFromThigh(kinematics.ShaftDirection(p)).Mul(hip.RotationY(p.InternalRotation))
		if want := p.PelvisFromFemur(); apart(got, want) > 1e-9 {
			t.Errorf("pelvisFromThigh(ShaftDirection(%+v)) turned in = %v, want %v", p, got, want)
		}
	})
}

// apart returns the greatest difference between the numbers of two rotations.
func apart(a, b hip.Rotation) (most float64) {
	for i := range 3 {
		for j := range 3 {
			most = max(most, math.Abs(a[i][j]-b[i][j]))
		}
	}
	return most
}

func TestTurnedNeckStaysRigidAndDoesNotRoll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyJoint().Draw(t, "subject")
		p := inCup(s.Designs[0].Joint, s.Posture, s.Hip.PosturePlane)
		u := offClock(rapid.Float64Range(-120, 120).Draw(t, "x"), rapid.Float64Range(-120, 120).Draw(t, "y"))
		q := turned(p, u)
		for name, v := range map[string]float64{
			"axis": r3.Dot(q.Axis, u) - 1, "superior": r3.Norm(q.Superior) - 1, "anterior": r3.Norm(q.Anterior) - 1,
			"square": r3.Dot(q.Superior, q.Axis), "hand": r3.Dot(r3.Cross(q.Superior, q.Anterior), q.Axis) - r3.Dot(r3.Cross(p.Superior, p.Anterior), p.Axis),
		} {
			if math.Abs(v) > 1e-9 {
				t.Errorf("%s is off by %v", name, v)
			}
		}
		k := r3.Cross(p.Axis, u) // the axis of the turn is the same seen from both
		if d := r3.Dot(q.Superior, k) - r3.Dot(p.Superior, k); math.Abs(d) > 1e-9 {
			t.Errorf("the neck rolled: %v", d)
		}
	})
}

func TestFreeAreaOfAnOvalNeckTurnsWithTheNeck(t *testing.T) {
	c := kinematics.Case{Count: 1}
	c.Designs[0] = kinematics.Design{
		Rim:  implant.Rim{HeadDiameter: 32, Arc: 180 * deg, Wall: 5},
		Neck: implant.Neck{Oval: implant.Oval{Width: 10, Depth: 16}},
		Cup:  kinematics.Cup{Inclination: 40 * deg, Anteversion: 15 * deg},
		Stem: hip.Stem{Anteversion: 15 * deg, NeckShaft: 130 * deg},
	}
	s := SubjectOf(c, 0)
	turned := s
	turned.Posture.InternalRotation = 40 * deg
	if rimClock.Still(s) == rimClock.Still(turned) {
		t.Fatal("the clock says that its static layer does not depend on the posture")
	}
	if slices.Equal(static(rimClock, s), static(rimClock, turned)) {
		t.Error("the free area of an oval neck did not turn")
	}
}
