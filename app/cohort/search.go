package cohort

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// search finds where legs first make contact, for a bearing that is not round.
//
// From a place with a margin m there is no contact within m over the rate at
// which margins fall: a leg is followed by such steps, on the margin over
// samples less what it overstates, and never over a contact. Within the last
// near of it the exact margin is brought to zero by secants. A leg on which
// that does not settle, as where contact is grazing, is left to
// kinematics.Joint.Limit.
type search struct {
	joint     kinematics.Joint
	zero      hip.Plane
	tilt      hip.Rotation // APP from the zero plane
	cup       hip.Rotation // cup from APP
	neck      hip.Rotation // femur from neck
	overstate unit.Angle
}

func newSearch(h kinematics.Hip, d *kinematics.Design, j kinematics.Joint) search {
	s := search{joint: j, zero: h.PosturePlane, overstate: j.Aperture.Overstated()}
	s.tilt = hip.RotationZ(h.Tilts.Of(h.PosturePlane))
	s.cup = j.APPFromCup().Inverse()
	s.neck = d.Stem.FemurFromNeck()
	return s
}

// turning is the neck in the cup along a leg: before · rotation · after.
type turning struct {
	before, after hip.Rotation
	about         func(unit.Angle) hip.Rotation
	start, sign   unit.Angle
	slope         unit.Angle // greatest fall of the margin per radian of travel
}

func (s *search) along(l *leg) turning {
	t := turning{before: s.cup.Mul(s.tilt), after: s.neck, about: hip.RotationY, start: l.start.Angle(l.moving), sign: l.sign}
	flexed := hip.RotationZ(l.start.Flexion)
	turned := hip.RotationY(l.start.InternalRotation)
	switch l.moving {
	case hip.Flexion:
		t.about, t.after = hip.RotationZ, hip.RotationX(l.start.Adduction).Mul(turned).Mul(s.neck)
	case hip.Adduction:
		t.about, t.before, t.after = hip.RotationX, t.before.Mul(flexed), turned.Mul(s.neck)
	default:
		t.before = t.before.Mul(flexed).Mul(hip.RotationX(l.start.Adduction))
	}
	t.slope = unit.Angle(s.joint.Aperture.Rate())
	if s.joint.Aperture.Neck().Round() { // its roll does not count, only how far its axis moves
		n := t.after.Column(2)
		t.slope *= unit.Angle(math.Sqrt(max(0, 1-square(r3.Dot(n, axisOf(l.moving))))))
	}
	return t
}

func square(x float64) float64 { return x * x }

// axisOf returns the axis about which a joint angle turns, in its own frame.
func axisOf(moving hip.JointAngle) r3.Vec {
	switch moving {
	case hip.Flexion:
		return r3.Vec{Z: 1}
	case hip.Adduction:
		return r3.Vec{X: 1}
	}
	return r3.Vec{Y: 1}
}

func (t *turning) pose(travel unit.Angle) aperture.Pose {
	r := t.before.Mul(t.about(t.start + t.sign*travel)).Mul(t.after)
	return aperture.Pose{Superior: r.Column(0), Anterior: r.Column(1), Axis: r.Column(2)}
}

// near is the margin over samples, less what it overstates, below which the
// exact margin is brought to zero.
const near = 0.02 * unit.Degree

// settled is the exact margin at which a last step by the slope just found ends
// a search: it is then off by less than the last digit of a result, 1e-5°.
const settled = 3e-4 * unit.Degree

// first returns the travel at which contact is first made along a leg, never
// for none. from is a travel up to which there is known to be none.
func (s *search) first(l *leg, from unit.Angle) unit.Angle {
	if from >= l.far {
		return never
	}
	t := s.along(l)
	if t.slope < 1e-9 {
		return s.slowly(l)
	}
	before, was := unit.Angle(0), unit.Angle(0)
	for x := from; x < l.far; {
		m := s.joint.Aperture.Margin(t.pose(x)) - s.overstate
		if m <= near {
			fall := t.slope
			if before > m && x > was {
				fall = (before - m) / (x - was)
			}
			return s.close(l, &t, x, fall)
		}
		before, was = m, x
		x += m / t.slope
	}
	return never
}

// close finds a contact that is about to be made at travel x, where the margin
// falls by so much per travel.
func (s *search) close(l *leg, t *turning, x, fall unit.Angle) unit.Angle {
	const tries = 8
	margin := func(x unit.Angle) unit.Angle { return s.joint.Aperture.Nearest(t.pose(x)).Margin - kinematics.Touch }
	v := margin(x)
	if v <= 0 || !(fall > t.slope/50) {
		return s.slowly(l)
	}
	start := x
	for range tries {
		y := x + v/fall
		if y > l.far || y < start || y > start+1*unit.Degree {
			break
		}
		w := margin(y)
		if fall = (v - w) / (y - x); !(fall > 0) {
			break
		}
		if w.Abs() < settled {
			return y + w/fall
		}
		x, v = y, w
	}
	return s.slowly(l)
}

// slowly answers a leg by kinematics.
func (s *search) slowly(l *leg) unit.Angle {
	limit := s.joint.Limit(motion.Path{Zero: s.zero, Waypoints: []hip.Posture{l.start, l.end()}})
	if limit.Status == kinematics.Free {
		return never
	}
	return unit.Angle(limit.At.Fraction) * l.far
}
