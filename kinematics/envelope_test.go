package kinematics

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

func TestTheEnvelopeIsTheMarginAtEachOfItsPostures(t *testing.T) {
	h := Hip{Tilts: hip.Tilts{Standing: deg(7)}, PosturePlane: hip.Standing}
	j := NewJoint(h, usual())
	for k := range SliceKindCount {
		s := StandardSlice(k, posture(30, 10, -15))
		region := j.Region(s)
		if len(region.Margin) != s.Across.Count*s.Up.Count || s.Across.Angle == s.Up.Angle {
			t.Fatalf("slice %d: %d values of %d by %d", k, len(region.Margin), s.Across.Count, s.Up.Count)
		}
		for i := 0; i < s.Across.Count; i += 7 {
			for m := 0; m < s.Up.Count; m += 5 {
				p := s.Held.With(s.Across.Angle, s.Across.At(i)).With(s.Up.Angle, s.Up.At(m))
				if got, want := region.At(i, m), j.Margin(p); got != want {
					t.Fatalf("slice %d at %+v: %v, want the joint's margin %v", k, p, got, want)
				}
			}
		}
	}
}

func TestAxesRunFromTheirFirstToTheirLastValue(t *testing.T) {
	a := Axis{hip.Flexion, -60 * unit.Degree, 160 * unit.Degree, 111}
	for i, want := range map[int]float64{0: -60, 110: 160, 55: 50} {
		closeTo(t, "value of the axis", a.At(i), deg(want), 1e-12)
	}
	if got := (Axis{From: 3, To: 9, Count: 1}).At(0); got != 3 {
		t.Errorf("an axis of one value gives %v", got)
	}
}

// The envelope's border is where the limits are.
func TestTheBorderOfTheEnvelopeIsWhereMotionsStop(t *testing.T) {
	d := plain(32, 14, 180, 42, 12, 10, 132)
	j := NewJoint(Hip{}, d)
	s := StandardSlice(FlexionByRotation, hip.Neutral)
	region := j.Region(s)
	borders := 0
	for k := range s.Up.Count {
		start := hip.Posture{InternalRotation: s.Up.At(k)}
		l := j.Limit(FlexionMovement.Path(start, 160*unit.Degree, hip.APP))
		if l.Status == StartsInContact {
			if j.Margin(start) > Touch {
				t.Errorf("at rotation %.1f°: contact at the start, but the margin is %.3f°", s.Up.At(k).Degrees(), j.Margin(start).Degrees())
			}
			continue
		}
		for i := range s.Across.Count {
			x := s.Across.At(i)
			if x < 0 {
				continue
			}
			free, before := region.At(i, k) > Touch, l.Status == Free || x < l.Angle
			if before && !free {
				t.Errorf("rotation %.1f°, flexion %.1f°: in contact, but the motion stops only at %.3f°", s.Up.At(k).Degrees(), x.Degrees(), l.Angle.Degrees())
			}
			if !before {
				borders++
				if i > 0 && x-l.Angle < 2*unit.Degree && len(l.Intervals) == 1 && free && l.Intervals[0].To.Fraction == 1 {
					t.Errorf("rotation %.1f°, flexion %.1f°: free beyond the limit of %.3f°", s.Up.At(k).Degrees(), x.Degrees(), l.Angle.Degrees())
				}
				break
			}
		}
	}
	if borders < 50 {
		t.Errorf("the envelope has a border in only %d of %d rows", borders, s.Up.Count)
	}
}

func TestFreeShareIsTheShareOfRandomPosturesThatAreFree(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	j := NewJoint(Hip{}, plain(36, 14, 176, 42, 15, 15, 135))
	for k := range SliceKindCount {
		s := StandardSlice(k, posture(40, 10, 10))
		got := j.Region(s).FreeShare()
		free, all := 0.0, 0.0
		for range 60000 {
			p := s.Held.With(s.Across.Angle, s.Across.From+unit.Angle(r.Float64())*(s.Across.To-s.Across.From))
			p = p.With(s.Up.Angle, s.Up.From+unit.Angle(r.Float64())*(s.Up.To-s.Up.From))
			w := math.Cos(p.Adduction.Radians())
			all += w
			if j.Margin(p) > 0 {
				free += w
			}
		}
		if want := free / all; math.Abs(got-want) > 0.015 {
			t.Errorf("slice %d: FreeShare = %.4f, random postures %.4f", k, got, want)
		}
	}
}

func TestAWiderNeckFreesNoPosture(t *testing.T) {
	thin, thick := NewJoint(Hip{}, plain(32, 12, 180, 40, 15, 15, 135)), NewJoint(Hip{}, plain(32, 14, 180, 40, 15, 15, 135))
	s := StandardSlice(FlexionByAdduction, hip.Neutral)
	a, b := thin.Region(s), thick.Region(s)
	for i := range a.Margin {
		if b.Margin[i] >= a.Margin[i] {
			t.Fatalf("posture %d: margin %v with the wider neck, %v with the thinner", i, b.Margin[i], a.Margin[i])
		}
	}
	if a.FreeShare() <= b.FreeShare() {
		t.Errorf("free share %.4f with the thin neck, %.4f with the wide one", a.FreeShare(), b.FreeShare())
	}
}

func TestTheThighPointsWhereItsAnglesSay(t *testing.T) {
	for _, c := range []struct {
		p    hip.Posture
		want r3.Vec
	}{
		{hip.Neutral, r3.Vec{Y: -1}},
		{posture(90, 0, 0), r3.Vec{X: 1}},
		{posture(0, -90, 0), r3.Vec{Z: 1}},
		{posture(0, 90, 0), r3.Vec{Z: -1}},
		{posture(0, 0, 70), r3.Vec{Y: -1}},
	} {
		if got := ShaftDirection(c.p); r3.Norm(r3.Sub(got, c.want)) > 1e-15 {
			t.Errorf("ShaftDirection(%+v) = %v, want %v", c.p, got, c.want)
		}
	}
}
