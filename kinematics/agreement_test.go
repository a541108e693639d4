package kinematics

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// randomPlain draws a round design from far beyond the usual ranges.
func randomPlain(r *rand.Rand) Design {
	u := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	head := u(22, 58)
	d := plain(head, head*u(0.25, 0.88), u(150, 190), u(5, 80), u(-25, 50), u(-25, 50), u(110, 160))
	d.Stem.Varus, d.Stem.SagittalTilt = deg(u(-8, 8)), deg(u(-8, 8))
	return d
}

func randomHip(r *rand.Rand) Hip {
	tilt := func() unit.Angle { return deg(60*r.Float64() - 30) }
	return Hip{
		Side:     hip.Side(r.IntN(2)),
		Tilts:    hip.Tilts{Supine: tilt(), Standing: tilt(), RelaxedSitting: tilt(), FlexedSitting: tilt()},
		CupPlane: hip.Plane(r.IntN(int(hip.PlaneCount))), PosturePlane: hip.Plane(r.IntN(int(hip.PlaneCount))),
	}
}

func randomPosture(r *rand.Rand) hip.Posture {
	return posture(220*r.Float64()-60, 160*r.Float64()-80, 240*r.Float64()-120)
}

// grazing is the slope of the margin, per degree of motion, below which a
// crossing is ill-conditioned: rounding of the margin moves its place. There
// the margin at the place found is compared instead of the place.
const grazing = 1e-4

// agree compares two places of contact on one path by the stated rule: within
// 1e-9° where the crossing is well-conditioned, and everywhere a margin of no
// more than 1e-9°, or a touch beside it.
func agree(t *testing.T, j Joint, m motion.Path, a, b motion.Place) (worst float64) {
	t.Helper()
	span := func(leg int) float64 {
		p, q := m.Waypoints[leg], m.Waypoints[leg+1]
		return math.Max(math.Max((q.Flexion-p.Flexion).Abs().Degrees(), (q.Adduction-p.Adduction).Abs().Degrees()), (q.InternalRotation - p.InternalRotation).Abs().Degrees())
	}
	margin := func(at motion.Place) float64 { return j.Aperture.Nearest(j.pose(m.At(at), m.Zero)).Margin.Degrees() }
	apart := math.Abs(float64(a.Leg)+a.Fraction-float64(b.Leg)-b.Fraction) * math.Max(span(a.Leg), span(b.Leg))
	if apart <= 1e-9 {
		return apart
	}
	if a.Leg == b.Leg {
		h := 1e-4 / span(a.Leg)
		slope := math.Abs(margin(motion.Place{Leg: a.Leg, Fraction: math.Min(1, a.Fraction+h)})-margin(motion.Place{Leg: a.Leg, Fraction: math.Max(0, a.Fraction-h)})) / 2e-4
		if slope > grazing {
			t.Errorf("%+v: contact at %+v and at %+v, %.3g° apart where the margin changes by %.3g per degree", m, a, b, apart, slope)
			return apart
		}
	}
	if x, y := margin(a), margin(b); math.Abs(x) > 2.1e-9 || math.Abs(y) > 2.1e-9 {
		t.Errorf("%+v: grazing contact at %+v and at %+v, but the margins there are %.3g° and %.3g°", m, a, b, x, y)
	}
	return 0
}

// compare solves a path twice; touching reports that the two answers differ in
// kind.
func compare(t *testing.T, j Joint, m motion.Path) (worst float64, touching bool) {
	t.Helper()
	a := j.Limit(m)
	b, ended := searched(j, m)
	if !ended {
		t.Fatalf("%+v: the search does not end; closed %s", m, brief(a))
	}
	if a.Status != b.Status || len(a.Intervals) != len(b.Intervals) {
		return 0, true
	}
	worst = agree(t, j, m, a.At, b.At)
	for i := range a.Intervals {
		worst = math.Max(worst, agree(t, j, m, a.Intervals[i].From, b.Intervals[i].From))
		worst = math.Max(worst, agree(t, j, m, a.Intervals[i].To, b.Intervals[i].To))
	}
	return worst, false
}

func TestClosedFormAndCertifiedSearchAgreeOnTenThousandCases(t *testing.T) {
	r := rand.New(rand.NewPCG(2024, 1))
	worst, limits, intervals := 0.0, 0, map[int]int{}
	const cases = 12000
	for k := range cases {
		h, d := randomHip(r), randomPlain(r)
		j := NewJoint(h, d)
		var m motion.Path
		if k%3 > 0 {
			start := randomPosture(r)
			if k%3 == 1 {
				start = hip.Neutral
			}
			angle := hip.JointAngle(r.IntN(3))
			end := start.Angle(angle) + deg(r.Float64()*720-360)
			m = motion.Sweep(start, angle, end, hip.Plane(r.IntN(int(hip.PlaneCount))))
		} else {
			m = legs(r, 2+r.IntN(3))
		}
		w, touching := compare(t, j, m)
		if touching {
			t.Errorf("case %d, %+v: closed %s, searched %s", k, m, brief(j.Limit(m)), brief(j.SearchedLimit(m)))
		}
		worst = math.Max(worst, w)
		l := j.Limit(m)
		if l.Status == Stopped {
			limits++
		}
		intervals[len(l.Intervals)]++
	}
	t.Logf("%d cases, %d with a limit, by number of contact intervals %v: worst difference of a well-conditioned place %.2g°", cases, limits, intervals, worst)
	if limits < cases/4 {
		t.Errorf("only %d of %d cases have a limit: the test asks too little", limits, cases)
	}
}

