package aperture

import (
	"math"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/solve"
	"rimclear/kinematics/unit"
)

// level is a place across the face at every station of the rim: a share of the
// way along one of its segments; or where an edge of the neck's profile meets
// that segment, or the bearing below it, at the distance that the edge has on the
// side of the neck which faces the place.
type level struct {
	segment int
	share   float64
	edge    int     // the neck's break that is followed, or none
	lo, hi  float64 // its least and greatest distance, mm
	side    int     // which of both places of the segment at the edge's distance
	below   bearing // of no radius on the face itself
	moves   bool    // across the face, in search of the least gap
	// widest is how far from the level's middle the neck is in contact at most,
	// over all samples.
	widest unit.Angle
}

// none is the edge of a place that is at rest.
const none = -1

// middle returns the level's point on a face outline, where it moves for the
// middle of the edge's distances.
func (l *level) middle(f *implant.Face) implant.Vertex {
	if l.edge != none {
		return l.reached(f, (l.lo+l.hi)/2)
	}
	return lerp(f.Corner[l.segment], f.Corner[l.segment+1], l.share)
}

// reached returns the point of the level's segment, or of the bearing, at a
// distance from the head centre, or the nearest that is on it.
func (l *level) reached(f *implant.Face, rho float64) implant.Vertex {
	if l.below.radius > 0 {
		return l.below.at(rho, f.Corner[0])
	}
	return passing(f.Corner[l.segment], f.Corner[l.segment+1], rho, l.side)
}

// least returns the least distance to which the level follows its edge.
func (l *level) least(f *implant.Face) float64 {
	if l.below.radius > 0 {
		return l.lo
	}
	return max(l.lo, min(f.Corner[l.segment].Rho(), f.Corner[l.segment+1].Rho()))
}

// passing returns the first (side 0) or second place at which the segment a→b
// passes the distance rho, or the nearest to it that is on the segment.
func passing(a, b implant.Vertex, rho float64, side int) implant.Vertex {
	at, _ := crossings(a, b, rho*(1-1e-13)) // the wider side of a jump
	return lerp(a, b, max(0, min(1, at[side])))
}

// passes reports whether the segment a→b passes distances from lo to hi on a
// side.
func passes(a, b implant.Vertex, lo, hi float64, side int) bool {
	near, _ := crossings(a, b, lo)
	far, ok := crossings(a, b, hi)
	return ok && min(near[side], far[side]) < 1 && max(near[side], far[side]) > 0
}

// edgeReach returns the least and the greatest distance of an edge from the head
// centre.
func edgeReach(neck implant.Neck, edge int) (lo, hi float64) {
	at, _ := neck.Breaks(0)
	before, step := at[edge], 0.0
	lo, hi = before, before
	for i := range outlineSteps {
		at, _ = neck.Breaks(unit.Angle(i+1) * outlineStep)
		rho := at[edge]
		lo, hi, step = min(lo, rho), max(hi, rho), max(step, math.Abs(rho-before))
		before = rho
	}
	return lo - step, hi + step // a corner between the points goes no farther
}

// sampleAt returns the gap at a sample, at a level, for a first look.
func (o *outline) sampleAt(p Pose, s, k int) Touch {
	sm := &o.sample[s]
	if o.radial {
		return o.touch(p, o.rim.FaceAt(sm.polar).Corner[0], sm.phi)
	}
	within := roughly
	if o.width.cliffs != nil { // a hair beyond the edge is the far side of a cliff
		within = exactly
	}
	l := &o.levels[k]
	t := o.on(p, l, &o.faces[s], sm.phi, within)
	t.polar = sm.polar
	return o.following(t, l)
}

// findLevels lists the places across the face to watch: its inner edge alone
// where it is radial, else its corners, the middles of its segments, and where
// the edges of the neck's profile meet it or the bearing below.
func (o *outline) findLevels(neck implant.Neck) {
	o.skirt = neck.Skirt.Present() && !o.radial
	if o.radial {
		o.levels = []level{{edge: none}}
		return
	}
	put := func(l level) { o.levels = append(o.levels, o.bounded(l, neck)) }
	f := o.rim.Face(0)
	put(level{edge: none})
	for i := range f.Count - 1 {
		put(level{segment: i, share: 0.5, edge: none})
		put(level{segment: i, share: 1, edge: none})
	}
	_, edges := neck.Breaks(0)
	for edge := range edges {
		l := level{edge: edge}
		l.lo, l.hi = edgeReach(neck, edge)
		for l.segment = range f.Count - 1 {
			for l.side = range 2 {
				if o.passes(l) {
					put(l)
				}
			}
		}
		if b, room := bearingOf(o.rim); room && l.lo == l.hi && l.hi > b.radius { // else see under
			l.segment, l.side, l.below = 0, 0, b
			put(l)
		}
	}
}

// passes reports whether a level's edge may meet its segment anywhere.
func (o *outline) passes(l level) bool {
	for i := range o.faces {
		f := &o.faces[i]
		if passes(f.Corner[l.segment], f.Corner[l.segment+1], l.lo, l.hi, l.side) {
			return true
		}
	}
	return false
}

// bounded works out how far from a level's middle the neck may be in contact.
func (o *outline) bounded(l level, neck implant.Neck) level {
	lo, hi := l.lo, l.hi
	if l.edge == none {
		lo = math.Inf(1)
	}
	aside := unit.Angle(0)
	for i := range o.faces {
		f := &o.faces[i]
		v := l.middle(f)
		lo, hi = min(lo, v.Rho()), max(hi, v.Rho())
		if l.edge != none {
			g := v.Gamma()
			aside = max(aside, (l.reached(f, l.lo).Gamma() - g).Abs(), (l.reached(f, l.hi).Gamma() - g).Abs())
		}
	}
	band := neck.Band(lo, hi)
	l.widest = 1.005*band.Widest() + aside // which is sampled
	return l
}

// place returns where a level is on the face at an azimuth of the rim, for a neck
// at a pose, to within so many mm of the edge that it follows.
func (o *outline) place(p Pose, l *level, f *implant.Face, phi unit.Angle, within float64) implant.Vertex {
	if l.lo == l.hi {
		return l.middle(f)
	}
	miss := func(rho float64) float64 {
		return o.width.edge(l.edge, rollOf(p, direction(l.reached(f, rho), phi)), within) - rho
	}
	return l.reached(f, balance(miss, l.lo, l.hi, within))
}

// balance returns where a function that hardly differs from a line, and is not
// below 0 at lo nor above at hi, is within a distance of 0. Where it is below at
// both, as for an edge within the ball, that is lo.
func balance(f solve.Func, lo, hi, within float64) float64 {
	a := (lo + hi) / 2
	fa := f(a)
	b := max(lo, min(hi, a+fa))
	for range 6 {
		fb := f(b)
		if math.Abs(fb) <= within {
			return b
		}
		c := b - fb*(b-a)/(fb-fa)
		if !(c >= lo && c <= hi) {
			break
		}
		a, b, fa = b, c, fb
	}
	return solve.Root(f, lo, hi)
}
