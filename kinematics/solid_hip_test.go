package kinematics

import (
	"math"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// solidHip is cup and neck placed in a pelvis: the cup's frame and, at the
// neutral posture, the neck's, in the patient's own axes.
type solidHip struct {
	cup        *solidCup
	neck       *solidNeck
	cupAxis    vec3
	e0, e1     vec3 // most superior rim direction, and the anterior one
	u, v, w    vec3 // neck axis, superior and anterior direction across it
	sign       float64
	lastTouch  *solidCell
	lastTouchU float64
	lastTouchV float64
}

func about(axis int, degrees float64, p vec3) vec3 {
	s, c := sincosd(degrees)
	i, k := (axis+1)%3, (axis+2)%3
	q := p
	q[i], q[k] = c*p[i]-s*p[k], s*p[i]+c*p[k]
	return q
}

func inDeg(a unit.Angle) float64 { return float64(a) * inDegrees }

// across returns the most superior direction across an axis, and the anterior
// one of a right hip.
func across(axis vec3) (superior, anterior vec3) {
	superior = vec3{0, 1, 0}.plus(-axis[1], axis)
	superior = vec3{}.plus(1/superior.length(), superior)
	return superior, superior.cross(axis)
}

func cupDirection(c Cup) vec3 {
	si, ci := sincosd(inDeg(c.Inclination))
	sa, ca := sincosd(inDeg(c.Anteversion))
	switch c.Definition {
	case hip.ByOperation:
		return vec3{ci * sa, -ci * ca, si}
	case hip.ByAnatomy:
		return vec3{si * sa, -ci, si * ca}
	}
	return vec3{sa, -ca * ci, ca * si}
}

// newSolidHip builds a right hip and mirrors all of it in Z for a left one.
func newSolidHip(h Hip, d Design) *solidHip {
	s := &solidHip{cup: newSolidCup(d.Rim), neck: newSolidNeck(d.Neck), sign: 1}
	s.cupAxis = cupDirection(d.Cup)
	s.e0, s.e1 = across(s.cupAxis)
	lean := solidTilt(h, h.CupPlane)
	for _, p := range []*vec3{&s.cupAxis, &s.e0, &s.e1} {
		*p = about(2, lean, *p)
	}
	ss, cs := sincosd(180 - inDeg(d.Stem.NeckShaft) + inDeg(d.Stem.ComponentToNeck))
	sf, cf := sincosd(inDeg(d.Stem.Anteversion))
	s.u = vec3{-ss * sf, -cs, ss * cf}
	s.v, s.w = across(s.u)
	for _, p := range []*vec3{&s.u, &s.v, &s.w} { // varus brings the tip out, the tilt brings it back
		*p = about(2, -inDeg(d.Stem.SagittalTilt), about(0, -inDeg(d.Stem.Varus), *p))
	}
	if h.Side == hip.Left {
		s.sign = -1
		for _, p := range []*vec3{&s.cupAxis, &s.e0, &s.e1, &s.u, &s.v, &s.w} {
			p[2] = -p[2]
		}
	}
	return s
}

func solidTilt(h Hip, p hip.Plane) float64 {
	return map[hip.Plane]float64{
		hip.Supine: inDeg(h.Tilts.Supine), hip.Standing: inDeg(h.Tilts.Standing),
		hip.RelaxedSitting: inDeg(h.Tilts.RelaxedSitting), hip.FlexedSitting: inDeg(h.Tilts.FlexedSitting),
	}[p]
}

// pose is the neck's frame in that of the cup: its axis, superior and anterior.
type solidPose [3]vec3

// pose turns the femur: rotation about its own Y, adduction about X, flexion
// about Z, on a left hip the first two the other way, then the plane's tilt.
func (s *solidHip) pose(flex, add, internal, lean float64) (p solidPose) {
	for i, v := range [3]vec3{s.u, s.v, s.w} {
		q := about(2, lean+flex, about(0, s.sign*add, about(1, s.sign*internal, v)))
		p[i] = vec3{q.dot(s.e0), q.dot(s.e1), q.dot(s.cupAxis)}
	}
	return p
}

// outside measures how far a point of the cup lies outside the neck.
func (s *solidHip) outside(p *solidPose, at vec3) float64 {
	return s.neck.outside(p[0].dot(at), p[1].dot(at), p[2].dot(at))
}

// within reports whether the neck's axis leaves through the cup's body.
func (s *solidHip) within(p *solidPose) bool {
	a, c := p[0], s.cup.centre
	az := math.Atan2(a[1], a[0]) * inDegrees
	face := s.cup.polar(az)
	if s.cup.r.Edge.Radius > 0 {
		line, _ := s.cup.profile(face)
		return math.Atan2(math.Hypot(a[0], a[1]), a[2]) >= math.Atan2(line[0][1], line[0][0])
	}
	t := c*a[2] + math.Sqrt(c*c*a[2]*a[2]-c*c+s.cup.radius*s.cup.radius)
	return math.Atan2(t*math.Hypot(a[0], a[1]), t*a[2]-c)*inDegrees >= face
}
