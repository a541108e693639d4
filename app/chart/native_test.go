package chart

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

func TestNativeRangesAreThoseOfTheQuestions(t *testing.T) {
	known := 0
	for _, q := range kinematics.Questions {
		if q.Given || !q.Native.Known() {
			continue
		}
		known++
		a, sign := q.Movement.Joint()
		r := nativeReach(a, q.Flexion)
		got := r.To
		if sign < 0 {
			got = -r.From
		}
		if got != q.Native.Range {
			t.Errorf("%s: range %v, want %v", q.Key, got.Degrees(), q.Native.Range.Degrees())
		}
	}
	if known < 8 {
		t.Errorf("only %d ranges are known", known)
	}
	if got := nativeRange(kinematics.Internal, 45*deg).Degrees(); math.Abs(got-(35.2+37.9)/2) > 1e-9 {
		t.Errorf("internal rotation at 45° flexion: %v, want the middle of 35.2 and 37.9", got)
	}
}

func TestGreyOutlineIsTheNativeRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		held := hip.Posture{
			Flexion:          unit.Angle(rapid.Float64Range(-40, 140).Draw(t, "flexion")) * deg,
			Adduction:        unit.Angle(rapid.Float64Range(-50, 50).Draw(t, "adduction")) * deg,
			InternalRotation: unit.Angle(rapid.Float64Range(-45, 45).Draw(t, "rotation")) * deg,
		}
		k := kinematics.SliceKind(rapid.IntRange(0, 2).Draw(t, "slice"))
		sl := kinematics.StandardSlice(k, held)
		x := rapid.Float64Range(sl.Across.From.Degrees(), sl.Across.To.Degrees()).Draw(t, "x")
		y := rapid.Float64Range(sl.Up.From.Degrees(), sl.Up.To.Degrees()).Draw(t, "y")
		p := held.With(sl.Across.Angle, unit.Angle(x)*deg).With(sl.Up.Angle, unit.Angle(y)*deg)
		want, nearEdge := true, false
		for _, a := range jointAngles {
			r, v := nativeReach(a, p.Flexion), p.Angle(a)
			want = want && r.holds(v)
			nearEdge = nearEdge || (v-r.From).Abs() < 1e-6 || (v-r.To).Abs() < 1e-6
		}
		if got := inside(x, y, nativeRing(sl)); got != want && !nearEdge {
			t.Errorf("slice %v at %v, %v: inside %v, want %v", k, x, y, got, want)
		}
	})
}

// inside reports whether a point lies in a ring, by the crossings of a ray.
func inside(x, y float64, ring [][2]float64) bool {
	in := false
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		if (p[1] > y) != (q[1] > y) && x < p[0]+(y-p[1])/(q[1]-p[1])*(q[0]-p[0]) {
			in = !in
		}
	}
	return in
}
