package kinematics

import (
	"cmp"
	"math"
	"slices"
)

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
	slices.SortFunc(roots, func(a, b leaf) int { return cmp.Compare(a.gap-a.cell.size, b.gap-b.cell.size) })
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

// Leaves that are polished whatever lies beside them, and at most, counted twice
// each; and from how many they are chosen then.
const (
	fewLeaves    = 12
	mostLeaves   = 80
	lowestLeaves = 1500
)

// polishAll walks downhill from the lowest leaf and from others that are not
// beside one that was polished; where the parts run along each other so that these
// are many, from those that no lower one is beside.
func (s *solidSearch) polishAll() {
	slices.SortFunc(s.leaves, func(a, b leaf) int { return cmp.Compare(a.gap, b.gap) })
	type spot struct {
		patch *solidPatch
		at    vec3
	}
	var done []spot
	for i, l := range s.leaves {
		if len(done) >= mostLeaves || len(done) >= fewLeaves && i >= lowestLeaves || s.sign && s.best <= 0 || s.lowest(l.cell, l.gap) > s.threshold() {
			break
		}
		beside := len(done) >= fewLeaves && l.above(s.leaves[:i])
		for _, p := range done {
			beside = beside || p.patch == l.cell.patch && l.cell.middle.plus(-1, p.at).length() < 10*smallest
		}
		if !beside {
			done = append(done, spot{l.cell.patch, l.cell.middle}, spot{l.cell.patch, s.polish(l)})
		}
	}
}

// above reports whether one of some lower leaves is beside a leaf.
func (l leaf) above(lower []leaf) bool {
	return slices.ContainsFunc(lower, func(o leaf) bool { return l.cell.middle.plus(-1, o.cell.middle).length() < 4*smallest })
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
	if s.share == 0 && (s.hip.neck.ridged() || p.climb > 3) && !(s.sign && gap <= 0) {
		s.descend(p, u, v)
	}
	return p.at(u, v)
}

// descend seeks the least measure about a place along and across at once: on
// the ridge of a taper or a skirt a walk on a grid is held up by its slope. Where
// the valley is longer than the window it first goes along it.
func (s *solidSearch) descend(p *solidPatch, u, v float64) {
	wide, high := 10*smallest/p.cup.reach*inDegrees/hypot(1, p.climb), 10*smallest/p.length
	window := func(along, across int) (x, y, g float64) {
		lowest := func(x float64) (y, g float64) {
			return trough(func(y float64) float64 { return s.measure(p.at(x, y)) }, max(0, v-high), min(1, v+high), across)
		}
		x, _ = trough(func(x float64) float64 { _, g := lowest(x); return g }, max(p.from, u-wide), min(p.to, u+wide), along)
		y, g = lowest(x)
		return x, y, g
	}
	for range 20 {
		x, y, _ := window(8, 24)
		inside := math.Abs(x-u) < 0.8*wide && math.Abs(y-v) < 0.8*high
		if u, v = x, y; inside {
			break
		}
	}
	x, y, g := window(finely, finely)
	s.take(g, x, y, p)
}

// finely is how often a window is cut for the last digits.
const finely = 44

// trough returns where a function with one valley is least, and its value, by so
// many cuts of its range.
func trough(f func(float64) float64, a, b float64, cuts int) (at, value float64) {
	const share = 0.6180339887498949
	x, y := b-share*(b-a), a+share*(b-a)
	fx, fy := f(x), f(y)
	for range cuts {
		if fx < fy {
			b, y, fy = y, x, fx
			x = b - share*(b-a)
			fx = f(x)
		} else {
			a, x, fx = x, y, fy
			y = a + share*(b-a)
			fy = f(y)
		}
	}
	if fx < fy {
		return x, fx
	}
	return y, fy
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

// state tells whether the parts touch at a pose, and how far their points may
// move until that changes.
func (s *solidHip) state(p *solidPose) (touching bool, clear float64) {
	best, low := (&solidSearch{hip: s, pose: p, share: 0.3, enough: 1}).run()
	near := 1e-3
	if s.neck.ridged() { // whose ridges are found only where the sign is asked
		near = smallest
	}
	touching = best <= 0 || s.within(p) || best < near && s.touches(p)
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