// legs draws a path on each of whose legs one joint angle moves.
func legs(r *rand.Rand, count int) motion.Path {
	p := []hip.Posture{posture(60*r.Float64()-20, 20*r.Float64()-10, 40*r.Float64()-20)}
	for range count {
		last := p[len(p)-1]
		p = append(p, last.With(hip.JointAngle(r.IntN(3)), deg(200*r.Float64()-80)))
	}
	return motion.Path{Zero: hip.Plane(r.IntN(int(hip.PlaneCount))), Waypoints: p}
}

func brief(l Limit) string {
	s := [...]string{"stopped", "free", "starts in contact"}[l.Status]
	for _, i := range l.Intervals {
		s += " [" + place(i.From) + ", " + place(i.To) + "]"
	}
	return s
}

func place(p motion.Place) string {
	return string(rune('0'+p.Leg)) + "+" + strconv.FormatFloat(p.Fraction, 'f', 9, 64)
}

// direction is the neck axis in the APP, written down a second time with
// quaternions: zero plane, flexion, adduction, rotation, then the stem.
func direction(h Hip, d Design, p hip.Posture, zero hip.Plane) r3.Vec {
	turn := func(a unit.Angle, axis, v r3.Vec) r3.Vec { return r3.NewRotation(a.Radians(), axis).Rotate(v) }
	x, y, z := r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
	v := r3.Scale(-1, y)                                  // down the shaft
	v = turn(-(180*unit.Degree - d.Stem.NeckShaft), x, v) // the neck leaves it laterally
	v = turn(-d.Stem.Anteversion, y, v)                   // forward of it lies the head, so the axis runs backward
	v = turn(-d.Stem.SagittalTilt, z, turn(-d.Stem.Varus, x, v))
	v = turn(p.Flexion, z, turn(p.Adduction, x, turn(p.InternalRotation, y, v)))
	return turn(h.Tilts.Of(zero), z, v)
}

func TestPathsOfSeveralAnglesStopWhereDenseSamplingSays(t *testing.T) {
	r := rand.New(rand.NewPCG(77, 3))
	worst, stopped := 0.0, 0
	for range 300 {
		h, d := randomHip(r), randomPlain(r)
		n := turned(h.Tilts.Of(h.CupPlane), hip.Radiographic{Inclination: d.Cup.Inclination, Anteversion: d.Cup.Anteversion}.Axis())
		theta := math.Pi - d.Rim.Arc.Radians()/2 - math.Asin(d.Neck.Diameter/d.Rim.HeadDiameter)
		m := motion.Path{Zero: hip.Plane(r.IntN(int(hip.PlaneCount))), Waypoints: []hip.Posture{hip.Neutral, randomPosture(r), randomPosture(r)}}
		margin := func(x float64) float64 {
			leg := min(int(x), m.Legs()-1)
			p := m.Waypoints[leg].Toward(m.Waypoints[leg+1], x-float64(leg))
			u := direction(h, d, p, m.Zero)
			return theta - math.Atan2(r3.Norm(r3.Cross(n, u)), r3.Dot(n, u))
		}
		const steps = 4000
		first, found := 0.0, margin(0) <= 0
		for i := 1; i <= steps && !found; i++ {
			lo, hi := 2*float64(i-1)/steps, 2*float64(i)/steps
			if margin(hi) > 0 {
				continue
			}
			found = true
			for range 60 {
				if x := (lo + hi) / 2; margin(x) > 0 {
					lo = x
				} else {
					hi = x
				}
			}
			first = hi
		}
		l := NewJoint(h, d).Limit(m)
		switch {
		case found && first == 0:
			if l.Status != StartsInContact {
				t.Errorf("%+v: %s, want contact at the start", m, brief(l))
			}
		case found:
			stopped++
			got := float64(l.At.Leg) + l.At.Fraction
			if l.Status != Stopped || got > first+1e-9 {
				t.Errorf("%+v: %s, want a stop at %.9f legs", m, brief(l), first)
				continue
			}
			// Sampling may step over a graze that the search finds.
			if got < first-1e-9 && margin(got) > 1e-11 {
				t.Errorf("%+v: stops at %.9f legs with a margin of %.3g rad, sampling at %.9f", m, got, margin(got), first)
			}
			worst = math.Max(worst, math.Abs(got-first))
		case l.Status != Free:
			if x := float64(l.At.Leg) + l.At.Fraction; margin(x) > 1e-11 {
				t.Errorf("%+v: %s, but the margin there is %.3g rad and sampling finds no contact", m, brief(l), margin(x))
			}
		}
	}
	t.Logf("%d of 300 paths stopped; worst difference %.2g of a leg", stopped, worst)
}

func turned(a unit.Angle, v r3.Vec) r3.Vec {
	return r3.NewRotation(a.Radians(), r3.Vec{Z: 1}).Rotate(v)
}
