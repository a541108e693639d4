package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// under is where an edge of a neck that is not round may reach under the face of
// a rim that is not round and meet the bearing there. The bearing is a sphere
// about the cup axis, so that the edge is followed about the neck, as in a round
// rim: seen from the rim it may come to one azimuth at several places.
//
// It is looked at where there is a bearing below the face at the edge's azimuth.
// Where that ends the edge passes the face's corner, which is a level.
type under struct {
	rim  *outline
	seat seat
	psi  []unit.Angle // of the samples: closer where the bearing runs along the edge
	ring ring         // of the opposites of the edge there, as of a neck in a round rim
	// dip is by how much the gap between two samples may be less than at both, but
	// for what the edge goes on between them.
	dip unit.Angle
	// deepest is the least polar angle of the neck axis at which the edge may touch.
	deepest unit.Angle
}

// absent is the gap where there is no bearing below the face: more than any.
const absent = 180 * unit.Degree

// unders returns where edges of the neck that are not at one distance all round
// may meet the bearing below the face.
func (o *outline) unders(neck implant.Neck) (list []*under) {
	b, room := bearingOf(o.rim)
	if o.radial || !room {
		return nil
	}
	top := o.top()
	_, edges := neck.Breaks(0)
	for edge := range edges {
		lo, hi := edgeReach(neck, edge)
		if lo == hi || hi <= b.radius || lo >= b.farthest(top) {
			continue
		}
		u := &under{rim: o, seat: seat{from: top, to: top, edge: edge, below: b, band: neck.Band(lo, hi)}}
		u.trace()
		list = append(list, u)
	}
	return list
}

// trace samples the edge.
func (u *under) trace() {
	var points []r3.Vec
	var discs []unit.Angle
	u.deepest = absent
	put := func(psi unit.Angle, s spot) {
		u.psi = append(u.psi, psi)
		points, discs = append(points, r3.Scale(-1, s.at)), append(discs, absent-s.gamma)
		u.deepest = min(u.deepest, s.gamma-unit.Angle(math.Acos(clamp(s.at.Z))))
	}
	var between func(a, b unit.Angle, from, to spot, depth int)
	between = func(a, b unit.Angle, from, to spot, depth int) {
		middle := (a + b) / 2
		s := u.spot(middle)
		dip := min(from.gamma, to.gamma) - s.gamma
		if depth < mostHalved && ((from.gamma-to.gamma).Abs() > 2*spacing || dip > spacing/4) {
			between(a, middle, from, s, depth+1)
			put(middle, s)
			between(middle, b, s, to, depth+1)
			return
		}
		u.dip = max(u.dip, 2*dip)
	}
	here := u.spot(0)
	for i := range outlineSteps {
		a, b := unit.Angle(i)*outlineStep, unit.Angle(i+1)*outlineStep
		next := u.spot(b)
		put(a, here)
		between(a, b, here, next, 0)
		here = next
	}
	u.ring = newRing(points, discs)
	u.ring.slack = max(slack, u.short())
	u.deepest -= u.short()
}

// mostHalved is how often the stretch between two samples is halved at most.
const mostHalved = 8

// spot returns the edge at azimuth psi about the neck, and where the bearing is at
// its distance: nowhere, if it does not reach so far.
func (u *under) spot(psi unit.Angle) spot {
	s := u.seat.spot(psi, 0)
	if s.vertex == u.seat.from {
		s.gamma = absent
	}
	return s
}

// short is by how much the gap over samples may exceed the exact one: by what the
// edge goes on between two of them, and it may pass the face's corner there.
func (u *under) short() unit.Angle { return u.dip + 0.6*unit.Degree }

// top returns the inner corner of the face where it reaches out farthest.
func (o *outline) top() implant.Vertex {
	top := o.faces[0].Corner[0]
	for i := range o.faces {
		if v := o.faces[i].Corner[0]; v.Axial > top.Axial {
			top = v
		}
	}
	return top
}

// at returns the gap between the bearing and the edge at azimuth psi about the
// neck. In contact it is limited by how far the bearing goes on to both sides.
func (u *under) at(p Pose, psi unit.Angle) Touch {
	s := u.spot(psi)
	at := inCup(p, s.at)
	t := Touch{Margin: s.gamma - polar(at), Azimuth: azimuth(at), Vertex: s.vertex, Roll: psi, under: u}
	switch {
	case !u.below(t.Azimuth, s.vertex):
		t.Margin = absent
	case t.Margin < 0:
		t.Margin = -u.depth(-t.Margin, t, math.Hypot(at.X, at.Y))
	}
	return t
}

// below reports whether a place of the bearing is below the face at an azimuth.
func (u *under) below(phi unit.Angle, v implant.Vertex) bool {
	f := u.rim.rim.Face(phi)
	return v.Axial < f.Corner[0].Axial
}

