package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// necked is a neck of any section in a round rim, seen from the neck: every
// point of the neck's outline must stay within the rim's polar angle of the
// cup axis. Turned round, the cup axis must stay out of a disc, of what is left
// of a half turn, about the opposite of each of them, so that the same ring
// serves.
type necked struct {
	outline // of the round rim, for what is asked in space
	seats   []seat
	rings   []ring
	bulge   unit.Angle // of the neck's outline over the chords between its points
}

// seat is a level across the face of a round rim: where it is, and the neck
// there.
type seat struct {
	vertex implant.Vertex
	band   implant.Band
	gamma  unit.Angle
}

func newNecked(rim implant.Rim, neck implant.Neck) *necked {
	n := &necked{outline: trace(rim, neck)}
	f := rim.Face(0)
	for _, l := range n.levels {
		s := seat{vertex: l.vertex(f)}
		s.gamma = s.vertex.Gamma()
		from, to := s.vertex.Rho(), s.vertex.Rho()
		if rim.Radial() {
			from, to = rim.Reach()
		}
		s.band = neck.Band(from, to)
		n.seats = append(n.seats, s)
		points := s.around()
		n.bulge = max(n.bulge, s.bulge(points))
		n.rings = append(n.rings, newRing(points, []unit.Angle{180*unit.Degree - s.gamma}))
	}
	for k := range n.rings {
		n.rings[k].slack = max(slack, n.short())
	}
	return n
}

// outlineSteps is how many points a neck's outline has: one every half degree
// about its axis.
const outlineSteps = 720

const outlineStep = 360 * unit.Degree / outlineSteps

// around returns the opposites of the neck's outline as seen from the head
// centre, in the neck frame.
func (s *seat) around() []r3.Vec {
	list := make([]r3.Vec, outlineSteps)
	for i := range list {
		q, _ := s.at(unit.Angle(i) * outlineStep)
		list[i] = r3.Scale(-1, q)
	}
	return list
}

// bulge returns by how much the neck's outline may lie off the chords between
// its points: twice what it does in their middles, for a corner.
func (s *seat) bulge(points []r3.Vec) (most unit.Angle) {
	for i, a := range points {
		b := points[(i+1)%len(points)]
		q, _ := s.at((unit.Angle(i) + 0.5) * outlineStep)
		off := r3.Norm(r3.Add(q, r3.Scale(0.5, r3.Add(a, b))))
		most = max(most, unit.Angle(off))
	}
	return 2 * most
}

func (n *necked) short() unit.Angle { return 1.1*n.bulge + 0.001*unit.Degree }

// at returns the direction of the neck's outline at azimuth psi, and at what
// distance it is reached.
func (s *seat) at(psi unit.Angle) (r3.Vec, float64) {
	beta, rho := s.band.Beta(psi)
	sp, cp := psi.Sincos()
	sb, cb := beta.Sincos()
	return r3.Vec{X: sb * cp, Y: sb * sp, Z: cb}, rho
}

func (n *necked) steady() unit.Angle { return -180 * unit.Degree }

// seen returns the cup axis in the neck frame.
func (n *necked) seen(p Pose) r3.Vec {
	return r3.Vec{X: p.Superior.Z, Y: p.Anterior.Z, Z: p.Axis.Z}
}

func (n *necked) margin(p Pose) unit.Angle { return n.least(n.seen(p), 0) }

func (n *necked) least(x r3.Vec, _ unit.Angle) unit.Angle {
	least := unit.Angle(math.Inf(1))
	for i := range n.rings {
		least = min(least, n.rings[i].least(x).gap)
	}
	return least
}

func (n *necked) sampled(p Pose) Touch {
	x, best := n.seen(p), Touch{Margin: unit.Angle(math.Inf(1))}
	for k := range n.rings {
		if l := n.rings[k].least(x); l.gap < best.Margin {
			best = Touch{Margin: l.gap, Roll: unit.Angle(l.index) * outlineStep, level: k}
		}
	}
	return best
}

func (n *necked) rise(margin unit.Angle) float64 {
	least, most := 180*unit.Degree, unit.Angle(0)
	for i := range n.seats {
		r := 180*unit.Degree - n.seats[i].gamma
		least, most = min(least, r), max(most, r)
	}
	return discRise(least, most, margin)
}

func (n *necked) gap(p Pose, t Touch) unit.Angle {
	s := &n.seats[t.level]
	q, _ := s.at(t.Roll)
	return s.gamma - between(q, n.seen(p))
}

func (n *necked) nearest(p Pose) Touch {
	x := n.seen(p)
	best := Touch{Margin: unit.Angle(math.Inf(1))}
	for k := range n.rings {
		var list shortlist
		n.rings[k].nearest(x, &list)
		for _, c := range list.at[:list.count] {
			if c.gap > min(list.best(), best.Margin)+n.rings[k].slack {
				break
			}
			if t := n.refine(p, x, c.index, k); t.Margin < best.Margin {
				best = t
			}
		}
	}
	return best
}

// refine minimises the gap on the exact section on both sides of a point.
func (n *necked) refine(p Pose, x r3.Vec, i, k int) Touch {
	s := &n.seats[k]
	start := unit.Angle(i) * outlineStep
	gap := func(d float64) float64 {
		q, _ := s.at(start + unit.Angle(d)*outlineStep)
		return float64(s.gamma - between(q, x))
	}
	psi := start + unit.Angle(bottom(gap))*outlineStep
	q, rho := s.at(psi)
	at := r3.Add(r3.Add(r3.Scale(q.X, p.Superior), r3.Scale(q.Y, p.Anterior)), r3.Scale(q.Z, p.Axis))
	f := rho / s.vertex.Rho()
	return Touch{
		Margin: s.gamma - between(q, x), Azimuth: azimuth(at), Roll: psi, level: k,
		Vertex: implant.Vertex{Axial: s.vertex.Axial * f, Radial: s.vertex.Radial * f},
	}
}

// table offsets the neck by the rim's polar angle.
func (n *necked) table() *table {
	t := newTable()
	for i := range n.rings {
		t.curve(&n.rings[i])
	}
	t.close(n.short())
	return t
}

// rate is 1: the gap is a distance on the sphere.
func (n *necked) rate() float64 { return 1 }
