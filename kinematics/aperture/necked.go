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
		n.rings = append(n.rings, newRing(s.around(), []unit.Angle{180*unit.Degree - s.gamma}))
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
		least = min(least, n.rings[i].least(x))
	}
	return least
}

func (n *necked) radii() (least, most unit.Angle) {
	least = 180 * unit.Degree
	for i := range n.seats {
		r := 180*unit.Degree - n.seats[i].gamma
		least, most = min(least, r), max(most, r)
	}
	return least, most
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
			if c.gap > min(list.best(), best.Margin)+slack {
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
	t.close()
	return t
}

// rate is 1: the gap is a distance on the sphere.
func (n *necked) rate() float64 { return 1 }