// depth returns by how much the edge is in the bearing, at most so much: less
// where the bearing ends nearer to one side. The edge is at a distance of 1 from
// the head centre and across from the cup axis.
func (u *under) depth(most unit.Angle, t Touch, across float64) unit.Angle {
	o := u.rim
	first := o.after(t.Azimuth)
	for _, way := range [2]int{1, -1} {
		inside := t.Azimuth
		k := first
		if way < 0 {
			k--
		}
		for range o.sample {
			s := &o.sample[o.wrap(k)]
			off := (s.phi - t.Azimuth).Wrapped().Abs()
			if off > 90*unit.Degree || sideways(off, across) >= most {
				break
			}
			if t.Vertex.Axial >= o.faces[o.wrap(k)].Corner[0].Axial {
				end := u.end(t.Vertex, inside, inside+(s.phi-inside).Wrapped())
				most = min(most, sideways((end-t.Azimuth).Wrapped().Abs(), across))
				break
			}
			inside = s.phi
			k += way
		}
	}
	return most
}

// sideways returns how far a direction is from a half plane through the cup axis,
// so far about it.
func sideways(turn unit.Angle, across float64) unit.Angle {
	return unit.Angle(math.Asin(clamp(across * turn.Sin())))
}

// end returns the azimuth at which the bearing below the face ends at a place of
// it, between one that is below the face and one that is not. It is the last that
// is.
func (u *under) end(v implant.Vertex, inside, outside unit.Angle) unit.Angle {
	for range 60 {
		m := (inside + outside) / 2
		if u.below(m, v) {
			inside = m
		} else {
			outside = m
		}
	}
	return inside
}

// gap is at, worked out for a place that samples see as far off already.
func (u *under) gap(p Pose, x r3.Vec, i int, limit unit.Angle) unit.Angle {
	g := &u.ring
	if gap := unit.Angle(math.Acos(clamp(r3.Dot(g.point[i], x)))) - g.radius[i]; gap > limit {
		return absent
	}
	return u.at(p, u.psi[i]).Margin
}

// scan offers the local minima of the gap over samples to a list, of those that
// are nearer than a limit.
func (u *under) scan(p Pose, x r3.Vec, limit unit.Angle, list *shortlist) {
	g := &u.ring
	reach := cosineOf(limit + g.span + g.widest)
	for k := range g.block {
		b := &g.block[k]
		if r3.Dot(b.centre, x) < reach {
			continue
		}
		before, here := absent, u.gap(p, x, b.from, limit)
		for i := b.from; i < b.to; i++ {
			after := absent
			if i+1 < b.to {
				after = u.gap(p, x, i+1, limit)
			}
			if here <= before && here < after {
				list.offer(near{i, here})
			}
			before, here = here, after
		}
	}
}

// closest returns the sample of least gap, if it is less than a limit.
func (u *under) closest(p Pose, limit unit.Angle) (t Touch, found bool) {
	x := cupAxis(p)
	if u.ring.least(x).gap >= limit {
		return t, false
	}
	var list shortlist
	u.scan(p, x, limit, &list)
	if list.best() >= limit {
		return t, false
	}
	return u.at(p, u.psi[list.at[0].index]), true
}

// nearest returns the least gap on the exact edge, if it is less than a limit.
func (u *under) nearest(p Pose, limit unit.Angle) (best Touch, found bool) {
	x, wide := cupAxis(p), limit+u.ring.slack
	if u.ring.least(x).gap >= wide {
		return best, false
	}
	var list shortlist
	u.scan(p, x, wide, &list)
	best.Margin = limit
	for _, n := range list.at[:list.count] {
		if t := u.down(p, n.index); t.Margin < best.Margin {
			best, found = t, true
		}
	}
	return best, found
}

// down follows the gap downhill about the neck from a sample.
func (u *under) down(p Pose, i int) Touch {
	x := 0.0
	for range 4 {
		x = bottom(func(x float64) float64 { return float64(u.at(p, u.azimuth(i, x)).Margin) })
		step := atEnd(x)
		if step == 0 {
			break
		}
		i, x = (i+step+len(u.psi))%len(u.psi), 0
	}
	return u.at(p, u.azimuth(i, x))
}

// azimuth returns the azimuth about the neck at x, from the sample before (-1) over
// sample i (0) to the one after (1).
func (u *under) azimuth(i int, x float64) unit.Angle {
	step := 1
	if x < 0 {
		step = -1
	}
	next := u.psi[(i+step+len(u.psi))%len(u.psi)]
	return u.psi[i] + unit.Angle(math.Abs(x))*(next-u.psi[i]).Wrapped()
}

// least returns a lower bound of the gap at any roll of the neck.
func (u *under) least(axis r3.Vec) unit.Angle { return u.deepest - polar(axis) }
