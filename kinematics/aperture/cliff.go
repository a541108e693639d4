package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/solve"
	"rimclear/kinematics/unit"
)

// cliff is where the half-width of a neck jumps with the azimuth: where the edge
// at which a steep taper starts passes the distance at which the neck is looked
// at. Seen from the head centre the neck's outline runs along a meridian there,
// from the lesser half-width to the greater.
type cliff struct {
	sin, cos  float64 // of the azimuth about the neck
	low, high unit.Angle
}

// cliffs are those of a neck, at any distance from the head centre.
//
// A rim point beside a cliff is no farther from the neck than from the cliff,
// though the gap along its own meridian may be far more, and on the other side it
// is no deeper in the neck. So limited the gap changes no faster beside a cliff
// than elsewhere.
type cliffs struct {
	neck  implant.Neck
	edge  [outlineSteps + 1]float64 // distance of the edge from the head centre, by azimuth
	known []ledge                   // distances that are asked often
}

// ledge is a distance, in mm, and the cliffs there.
type ledge struct {
	rho  float64
	list []cliff
}

// newCliffs returns the cliffs of a neck between two distances from the head
// centre, nil if there are none.
func newCliffs(neck implant.Neck, from, to float64) *cliffs {
	if !neck.Overhangs() {
		return nil
	}
	c := &cliffs{neck: neck}
	lo, hi := math.Inf(1), 0.0
	for i := range c.edge {
		c.edge[i] = neck.Edge(unit.Angle(i) * outlineStep)
		lo, hi = min(lo, c.edge[i]), max(hi, c.edge[i])
	}
	if lo > to || hi < from {
		return nil
	}
	return c
}

// between reports whether there may be a cliff, at a distance, between azimuth i
// of the table and the next.
func (c *cliffs) between(i int, rho float64) bool {
	return c != nil && (c.edge[i] >= rho) != (c.edge[i+1] >= rho)
}

// know keeps the cliffs at a distance, at which the neck has the given
// half-widths.
func (c *cliffs) know(rho float64, beta func(psi unit.Angle) unit.Angle) {
	if c == nil || len(c.known) == mostKnown {
		return
	}
	for i := range c.known {
		if math.Abs(c.known[i].rho-rho) < sameDistance {
			return
		}
	}
	l := ledge{rho: rho}
	for i := range outlineSteps {
		if c.between(i, rho) {
			l.list = append(l.list, c.find(i, rho, beta))
		}
	}
	c.known = append(c.known, l)
}

// mostKnown is how many distances are kept.
const mostKnown = 16

// sameDistance is, in mm, what counts as one distance.
const sameDistance = 1e-9

// find returns the cliff between azimuth i of the table and the next.
func (c *cliffs) find(i int, rho float64, beta func(psi unit.Angle) unit.Angle) cliff {
	from, to := float64(unit.Angle(i)*outlineStep), float64(unit.Angle(i+1)*outlineStep)
	psi := unit.Angle(solve.Root(func(x float64) float64 { return c.neck.Edge(unit.Angle(x)) - rho }, from, to))
	k := cliff{low: beta(psi - eitherSide), high: beta(psi + eitherSide)}
	if c.edge[i] > c.edge[i+1] {
		k.low, k.high = k.high, k.low
	}
	k.sin, k.cos = psi.Sincos()
	return k
}

// eitherSide is how far from a cliff, about the neck, both sides of it are asked.
const eitherSide = 1e-12

// limited returns a gap, known at a place of the rim by the neck's width there,
// limited by its distance to the cliffs at a distance from the head centre.
func (c *cliffs) limited(gap unit.Angle, p Pose, at r3.Vec, rho float64) unit.Angle {
	for i := range c.known {
		if l := &c.known[i]; math.Abs(l.rho-rho) < sameDistance {
			for n := range l.list {
				gap = l.list[n].limit(gap, p, at)
			}
			return gap
		}
	}
	beta := func(psi unit.Angle) unit.Angle { return c.neck.Beta(psi, rho) }
	for i := range outlineSteps {
		if c.between(i, rho) && aside(p, at, i) < gap.Abs() {
			k := c.find(i, rho, beta)
			gap = k.limit(gap, p, at)
		}
	}
	return gap
}

// aside returns at least how far a direction is from the meridians between
// azimuth i of the table and the next.
func aside(p Pose, at r3.Vec, i int) unit.Angle {
	up, fore := r3.Dot(p.Superior, at), r3.Dot(p.Anterior, at)
	s, c := ((unit.Angle(i) + 0.5) * outlineStep).Sincos()
	return unit.Angle(math.Abs(math.Asin(clamp(fore*c-up*s)))) - outlineStep/2
}

// limit returns a gap limited by the distance to a cliff.
func (k *cliff) limit(gap unit.Angle, p Pose, at r3.Vec) unit.Angle {
	if k.high-k.low < leap {
		return gap
	}
	d := k.distance(p, at)
	return max(-d, min(d, gap))
}

// leap is the difference of both sides, in radians, from which there is a cliff.
const leap = 1e-6

// distance returns the angle between a direction and the nearest of the cliff.
func (k *cliff) distance(p Pose, at r3.Vec) unit.Angle {
	x := r3.Dot(p.Axis, at)
	up, fore := r3.Dot(p.Superior, at), r3.Dot(p.Anterior, at)
	along, across := up*k.cos+fore*k.sin, fore*k.cos-up*k.sin
	t := unit.Angle(math.Atan2(along, x))
	end := max(k.low, min(k.high, t))
	if end == t {
		return unit.Angle(math.Abs(math.Asin(clamp(across))))
	}
	s, c := end.Sincos()
	chord := math.Hypot(math.Hypot(x-c, along-s), across)
	return unit.Angle(2 * math.Asin(min(1, chord/2)))
}
