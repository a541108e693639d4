package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/solve"
	"rimclear/kinematics/sphere"
	"rimclear/kinematics/unit"
)

// Moment is a place on a required motion.
type Moment struct {
	Motion int // index in the list of requirements
	Path   int // of the motion's paths
	Place  motion.Place
}

// Extreme is a moment of a motion and the direction of the neck axis there.
type Extreme struct {
	Moment
	Posture   hip.Posture
	Direction r3.Vec     // in the anterior pelvic plane of a right hip
	Angle     unit.Angle // from the cup axis asked about
}

// bend is by how much an arc may be off the curve it follows, at most, where
// several joint angles move.
const bend = 0.001 * unit.Degree

// Farthest returns the moment at which the neck axis is farthest from a cup
// axis, over all motions. The demand must not be empty.
func (d *Demand) Farthest(n r3.Vec) Extreme {
	s := d.see(n)
	cos, at := d.least(&s)
	if d.piece[at].alone && !d.mixed(&s, cos, at) {
		return d.extreme(at, n, &s)
	}
	best := Extreme{Angle: -1}
	for i := range d.arc {
		if d.arc[i].Least(s[d.piece[i].zero]) <= cos+float64(bend) {
			if e := d.extreme(i, n, &s); e.Angle > best.Angle {
				best = e
			}
		}
	}
	return best
}

// mixed reports whether a piece of another kind comes so close to the farthest
// that only the curves themselves can tell.
func (d *Demand) mixed(s *seen, cos float64, at int) bool {
	for i := range d.arc {
		if !d.piece[i].alone && d.arc[i].Least(s[d.piece[i].zero]) <= cos+float64(bend) {
			return true
		}
	}
	return false
}

// FarthestOf returns the same over one motion; ok is false if it asks for
// nothing.
func (d *Demand) FarthestOf(motion int, n r3.Vec) (e Extreme, ok bool) {
	s := d.see(n)
	cos, from, to := 2.0, d.first[motion], d.first[motion+1]
	for i := from; i < to; i++ {
		cos = min(cos, d.arc[i].Least(s[d.piece[i].zero]))
	}
	for i := from; i < to; i++ {
		if d.arc[i].Least(s[d.piece[i].zero]) <= cos+float64(bend) {
			if f := d.extreme(i, n, &s); !ok || f.Angle > e.Angle {
				e, ok = f, true
			}
		}
	}
	return e, ok
}

// extreme returns the farthest moment on one piece, exactly.
func (d *Demand) extreme(i int, n r3.Vec, s *seen) Extreme {
	p := &d.piece[i]
	u, turn := d.arc[i].Farthest(s[p.zero])
	path := d.list[p.motion].Paths[p.path]
	at := motion.Place{Leg: p.leg, Fraction: p.fraction(turn, d.arc[i].Sweep)}
	if !p.alone {
		at.Fraction = d.refine(p, path, s[p.zero])
		u = shaft(path, path.At(at)).Apply(d.neck)
	}
	u = hip.RotationZ(d.tilts.Of(p.zero)).Apply(u)
	return Extreme{
		Moment: Moment{p.motion, p.path, at}, Posture: path.At(at),
		Direction: u, Angle: sphere.Between(n, u),
	}
}

// refine returns the fraction of the leg, on a piece or just beside it, at
// which the curve is farthest from n.
func (d *Demand) refine(p *piece, path motion.Path, n r3.Vec) float64 {
	lo, hi := max(0, 1.5*p.from-0.5*p.to), min(1, 1.5*p.to-0.5*p.from)
	f := func(x float64) float64 {
		return r3.Dot(n, shaft(path, path.At(motion.Place{Leg: p.leg, Fraction: x})).Apply(d.neck))
	}
	x, v := solve.Minimum(f, lo, hi)
	for _, end := range [2]float64{lo, hi} {
		if w := f(end); w <= v {
			x, v = end, w
		}
	}
	return x
}

// starts reports whether a piece is the first of its path.
func (p *piece) starts() bool { return p.leg == 0 && p.from == 0 }

// Leaves returns where a motion first leaves the cone of half angle theta about
// a cup axis, that is its first contact under a round bearing, and whether it
// does. Paths are tried in order. It is exact on legs that move one joint
// angle; others are followed by arcs (see Demand).
func (d *Demand) Leaves(motion int, n r3.Vec, theta unit.Angle) (at Moment, leaves bool) {
	s := d.see(n)
	return d.leaves(motion, &s, cosine(theta))
}

func (d *Demand) leaves(motion int, s *seen, cos float64) (at Moment, leaves bool) {
	for i := d.first[motion]; i < d.first[motion+1]; i++ {
		p := &d.piece[i]
		if turn, out := d.arc[i].Leaves(s[p.zero], cos); out {
			at.Motion, at.Path = motion, p.path
			at.Place.Leg, at.Place.Fraction = p.leg, p.fraction(turn, d.arc[i].Sweep)
			return at, true
		}
	}
	return at, false
}

// Limits returns for every motion how far a round bearing of half angle theta
// lets it go on the path on which it goes least far: leg plus fraction of the
// leg, infinite where it is free or asks for nothing. The list has room for all
// motions; nothing is allocated.
func (d *Demand) Limits(n r3.Vec, theta unit.Angle, into []float64) {
	for i := range d.list {
		into[i] = math.Inf(1)
	}
	s, c := d.see(n), cosine(theta)
	stopped := false
	for i := range d.arc {
		p := &d.piece[i]
		if p.starts() {
			stopped = false
		}
		if stopped {
			continue
		}
		if turn, out := d.arc[i].Leaves(s[p.zero], c); out {
			stopped = true
			into[p.motion] = min(into[p.motion], float64(p.leg)+p.fraction(turn, d.arc[i].Sweep))
		}
	}
}

// Enclosure returns the smallest cap that holds every demanded direction, in
// the anterior pelvic plane, or a witness that no hemisphere does. Point.From
// of its support is an index of the extremes.
//
// Its axis is the cup axis of greatest margin under any round bearing. Twice
// its radius is the least oscillation angle that the motions demand of any
// round bearing, at any cup position, for this neck axis.
func (d *Demand) Enclosure() (sphere.Enclosure, []Extreme) {
	var found []Extreme
	point := func(e Extreme) sphere.Point {
		found = append(found, e)
		return sphere.Point{At: e.Direction, From: len(found) - 1}
	}
	start := hip.RotationZ(d.tilts.Of(d.piece[0].zero)).Apply(d.arc[0].From)
	e := sphere.Enclose(point(d.Farthest(start)), func(axis r3.Vec) sphere.Point { return point(d.Farthest(axis)) })
	for _, p := range e.Support {
		found[p.From].Angle = sphere.Between(e.Axis, p.At)
	}
	return e, found
}

// cosine returns the cosine below which a round bearing is in contact.
func cosine(theta unit.Angle) float64 { return math.Cos(float64(theta - Touch)) }
