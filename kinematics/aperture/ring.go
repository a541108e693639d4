package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/unit"
)

// ring is a closed curve of discs on the sphere, and finds the disc whose edge
// is nearest to a direction. Whether a rim under a round neck or a neck in a
// round rim: contact is a direction in one of the discs.
type ring struct {
	point  []r3.Vec
	radius []unit.Angle // of each disc, or of all if there is one
	block  []block
	span   unit.Angle // greatest distance from a block's centre to its points and the stretches between
	widest unit.Angle // greatest radius

	sinSpan, cosSpan float64
	slack            unit.Angle
}

// block is a run of points from ≤ i < to about a centre.
type block struct {
	from, to int
	centre   r3.Vec
}

// blockSize is how many points a block holds.
const blockSize = 16

func newRing(points []r3.Vec, radius []unit.Angle) ring {
	g := ring{point: points, radius: radius, slack: slack}
	for _, r := range radius {
		g.widest = max(g.widest, r)
	}
	least := 1.0
	for from := 0; from < len(points); from += blockSize {
		b := block{from: from, to: min(from+blockSize, len(points))}
		b.centre = points[(b.from+b.to)/2]
		for _, p := range points[b.from:b.to] {
			least = min(least, r3.Dot(p, b.centre))
		}
		g.block = append(g.block, b)
	}
	g.span = unit.Angle(math.Acos(clamp(least))) + spacing
	g.sinSpan, g.cosSpan = g.span.Sincos()
	return g
}

// widen makes room for what refining may lower a gap by, where samples overstate
// it more than by slack.
func widen(rings []ring, short unit.Angle) {
	for k := range rings {
		rings[k].slack = max(slack, short)
	}
}

// disc returns the radius of the disc about point i.
func (g *ring) disc(i int) unit.Angle {
	if len(g.radius) > 1 {
		return g.radius[i]
	}
	return g.radius[0]
}

// near is a point of a ring and the distance from a direction to its disc.
type near struct {
	index int
	gap   unit.Angle
}

// shortlist keeps the nearest points, each a local minimum, in order.
type shortlist struct {
	at    [4]near
	count int
}

func (s *shortlist) best() unit.Angle {
	if s.count == 0 {
		return unit.Angle(math.Inf(1))
	}
	return s.at[0].gap
}

func (s *shortlist) offer(n near) {
	i := s.count
	for i > 0 && s.at[i-1].gap > n.gap {
		i--
	}
	if i == len(s.at) {
		return
	}
	s.count = min(s.count+1, len(s.at))
	copy(s.at[i+1:s.count], s.at[i:s.count-1])
	s.at[i] = n
}

// slack is by how much refining between points may lower a gap, at most, where
// no sharp corner lies between them: the
// second order of the spacing, and kinks where lips cross.
const slack = 0.05 * unit.Degree

// nearest offers the points nearest to x to the list.
func (g *ring) nearest(x r3.Vec, list *shortlist) {
	first, most := 0, -2.0
	for i := range g.block {
		if d := r3.Dot(g.block[i].centre, x); d > most {
			first, most = i, d
		}
	}
	g.scan(x, first, list)
	reach := list.best() + g.slack + g.span + g.widest
	if reach > math.Pi {
		reach = math.Pi
	}
	limit := reach.Cos()
	for i := range g.block {
		if i != first && r3.Dot(g.block[i].centre, x) >= limit {
			g.scan(x, i, list)
		}
	}
}

// least returns the disc nearest to x, and how far it is.
func (g *ring) least(x r3.Vec) near {
	if len(g.radius) > 1 {
		var list shortlist
		g.nearest(x, &list)
		return list.at[0]
	}
	first, most := 0, -2.0
	for i := range g.block {
		if d := r3.Dot(g.block[i].centre, x); d > most {
			first, most = i, d
		}
	}
	at, most := g.highest(x, first, 0, -2)
	limit := g.wider(most)
	for i := range g.block {
		if i != first && r3.Dot(g.block[i].centre, x) >= limit {
			if k, d := g.highest(x, i, at, most); d > most {
				at, most, limit = k, d, g.wider(d)
			}
		}
	}
	return near{at, unit.Angle(math.Acos(clamp(most))) - g.radius[0]}
}

// wider returns the cosine of an angle, given by its cosine, made wider by the
// span of a block.
func (g *ring) wider(cos float64) float64 {
	cos = clamp(cos)
	if cos <= -g.cosSpan {
		return -2 // past a half turn
	}
	return cos*g.cosSpan - math.Sqrt(1-cos*cos)*g.sinSpan
}

// highest returns the point of a block with the greatest cosine to x, or the
// one given if it has no smaller one.
func (g *ring) highest(x r3.Vec, i, at int, most float64) (int, float64) {
	b := &g.block[i]
	for k, p := range g.point[b.from:b.to] {
		if d := p.X*x.X + p.Y*x.Y + p.Z*x.Z; d > most {
			at, most = b.from+k, d
		}
	}
	return at, most
}

// scan offers the local minima of a block. A point at its end counts as one if
// it is nearer than its inner neighbour.
func (g *ring) scan(x r3.Vec, i int, list *shortlist) {
	b := &g.block[i]
	if len(g.radius) > 1 {
		g.scanWidths(x, b, list)
		return
	}
	r := g.radius[0]
	limit := float64(-2)
	if l := list.best() + g.slack + r; l < math.Pi {
		limit = l.Cos()
	}
	before, here := -2.0, r3.Dot(g.point[b.from], x)
	for s := b.from; s < b.to; s++ {
		after := -2.0
		if s+1 < b.to {
			after = r3.Dot(g.point[s+1], x)
		}
		if here >= before && here > after && here >= limit {
			list.offer(near{s, unit.Angle(math.Acos(clamp(here))) - r})
		}
		before, here = here, after
	}
}

// scanWidths is scan where the discs differ.
func (g *ring) scanWidths(x r3.Vec, b *block, list *shortlist) {
	gap := func(s int) unit.Angle { return unit.Angle(math.Acos(clamp(r3.Dot(g.point[s], x)))) - g.radius[s] }
	before, here := unit.Angle(math.Inf(1)), gap(b.from)
	for s := b.from; s < b.to; s++ {
		after := unit.Angle(math.Inf(1))
		if s+1 < b.to {
			after = gap(s + 1)
		}
		if here <= before && here < after && here < list.best()+g.slack {
			list.offer(near{s, here})
		}
		before, here = here, after
	}
}

func clamp(x float64) float64 { return max(-1, min(1, x)) }
