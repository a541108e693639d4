package aperture

import (
	"math"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/solve"
	"rimclear/kinematics/unit"
)

// touch returns the exact gap between the neck and one point of the face.
func (o *outline) touch(p Pose, v implant.Vertex, phi unit.Angle) Touch {
	t := o.meeting(p, v, phi)
	if c := o.width.cliffs; c != nil {
		t.Margin = c.limited(t.Margin, p, direction(v, phi), o.distance(v))
	}
	return t
}

// meeting is touch without a look at cliffs.
func (o *outline) meeting(p Pose, v implant.Vertex, phi unit.Angle) Touch {
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

// distance returns how far from the head centre the neck is looked at for a place
// of the face: where the face is radial, at its inner edge and beyond.
func (o *outline) distance(v implant.Vertex) float64 {
	if o.radial {
		return o.rim.HeadDiameter / 2
	}
	return v.Rho()
}

// gap returns the exact gap at the face's point of a touch, or where the edge of
// the neck that it follows has gone to.
func (o *outline) gap(p Pose, t Touch) unit.Angle {
	if t.follows != nil {
		f := o.rim.FaceAt(t.polar)
		return o.on(p, t.follows, &f, t.Azimuth, exactly).Margin
	}
	return o.touch(p, t.Vertex, t.Azimuth).Margin
}

// following returns the touch of a level that follows an edge of the neck as one
// that goes on with it. Where there are no cliffs the place itself will do.
func (o *outline) following(t Touch, l *level) Touch {
	if o.width.cliffs != nil && l.edge != none {
		t.follows = l
	}
	return t
}

// on returns the exact gap at a level's place on a face at an azimuth, limited by
// its distance to cliffs of the neck. A place that moves with an edge of the neck
// is at the edge's own distance on all sides, and comes to a cliff only where the
// edge leaves the face: it is limited there, and in contact. A place that moves
// across the face is limited in contact only: else places at rest are nearer.
func (o *outline) on(p Pose, l *level, f *implant.Face, phi unit.Angle, within float64) Touch {
	v := o.place(p, l, f, phi, within)
	t := o.meeting(p, v, phi)
	c := o.width.cliffs
	if c == nil {
		return t
	}
	if l.edge != none {
		if least := l.least(f); t.Margin <= touch || v.Rho() < least+sameDistance {
			t.Margin = c.limited(t.Margin, p, direction(v, phi), least)
		}
	} else if t.Margin <= touch || !l.moves {
		t.Margin = c.limited(t.Margin, p, direction(v, phi), o.distance(v))
	}
	return t
}

// at returns the exact gap at a place between samples, at a level.
func (o *outline) at(p Pose, i int, x float64, l *level) Touch {
	phi, polar := o.between(i, x)
	f := o.rim.FaceAt(polar)
	t := o.on(p, l, &f, phi, exactly)
	t.polar = polar
	return t
}

// How near, in mm, a place is to the edge of the neck that it follows: for a
// first look, and in the end.
const (
	roughly = 1e-4
	exactly = 1e-12
)

// refine minimises the gap on the exact rim between the samples on both sides
// of one, and across the face where it is not radial. It reports towards which
// neighbour the gap still falls where its least is that neighbour.
func (o *outline) refine(p Pose, i int, l *level) (t Touch, further int) {
	x := o.along(p, i, l)
	further = atEnd(x)
	t = o.at(p, i, x, l)
	if l.edge != none {
		return o.following(t, l), further
	}
	if o.radial {
		return t, further
	}
	return o.across(p, i, x, l, t), further
}

// across goes on from a place along the rim to the least gap across the face as
// well: in turns along and across, and then the way that both went together,
// since on a ramp the valley lies aslant.
func (o *outline) across(p Pose, i int, x float64, l *level, t Touch) Touch {
	moved := *l
	moved.moves = true
	at := func(x, share float64) Touch {
		moved.share = share
		return o.at(p, i, x, &moved)
	}
	share := l.share
	for range mostTurns {
		moved.share, _ = solve.Minimum(func(y float64) float64 { return float64(at(x, y).Margin) }, max(0, share-0.3), min(1, share+0.3))
		y, aside := o.along(p, i, &moved), moved.share
		better := at(y, aside)
		if better.Margin >= t.Margin-1e-13 {
			break
		}
		dx, ds := y-x, aside-share
		on, _ := solve.Minimum(func(k float64) float64 { return float64(at(y+k*dx, aside+k*ds).Margin) }, 0, min(farOn, room(y, dx, -1), room(aside, ds, 0)))
		t, x, share = better, y, aside
		if aslant := at(y+on*dx, aside+on*ds); aslant.Margin < t.Margin {
			t, x, share = aslant, y+on*dx, aside+on*ds
		}
		if step := atEnd(x); step != 0 { // the valley goes on beside the next sample
			i, x = o.wrap(i+step), 0
		}
	}
	return t
}

// mostTurns is how often a search turns at most between along and across: where
// the valley has a sharp bed it would go on by ever less.
const mostTurns = 12

// farOn is how many times as far a search goes on at most the way it went.
const farOn = 30

// room returns how many steps of a size fit between a place and the end, least or
// 1, to which they lead.
func room(at, step, least float64) float64 {
	switch {
	case step > 0:
		return (1 - at) / step
	case step < 0:
		return (least - at) / step
	}
	return math.Inf(1)
}

func (o *outline) along(p Pose, i int, l *level) float64 {
	if x, ok := o.facing(p, i); ok {
		return x
	}
	return bottom(func(x float64) float64 { return float64(o.at(p, i, x, l).Margin) })
}

// facing returns the nearest place of a rim that is level about sample i to the
// axis of a round neck: at the axis' own azimuth, or the end nearer to it.
func (o *outline) facing(p Pose, i int) (x float64, ok bool) {
	before, here, after := &o.sample[o.wrap(i-1)], &o.sample[i], &o.sample[o.wrap(i+1)]
	if !o.width.round || before.polar != here.polar || here.polar != after.polar || before.riser || here.riser {
		return 0, false
	}
	off := (azimuth(p.Axis) - here.phi).Wrapped()
	next := after
	if off < 0 {
		next = before
	}
	step := (next.phi - here.phi).Wrapped()
	if step == 0 {
		return 0, false
	}
	return math.Copysign(math.Min(1, math.Abs(float64(off/step))), float64(off)), true
}

// endShare is how near to the end of a window, in shares of a spacing, a minimum
// counts as there: solve.Minimum stops short of it.
const endShare = 1e-6

// atEnd returns on which side a place is at the end of its window, 0 if it is not.
func atEnd(x float64) int {
	switch {
	case x > 1-endShare:
		return 1
	case x < endShare-1:
		return -1
	}
	return 0
}

// kink is how near to a sample its sides are tried, in shares of a spacing.
const kink = 1e-7

// bottom returns where a gap is least between the sample before (-1), its own
// (0) and the one after (1). A corner at the sample itself is kept exactly.
func bottom(gap solve.Func) float64 {
	here := gap(0)
	best, least := 0.0, here
	for _, end := range [2]float64{-1, 1} {
		if gap(end*kink) >= here {
			continue
		}
		if x := downhill(gap, end, here); gap(x) < least {
			best, least = x, gap(x)
		}
	}
	return best
}

// downhill returns where a gap that falls from 0 towards end is least. Where it
// jumps up on the way, as at the end of a skirt, that is at the latest the
// jump.
func downhill(gap solve.Func, end, here float64) float64 {
	x, v := solve.Minimum(gap, min(0, end), max(0, end))
	if v <= here {
		return x
	}
	low, jump := 0.0, end
	for range 40 {
		if m := (low + jump) / 2; gap(m) <= here {
			low = m
		} else {
			jump = m
		}
	}
	return low
}
