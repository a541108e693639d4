package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/solve"
	"rimclear/kinematics/unit"
)

// place is a point of the rim: between sample and the next one, at a level.
type place struct {
	sample, level int
}

// found is a place and the gap there.
type found struct {
	place
	gap unit.Angle
}

// slack is by how much refining between samples may lower a gap, at most: the
// second order of the spacing, and kinks where lips cross.
const slack = 0.05 * unit.Degree

// shortlist keeps the places of least gap, each a local minimum, in order.
type shortlist struct {
	at    [4]found
	count int
}

func (s *shortlist) best() unit.Angle {
	if s.count == 0 {
		return unit.Angle(math.Inf(1))
	}
	return s.at[0].gap
}

func (s *shortlist) offer(f found) {
	i := s.count
	for i > 0 && s.at[i-1].gap > f.gap {
		i--
	}
	if i == len(s.at) {
		return
	}
	s.count = min(s.count+1, len(s.at))
	copy(s.at[i+1:s.count], s.at[i:s.count-1])
	s.at[i] = f
}

// scan returns the local minima of the gap over the samples: blocks by their
// bound, the samples of promising blocks one by one.
func (o *outline) scan(p Pose) shortlist {
	first, least := 0, unit.Angle(math.Inf(1))
	for i := range o.block {
		if b := o.block[i].below(p.Axis); b < least {
			first, least = i, b
		}
	}
	var list shortlist
	o.scanBlock(p, first, &list)
	for i := range o.block {
		if i != first && o.block[i].below(p.Axis) < list.best()+slack {
			o.scanBlock(p, i, &list)
		}
	}
	return list
}

// scanBlock offers the local minima of a block, level by level. A sample at
// the block's end counts as one if it is lower than its inner neighbour.
func (o *outline) scanBlock(p Pose, i int, list *shortlist) {
	b := &o.block[i]
	for l := range o.levels {
		before, here := unit.Angle(math.Inf(1)), o.about(p, b.from, l)
		for s := b.from; s < b.to; s++ {
			after := unit.Angle(math.Inf(1))
			if s+1 < b.to {
				after = o.about(p, s+1, l)
			}
			if here <= before && here < after && here < list.best()+slack {
				list.offer(found{place{s, l}, here})
			}
			before, here = here, after
		}
	}
}

// about returns the gap at a sample, the neck's width by the table.
func (o *outline) about(p Pose, s, l int) unit.Angle {
	sm := &o.sample[s]
	if o.radial {
		angle := unit.Angle(math.Acos(clamp(r3.Dot(sm.first, p.Axis))))
		if o.width.round {
			return angle - o.width.widest
		}
		return angle - o.width.about(rollOf(p, sm.first))
	}
	return o.touch(p, o.levels[l].vertex(o.rim.FaceAt(sm.polar)), sm.phi).Margin
}

// touch returns the exact gap between the neck and one point of the face.
func (o *outline) touch(p Pose, v implant.Vertex, phi unit.Angle) Touch {
	t := Touch{Azimuth: phi, Vertex: v}
	at := direction(v, phi)
	t.Roll = rollOf(p, at)
	if o.radial {
		beta, rho := o.width.band.Beta(t.Roll)
		f := rho / v.Rho()
		t.Vertex = implant.Vertex{Axial: v.Axial * f, Radial: v.Radial * f}
		t.Margin = between(at, p.Axis) - beta
		return t
	}
	t.Margin = between(at, p.Axis) - o.width.band.At(t.Roll, v.Rho())
	return t
}

// nearest returns the least gap, refined on the exact rim.
func (o *outline) nearest(p Pose) Touch {
	list := o.scan(p)
	best := Touch{Margin: unit.Angle(math.Inf(1))}
	for _, f := range list.at[:list.count] {
		if f.gap > list.best()+slack {
			break
		}
		if t := o.refine(p, f.place); t.Margin < best.Margin {
			best = t
		}
	}
	return o.signed(p, best)
}

