package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/solve"
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
	bulge   unit.Angle // of the discs' edges over the chords between the neck's points
	dip     unit.Angle // of the gap between seats
	// The least and greatest radius of a disc.
	thinnest, thickest unit.Angle
}

func newNecked(rim implant.Rim, neck implant.Neck) *necked {
	n := &necked{outline: trace(rim), seats: seats(rim, neck), thinnest: 180 * unit.Degree}
	for i := range n.seats {
		points, discs := n.seats[i].around()
		n.bulge, n.dip = max(n.bulge, n.seats[i].bulge(points, discs)), max(n.dip, n.seats[i].dip())
		for _, r := range discs {
			n.thinnest, n.thickest = min(n.thinnest, r), max(n.thickest, r)
		}
		n.rings = append(n.rings, newRing(points, discs))
	}
	n.loss = n.short()
	widen(n.rings, n.loss)
	return n
}

// outlineSteps is how many points a neck's outline has: one every half degree
// about its axis.
const outlineSteps = 720

const outlineStep = 360 * unit.Degree / outlineSteps

func (n *necked) short() unit.Angle { return 1.1*n.bulge + n.dip + 0.001*unit.Degree }

func (n *necked) steady() unit.Angle { return -180 * unit.Degree }

func (n *necked) seen(p Pose) r3.Vec { return cupAxis(p) }

// cupAxis returns the cup axis in the neck frame.
func cupAxis(p Pose) r3.Vec {
	return r3.Vec{X: p.Superior.Z, Y: p.Anterior.Z, Z: p.Axis.Z}
}

// inCup returns a direction of the neck frame in the cup frame.
func inCup(p Pose, at r3.Vec) r3.Vec {
	return r3.Add(r3.Add(r3.Scale(at.X, p.Superior), r3.Scale(at.Y, p.Anterior)), r3.Scale(at.Z, p.Axis))
}

func (n *necked) margin(p Pose) unit.Angle { return n.least(n.seen(p), 0) }

func (n *necked) bound(p Pose) (least, loss unit.Angle) { return n.margin(p) - n.loss, n.loss }

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
			best = Touch{Margin: l.gap, Roll: unit.Angle(l.index) * outlineStep, seat: k, share: n.seats[k].share}
		}
	}
	return best
}

func (n *necked) rise(margin unit.Angle) float64 {
	return discRise(n.thinnest-n.bulge, n.thickest+n.bulge, margin)
}

func (n *necked) gap(p Pose, t Touch) unit.Angle {
	return n.seats[t.seat].gap(t.Roll, t.share, n.seen(p))
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

// refine minimises the gap on the exact section from a point downhill, and
// along a segment of the face that is convex.
func (n *necked) refine(p Pose, x r3.Vec, i, k int) Touch {
	s := &n.seats[k]
	share := s.share
	psi := s.down(unit.Angle(i)*outlineStep, share, x)
	gap := s.gap(psi, share, x)
	for range mostTurns {
		if !s.convex() {
			break
		}
		y, _ := solve.Minimum(func(y float64) float64 { return float64(s.gap(psi, y, x)) }, max(0, share-0.3), min(1, share+0.3))
		turned := s.down(psi, y, x)
		better := s.gap(turned, y, x)
		if better >= gap-1e-13 {
			break
		}
		psi, share, gap = turned, y, better
	}
	o := s.spot(psi, share)
	return Touch{Margin: gap, Azimuth: azimuth(inCup(p, o.at)), Vertex: o.vertex, Roll: psi, seat: k, share: share}
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
