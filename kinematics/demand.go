package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/sphere"
	"rimclear/kinematics/unit"
)

// Demand is what a list of motions asks of a bearing: the directions in which
// they put the neck axis, fixed in the pelvis and independent of the cup.
//
// Where one joint angle moves, the axis traces an arc of a circle, which is
// exact. Where several move together the curve is followed by arcs through
// three of its points each, 1e-4° off at most; Farthest and all that rests on
// it refine on the curve itself.
//
// Motions that are only asked how far they go (motion.Requirement.Open) ask
// for nothing and are left out.
type Demand struct {
	list  []motion.Requirement
	tilts hip.Tilts
	neck  r3.Vec // the neck axis in the shaft
	piece []piece
	first []int        // index of each motion's first piece, and their count at the end
	arc   []sphere.Arc // of each piece, in the coordinates of its zero plane
}

// piece is a stretch of a leg, and where the femur is on it. It knows neither
// the stem nor the tilt.
type piece struct {
	motion, path, leg int
	from, to          float64 // fractions of the leg
	zero              hip.Plane
	ends              [3]hip.Rotation // zero plane from shaft at its start, middle and end
	axis              r3.Vec          // about which it turns, where one joint angle moves
	turn              unit.Angle
	alone             bool // one joint angle moves, or none
}

// chord is the greatest sum of the joint angles' changes over a piece on which
// several move.
const chord = 3 * unit.Degree

// NewDemand returns what the motions ask for in a hip, with a stem.
func NewDemand(h Hip, s hip.Stem, list []motion.Requirement) *Demand {
	d := &Demand{list: list, tilts: h.Tilts}
	for i, r := range list {
		d.first = append(d.first, len(d.piece))
		if r.Open {
			continue
		}
		for k, p := range r.Paths {
			d.follow(p, i, k)
		}
	}
	d.first = append(d.first, len(d.piece))
	d.arc = make([]sphere.Arc, len(d.piece))
	d.Restem(s)
	return d
}

// Empty reports whether nothing is asked for.
func (d *Demand) Empty() bool { return len(d.piece) == 0 }

// Requirements returns the list the demand was made from; indices of motions
// count in it.
func (d *Demand) Requirements() []motion.Requirement { return d.list }

// Restem puts another stem into the femur, without allocating.
func (d *Demand) Restem(s hip.Stem) { d.reneck(s.Axis()) }

// Retilt gives the pelvis other tilts.
func (d *Demand) Retilt(t hip.Tilts) { d.tilts = t }

func (d *Demand) reneck(v r3.Vec) {
	d.neck = v
	for i := range d.piece {
		d.arc[i] = d.piece[i].trace(v)
	}
}

// copied returns a demand that shares the pieces and has its own arcs.
func (d *Demand) copied() *Demand {
	c := *d
	c.arc = append([]sphere.Arc(nil), d.arc...)
	return &c
}

// follow adds the pieces of a path.
func (d *Demand) follow(p motion.Path, i, k int) {
	at := piece{motion: i, path: k, zero: p.Zero}
	if p.Legs() == 0 {
		if len(p.Waypoints) == 0 {
			return
		}
		r := shaft(p, p.Waypoints[0])
		at.ends, at.axis, at.alone = [3]hip.Rotation{r, r, r}, r3.Vec{Z: 1}, true
		d.piece = append(d.piece, at)
		return
	}
	for at.leg = range p.Legs() {
		d.followLeg(p, at)
	}
}

func (d *Demand) followLeg(p motion.Path, at piece) {
	a, b := p.Waypoints[at.leg], p.Waypoints[at.leg+1]
	moving, alone := p.Moving(at.leg)
	size := chord
	if alone {
		size = 180 * unit.Degree
	}
	n := max(1, int(math.Ceil(turnOf(p, at.leg)/float64(size)-1e-9)))
	for i := range n {
		at.from, at.to = float64(i)/float64(n), float64(i+1)/float64(n)
		for k := range at.ends {
			at.ends[k] = shaft(p, a.Toward(b, at.from+float64(k)/2*(at.to-at.from)))
		}
		if at.alone = alone; alone {
			at.axis = turnAxis(a, moving)
			at.turn = (b.Angle(moving) - a.Angle(moving)) / unit.Angle(n)
		}
		d.piece = append(d.piece, at)
	}
}

// shaft returns the rotation from shaft to zero plane at a posture of a path.
func shaft(p motion.Path, q hip.Posture) hip.Rotation {
	r := q.PelvisFromFemur()
	if p.Mechanical != 0 {
		r = r.Mul(hip.RotationX(p.Mechanical))
	}
	return r
}

// turnAxis returns the axis about which the femur turns as one joint angle
// moves from a posture, the others held.
func turnAxis(p hip.Posture, moving hip.JointAngle) r3.Vec {
	switch moving {
	case hip.Adduction:
		return hip.RotationZ(p.Flexion).Column(0)
	case hip.InternalRotation:
		return hip.RotationZ(p.Flexion).Mul(hip.RotationX(p.Adduction)).Column(1)
	}
	return r3.Vec{Z: 1}
}

// trace returns the arc of a neck axis given in the shaft.
func (p *piece) trace(v r3.Vec) sphere.Arc {
	from, to := p.ends[0].Apply(v), p.ends[2].Apply(v)
	if p.alone {
		return sphere.ArcBetween(from, to, p.axis, p.turn)
	}
	return sphere.ArcThrough(from, p.ends[1].Apply(v), to)
}

// fraction returns the place on the leg of a place on the piece's arc.
func (p *piece) fraction(turn, sweep unit.Angle) float64 {
	if sweep == 0 {
		return p.from
	}
	return p.from + float64(turn/sweep)*(p.to-p.from)
}

// seen is a cup axis in the coordinates of every zero plane.
type seen [hip.PlaneCount]r3.Vec

// see returns a cup axis of the anterior pelvic plane as each zero plane has
// it.
func (d *Demand) see(n r3.Vec) (s seen) {
	for p := range hip.PlaneCount {
		if t := d.tilts.Of(p); t == 0 {
			s[p] = n
		} else {
			s[p] = hip.RotationZ(-t).Apply(n)
		}
	}
	return s
}

// least returns the cosine of the greatest angle between a cup axis and the
// demanded directions, and the piece where it is reached.
func (d *Demand) least(s *seen) (cos float64, at int) {
	cos = 2
	for i := range d.arc {
		if c := d.arc[i].Least(s[d.piece[i].zero]); c < cos {
			cos, at = c, i
		}
	}
	return cos, at
}
