package kinematics

import (
	"math"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/solve"
	"rimclear/kinematics/unit"
)

// Least is where a motion comes closest to contact, or is deepest in it.
type Least struct {
	Margin  unit.Angle // negative in contact
	Path    int        // which of the paths asked about
	At      motion.Place
	Posture hip.Posture // there, in the path's own zero
}

// Least returns the least margin along a motion.
//
// It is exact for round designs: in closed form on legs that move one joint
// angle, elsewhere by a search that is certified to 1e-9°. The same search is
// certified to 1e-6° for free motions where rim or neck is round, to 0.01° where
// neither is, and to 0.02° for motions in contact; the least found is then
// refined on the exact rim.
func (j Joint) Least(m motion.Path) Least { return j.LeastOf([]motion.Path{m}) }

// LeastOf returns the least margin over several motions. There must be one
// with a waypoint.
func (j Joint) LeastOf(paths []motion.Path) Least { return j.least(paths, true) }

func (j Joint) least(paths []motion.Path, closed bool) Least {
	s := sounding{closed: closed, lowest: math.Inf(1)}
	if _, s.round = j.Aperture.Theta(); !s.round {
		s.narrow = narrowest(j.Aperture)
	}
	for i, m := range paths {
		if len(m.Waypoints) > 0 {
			s.try(j, m, i)
		}
	}
	return s.result(j, paths)
}

// sounding looks for the lowest value over paths: of the cosine between the
// axes for round designs, of the margin for others. What it has found lets it
// pass over all that cannot be lower.
type sounding struct {
	j      Joint // as the path sees it
	m      motion.Path
	closed bool
	round  bool
	narrow unit.Angle // a lower bound of the neck's half-width
	path   int
	leg    int
	lowest float64
	where  motion.Place
	found  int // path
}

// Certified to these: as a cosine, and as margins in radians.
const (
	soundCosine  = 1e-13
	soundFree    = float64(1e-6 * unit.Degree)
	soundMutual  = float64(0.01 * unit.Degree)
	soundContact = float64(0.02 * unit.Degree)
)

// finest is the least share of a leg that is still divided.
const finest = 1e-9

func (s *sounding) try(j Joint, m motion.Path, path int) {
	s.j, s.m, s.path = j.On(m), m, path
	if m.Legs() == 0 {
		s.at(0)
		return
	}
	for s.leg = range m.Legs() {
		s.clear(0)
	}
	s.leg = m.Legs() - 1
	s.clear(1)
	for s.leg = range m.Legs() {
		s.legs()
	}
}

// legs looks along one leg.
func (s *sounding) legs() {
	moving, alone := s.m.Moving(s.leg)
	turn := turnOf(s.m, s.leg)
	switch {
	case turn == 0:
	case s.round && alone && s.closed:
		s.wave(moving)
	case s.round:
		s.bend(0, s.value(0), 1, s.value(1), turn*turn)
	default:
		d := dive{sounding: s, slope: s.j.Aperture.Rate() * turn}
		if s.j.Aperture.Rate() == 1 {
			d.curve = turn * turn * (1 + 1/s.narrow.Tan())
		}
		d.between(0, s.clear(0), 1, s.clear(1))
	}
}

// turnOf bounds how far the neck turns over a leg, in radians.
func turnOf(m motion.Path, leg int) float64 {
	a, b := m.Waypoints[leg], m.Waypoints[leg+1]
	return float64((b.Flexion - a.Flexion).Abs() + (b.Adduction - a.Adduction).Abs() +
		(b.InternalRotation - a.InternalRotation).Abs())
}

// value returns what is to be lowest, exactly, at a fraction of the leg.
func (s *sounding) value(fraction float64) float64 {
	p := s.j.pose(s.m.At(motion.Place{Leg: s.leg, Fraction: fraction}), s.j.zero)
	if s.round {
		return p.Axis.Z
	}
	return float64(s.j.Aperture.Nearest(p).Margin)
}