// margin returns the least gap over the samples, above the exact one by less
// than 0.001° on smooth rims.
func (o *outline) margin(p Pose) unit.Angle {
	list := o.scan(p)
	f := list.at[0]
	sm := &o.sample[f.sample]
	t := o.touch(p, o.levels[f.level].vertex(o.rim.FaceAt(sm.polar)), sm.phi)
	return o.signed(p, t).Margin
}

// signed makes the gap negative where the neck axis itself points into the
// body of the cup.
func (o *outline) signed(p Pose, t Touch) Touch {
	if o.beyond(p.Axis) {
		t.Margin = -(t.Margin + 2*o.width.narrowest).Abs()
	}
	return t
}

// beyond reports whether an axis points into the body of the cup.
func (o *outline) beyond(axis r3.Vec) bool {
	f := o.rim.Face(azimuth(axis))
	return polar(axis) > f.Corner[0].Gamma()
}

// atLeast returns a lower bound of the gap, by blocks alone.
func (o *outline) atLeast(p Pose) unit.Angle {
	least := unit.Angle(math.Inf(1))
	for i := range o.block {
		least = min(least, o.block[i].below(p.Axis))
	}
	return least
}

// refine minimises the gap between the samples on both sides of a place, and
// across the face where it is not radial.
func (o *outline) refine(p Pose, at place) Touch {
	l := o.levels[at.level]
	t, x := o.refineAlong(p, at.sample, l)
	if o.radial {
		return t
	}
	for range 3 {
		better, share := o.refineAcross(p, at.sample, x, l)
		if better.Margin >= t.Margin-1e-13 {
			break
		}
		t, l.share = better, share
		t, x = o.refineAlong(p, at.sample, l)
	}
	return t
}

// refineAlong minimises along the rim, from the sample before to the one
// after: x runs from -1 to 1.
func (o *outline) refineAlong(p Pose, i int, l level) (Touch, float64) {
	gap := func(x float64) float64 { return float64(o.at(p, i, x, l).Margin) }
	here := gap(0)
	left, right := gap(-kink) < here, gap(kink) < here
	x := 0.0
	switch {
	case left && right:
		a, va := solve.Minimum(gap, -1, 0)
		b, vb := solve.Minimum(gap, 0, 1)
		if x = a; vb < va {
			x = b
		}
	case left:
		x, _ = solve.Minimum(gap, -1, 0)
	case right:
		x, _ = solve.Minimum(gap, 0, 1)
	}
	return o.at(p, i, x, l), x
}

// kink is how near to a sample its sides are tried, in shares of a spacing.
const kink = 1e-7

// refineAcross minimises along the face segment of a level.
func (o *outline) refineAcross(p Pose, i int, x float64, l level) (Touch, float64) {
	gap := func(share float64) float64 {
		return float64(o.at(p, i, x, level{segment: l.segment, share: share}).Margin)
	}
	lo, hi := math.Max(0, l.share-0.3), math.Min(1, l.share+0.3)
	share, _ := solve.Minimum(gap, lo, hi)
	return o.at(p, i, x, level{segment: l.segment, share: share}), share
}

// at returns the exact gap at x, from the sample before (-1) over sample i (0)
// to the one after (1), at a level.
func (o *outline) at(p Pose, i int, x float64, l level) Touch {
	phi, polar := o.between(i, x)
	return o.touch(p, l.vertex(o.rim.FaceAt(polar)), phi)
}

// between returns azimuth and polar angle of the rim between samples.
func (o *outline) between(i int, x float64) (phi, polar unit.Angle) {
	n := len(o.sample)
	from, to := i, (i+1)%n
	if x < 0 {
		from, to, x = (i+n-1)%n, i, x+1
	}
	a, b := &o.sample[from], &o.sample[to]
	f := unit.Angle(x)
	if a.riser {
		return a.phi, a.polar + f*(b.polar-a.polar)
	}
	phi = a.phi + f*(b.phi-a.phi).Wrapped()
	switch x {
	case 0:
		return phi, a.polar
	case 1:
		return phi, b.polar
	}
	return phi, o.rim.Polar(phi)
}
