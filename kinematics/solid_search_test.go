package kinematics

import (
	"math"
	"slices"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
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

// smallest is the size, in mm, of the cells below which a place is polished.
const smallest = 0.02

// search looks for the place of the cup that lies least outside, or farthest
// inside, the neck.
type solidSearch struct {
	hip    *solidHip
	pose   *solidPose
	best   float64
	share  float64 // of the best by which it may be missed
	sign   bool    // only whether anything lies inside is asked
	enough float64 // so far inside is deep enough
	u, v   float64 // place of the best
	patch  *solidPatch
	leaves []leaf
	apart  bool // the distance in space is asked, from the face alone
}

type leaf struct {
	cell *solidCell
	gap  float64
}

// threshold is what a cell must be able to go below to be looked into.
func (s *solidSearch) threshold() float64 {
	if s.sign {
		return min(s.best, 0)
	}
	return s.best - s.share*math.Abs(s.best)
}

func (s *solidSearch) measure(at vec3) float64 {
	if s.apart {
		return s.hip.neck.distance(s.hip.cup.r.HeadDiameter/2, s.pose[0].dot(at), s.pose[1].dot(at), s.pose[2].dot(at))
	}
	return s.hip.outside(s.pose, at)
}

// lowest bounds from below what the cell's points lie outside.
func (s *solidSearch) lowest(c *solidCell, gap float64) float64 {
	n := s.hip.neck
	if s.apart {
		return gap - c.size
	}
	if n.ramps && gap-n.steepness*c.size > s.threshold() { // no higher than its broadened bump allows
		n.spread += c.size
		gap = min(gap, s.hip.outside(s.pose, c.middle))
		n.spread -= c.size
	}
	return gap - n.steepness*c.size
}

func (s *solidSearch) take(gap, u, v float64, p *solidPatch) {
	if gap < s.best {
		s.best, s.u, s.v, s.patch = gap, u, v, p
	}
}

// settled reports whether nothing more needs to be known.
func (s *solidSearch) settled() bool {
	return s.sign && s.best <= 0 || s.enough > 0 && s.best <= -s.enough
}

func (s *solidSearch) visit(c *solidCell, gap float64) {
	if s.lowest(c, gap) > s.threshold() || s.settled() {
		return
	}
	if c.size < smallest {
		s.leaves = append(s.leaves, leaf{c, gap})
		return
	}
	h := c.halves()
	g := [2]float64{}
	for i, k := range h {
		g[i] = s.measure(k.middle)
		s.take(g[i], (k.u0+k.u1)/2, (k.v0+k.v1)/2, k.patch)
	}
	first := 0
	if g[1] < g[0] {
		first = 1
	}
	s.visit(h[first], g[first])
	s.visit(h[1-first], g[1-first])
}

// run searches the whole surface. What it returns as low is certain: nothing
// lies farther inside.
func (s *solidSearch) run() (best, low float64) {
	h := s.hip
	s.best = math.Inf(1)
	if c := h.lastTouch; c != nil && !s.apart {
		s.take(h.outside(s.pose, c.patch.at(h.lastTouchU, h.lastTouchV)), h.lastTouchU, h.lastTouchV, c.patch)
	}
	roots := make([]leaf, 0, len(h.cup.cells))
	for _, c := range h.cup.cells {
		if s.apart && c.patch.segment < 0 {
			continue
		}
		l := leaf{c, s.measure(c.middle)}
		roots = append(roots, l)
		s.take(l.gap, (c.u0+c.u1)/2, (c.v0+c.v1)/2, c.patch)
	}
	slices.SortFunc(roots, func(a, b leaf) int { return compareFloats(a.gap-a.cell.size, b.gap-b.cell.size) })
	for _, r := range roots {
		s.visit(r.cell, r.gap)
	}
	low = s.threshold()
	for _, l := range s.leaves {
		low = min(low, s.lowest(l.cell, l.gap))
	}
	if !s.settled() && (s.apart || low < smallest/2) { // else the bound is good enough to step by
		low = s.threshold()
		s.polishAll()
	}
	if s.patch != nil {
		h.lastTouch, h.lastTouchU, h.lastTouchV = &solidCell{patch: s.patch}, s.u, s.v
	}
	return s.best, min(low, s.best)
}

func compareFloats(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// polishAll walks downhill from the lowest leaf and from others that are not
// beside one that was polished.
func (s *solidSearch) polishAll() {
	slices.SortFunc(s.leaves, func(a, b leaf) int { return compareFloats(a.gap, b.gap) })
	var done []vec3
	for _, l := range s.leaves {
		if len(done) >= 12 || s.sign && s.best <= 0 || s.lowest(l.cell, l.gap) > s.threshold() {
			break
		}
		beside := false
		for _, p := range done {
			beside = beside || l.cell.middle.plus(-1, p).length() < 10*smallest
		}
		if !beside {
			done = append(done, l.cell.middle, s.polish(l))
		}
	}
}

// polish walks downhill from a leaf on an ever finer grid of its patch.
func (s *solidSearch) polish(l leaf) vec3 {
	c := l.cell
	p := c.patch
	end := 1e-8 // mm
	if s.share > 0 {
		end = 1e-4
	}
	u, v, gap := (c.u0+c.u1)/2, (c.v0+c.v1)/2, l.gap
	du, dv := 2*(c.u1-c.u0), 2*(c.v1-c.v0)
	for range 60 {
		u0, v0, moved := u, v, false
		for i := -1.0; i <= 1; i++ {
			for k := -1.0; k <= 1; k++ {
				if i == 0 && k == 0 {
					continue
				}
				x := max(p.from, min(p.to, u0+i*du))
				y := max(0, min(1, v0+k*dv))
				if g := s.measure(p.at(x, y)); g < gap {
					gap, u, v, moved = g, x, y, true
				}
			}
		}
		s.take(gap, u, v, p)
		if s.sign && gap <= 0 {
			break
		}
		if !moved {
			du, dv = du/3, dv/3
			if max(du/inDegrees*p.cup.reach, dv*p.length) < end {
				break
			}
		}
	}
	return p.at(u, v)
}

// gap returns the least measure outside the neck of the cup's surface, exactly.
func (s *solidHip) gap(p *solidPose) float64 {
	best, _ := (&solidSearch{hip: s, pose: p}).run()
	return best
}

// clearance returns the shortest way from the cup's face to the neck outside
// the ball.
func (s *solidHip) clearance(p *solidPose) float64 {
	if s.touches(p) {
		return 0
	}
	best, _ := (&solidSearch{hip: s, pose: p, apart: true}).run()
	return best
}

// touches reports whether anything of the cup lies in the neck.
func (s *solidHip) touches(p *solidPose) bool {
	if s.within(p) {
		return true
	}
	best, _ := (&solidSearch{hip: s, pose: p, sign: true}).run()
	return best <= 0
}

// solidPath is a motion by the way travelled: the sum of the changes of the
// three angles, in degrees.
type solidPath struct {
	hip  *solidHip
	legs [][6]float64 // angles at both ends of a leg
	from []float64    // way at each leg's start, and at the end
	lean float64
	step float64 // the shortest
}

func newSolidPath(s *solidHip, h Hip, m motion.Path) *solidPath {
	p := &solidPath{hip: s, from: []float64{0}, lean: solidTilt(h, m.Zero), step: leastStep}
	for i := range m.Legs() {
		a, b := m.Waypoints[i], m.Waypoints[i+1]
		l := [6]float64{inDeg(a.Flexion), inDeg(a.Adduction), inDeg(a.InternalRotation), inDeg(b.Flexion), inDeg(b.Adduction), inDeg(b.InternalRotation)}
		p.legs = append(p.legs, l)
		p.from = append(p.from, p.from[i]+math.Abs(l[3]-l[0])+math.Abs(l[4]-l[1])+math.Abs(l[5]-l[2]))
	}
	return p
}

func (p *solidPath) end() float64 { return p.from[len(p.legs)] }

// way returns the way travelled to a place.
func (p *solidPath) way(at motion.Place) float64 {
	return p.from[at.Leg] + at.Fraction*(p.from[at.Leg+1]-p.from[at.Leg])
}

func (p *solidPath) pose(way float64) *solidPose {
	i := 0
	for i < len(p.legs)-1 && way > p.from[i+1] {
		i++
	}
	f, l := (way-p.from[i])/(p.from[i+1]-p.from[i]), p.legs[i]
	at := func(k int) float64 { return l[k] + f*(l[k+3]-l[k]) }
	q := p.hip.pose(at(0), at(1), at(2), p.lean)
	return &q
}

// leastStep is the shortest step along a path, in degrees, if no other is
// asked for: only contacts and gaps that are shorter can be missed.
const leastStep = 2e-3

// contacts returns the stretches of the way that are in contact, in order. A
// place that lies d mm outside the neck cannot touch it, and one d mm inside
// cannot leave it, before it has gone d mm: by that much the path is stepped,
// and the change of state found by bisection.
func (p *solidPath) contacts() [][2]float64 {
	speed := p.hip.cup.reach / inDegrees
	var list [][2]float64
	inside, at, before := false, 0.0, 0.0
	for {
		pose := p.pose(at)
		now, clear := p.hip.state(pose)
		if now != inside {
			x := at
			if at > 0 {
				x = p.change(before, at, inside)
			}
			if now {
				list = append(list, [2]float64{x, p.end()})
			} else {
				list[len(list)-1][1] = x
			}
			inside = now
		}
		if at == p.end() {
			return list
		}
		before, at = at, min(p.end(), at+max(p.step, clear/speed))
	}
}

// state tells whether the parts touch at a pose, and how far their points may
// move until that changes.
func (s *solidHip) state(p *solidPose) (touching bool, clear float64) {
	best, low := (&solidSearch{hip: s, pose: p, share: 0.3, enough: 1}).run()
	touching = best <= 0 || s.within(p) || best < 1e-3 && s.touches(p)
	if best <= 0 {
		low = -best
	}
	if !s.neck.ramps {
		return touching, low / s.neck.steepness
	}
	for reach := min(2, 0.7*low); reach > 1e-4; reach /= 4 { // a bump broadened or narrowed by the way to go
		spread := reach
		if best <= 0 {
			spread = -reach
		}
		s.neck.spread = spread
		b, l := (&solidSearch{hip: s, pose: p, share: 0.3, enough: 1}).run()
		s.neck.spread = 0
		if best <= 0 {
			l = -b
		}
		if l > 0 {
			return touching, min(reach, l/s.neck.steepness)
		}
	}
	return touching, 0
}

func (p *solidPath) change(a, b float64, inside bool) float64 {
	for b-a > 1e-8 {
		if m := (a + b) / 2; p.hip.touches(p.pose(m)) == inside {
			a = m
		} else {
			b = m
		}
	}
	return (a + b) / 2
}