// at looks at one place and keeps it if it is the lowest.
func (s *sounding) at(fraction float64) float64 {
	v := s.value(fraction)
	if v < s.lowest {
		s.lowest, s.found = v, s.path
		s.where = motion.Place{Leg: s.leg, Fraction: fraction}
	}
	return v
}

// wave looks where the wave of a single joint angle is at its bottom, if that
// lies on the leg.
func (s *sounding) wave(moving hip.JointAngle) {
	start, end := s.m.Waypoints[s.leg].Angle(moving), s.m.Waypoints[s.leg+1].Angle(moving)
	const turn = 360 * unit.Degree
	bottom := s.j.wave(s.m.Waypoints[s.leg], moving, s.j.zero).peak + turn/2
	lo, hi := min(start, end), max(start, end)
	for x := bottom + turn*unit.Angle(math.Ceil(float64((lo-bottom)/turn))); x < hi; x += turn {
		s.at(float64((x - start) / (end - start)))
	}
}

// bend looks between two places at which the cosine is known. Its second
// derivative is nowhere above curve, so between them it does not fall below a
// parabola that curves so much.
func (s *sounding) bend(a, va, b, vb, curve float64) {
	width := b - a
	slope := (vb - va) / width
	x := (a+b)/2 - slope/curve
	if width < finest || !(x > a && x < b) {
		return
	}
	if low := va + slope*(x-a) - curve/2*(x-a)*(b-x); low >= s.lowest-soundCosine {
		return
	}
	x = math.Max(a+width/10, math.Min(b-width/10, x))
	v := s.at(x)
	s.bend(a, va, x, v, curve)
	s.bend(x, v, b, vb, curve)
}

// clear returns a lower bound of the value at one place, the value itself
// where that is near contact or the lowest so far, and keeps the lowest.
func (s *sounding) clear(fraction float64) float64 {
	if s.round {
		return s.at(fraction)
	}
	p := s.j.pose(s.m.At(motion.Place{Leg: s.leg, Fraction: fraction}), s.j.zero)
	if v := float64(s.j.Aperture.Clear(p)); v >= s.lowest {
		return v
	}
	return s.at(fraction)
}

// result returns the lowest place, refined beside it.
func (s *sounding) result(j Joint, paths []motion.Path) Least {
	if s.lowest == math.Inf(1) {
		return Least{}
	}
	m := paths[s.found]
	s.j, s.m, s.path, s.leg = j.On(m), m, s.found, s.where.Leg
	if m.Legs() > 0 && !s.round {
		s.refine()
	}
	l := Least{Path: s.found, At: s.where, Posture: m.At(s.where)}
	l.Margin = s.j.Aperture.Nearest(s.j.pose(l.Posture, s.j.zero)).Margin
	return l
}

// refine slides down from the lowest place found, on its leg and, at a
// waypoint, on both.
func (s *sounding) refine() {
	from := s.where
	s.slide(from, 1)
	s.slide(from, -1)
	switch {
	case from.Fraction == 0 && from.Leg > 0:
		s.slide(motion.Place{Leg: from.Leg - 1, Fraction: 1}, -1)
	case from.Fraction == 1 && from.Leg+1 < s.m.Legs():
		s.slide(motion.Place{Leg: from.Leg + 1}, 1)
	}
}

// firstSlide is the first step down, as a share of the leg: a bottom nearer
// than that is lower by no more than rounding.
const firstSlide = 1e-6

// slide goes down from a place in one direction by growing steps until the
// margin rises again, and finds the bottom between.
func (s *sounding) slide(from motion.Place, direction float64) {
	s.leg = from.Leg
	before, here, v := from.Fraction, from.Fraction, s.value(from.Fraction)
	for h := firstSlide; ; h *= 2 {
		next := math.Max(0, math.Min(1, here+direction*h))
		if next == here {
			break
		}
		w := s.value(next)
		if w < v {
			before, here, v = here, next, w
			continue
		}
		if here != from.Fraction {
			x, _ := solve.Minimum(s.value, math.Min(before, next), math.Max(before, next))
			here = x
		}
		break
	}
	s.at(here)
}
