package kinematics

import (
	"context"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/sphere"
	"rimclear/kinematics/unit"
)

// Search asks where a cup should point.
type Search struct {
	Hip      Hip
	Design   Design
	Aperture *aperture.Aperture // of the design; built if nil
	Required []motion.Requirement
	Bounds   Bounds
}

// Target is where a cup should point for the motions required, and whether that
// serves. The questions that only a round bearing answers exactly are answered
// for round bearings only (Round).
type Target struct {
	Round bool
	Asked bool // something is required at all
	// Fits is false if the motions put the neck axis into directions that no
	// hemisphere holds: more than 180° demanded, no bearing serves at any cup
	// position. Binding of Best is then the witness.
	Fits bool
	// Demanded is the least oscillation angle that the motions demand of any
	// round bearing, at any cup position, for this neck axis (neck-shaft angle
	// and stem version); no bearing does with less by more than Gap.
	Demanded unit.Angle
	Gap      unit.Angle
	// Offered is the oscillation angle of a round bearing.
	Offered     unit.Angle
	Best        Aim
	Bounded     bool // some bound was given
	Reachable   bool // some cup position keeps the bounds
	Constrained Aim  // the best that keeps them; Best where none is given
}

// Cost returns the margin that the bounds cost.
func (t Target) Cost() unit.Angle { return t.Best.Margin - t.Constrained.Margin }

// Serves reports whether some cup position within the bounds is free in all
// motions.
func (t Target) Serves() bool {
	return t.Asked && t.Fits && t.Reachable && t.Constrained.Margin > Touch
}

// Aim is a cup position and what limits it. Its margin is the error of the cup
// axis, in the worst direction, that a round bearing tolerates there.
type Aim struct {
	Axis   r3.Vec // APP of a right hip
	Cup    Cup    // in the bounds' definition and plane
	Margin unit.Angle
	// Demanded is the oscillation angle that the motions demand of a round
	// bearing at this position, 0 for others.
	Demanded unit.Angle
	Binding  []Extreme // the motions that leave no more margin, worst first
}

// bindingSlack is the margin within which a motion counts as binding.
const bindingSlack = 1e-6 * unit.Degree

// FindTarget returns where the cup should point. Round bearings are answered
// exactly; others by a grid over cup positions and refinement, to about 0.01°.
// The error is the context's, if it ended first.
func FindTarget(ctx context.Context, s Search) (Target, error) {
	if s.Aperture == nil {
		s.Aperture = aperture.Build(s.Design.Rim, s.Design.Neck)
	}
	t := newTrial(s.Hip, s.Design, s.Aperture, s.Required)
	answer := Target{Round: t.round, Asked: !t.Empty(), Bounded: s.Bounds.Any(), Fits: true}
	if !answer.Asked {
		return answer, ctx.Err()
	}
	f := newFence(s.Hip, s.Design, s.Bounds)
	if t.round {
		return t.roundTarget(ctx, &f, answer)
	}
	return t.otherTarget(ctx, &f, answer)
}

// roundTarget answers by the smallest enclosing cap, and within bounds by
// search.
func (t *trial) roundTarget(ctx context.Context, f *fence, a Target) (Target, error) {
	e, found := t.Enclosure()
	a.Fits, a.Demanded, a.Gap, a.Offered = e.Fits, 2*e.Radius, 2*e.Gap, 2*t.theta
	if !e.Fits {
		a.Best = Aim{Axis: e.Axis, Binding: chosen(found, e.Support)}
		return a, ctx.Err()
	}
	a.Best = t.aim(f, e.Axis)
	a.Best.Binding = chosen(found, e.Support)
	a.Constrained, a.Reachable = a.Best, true
	if a.Bounded && f.excess(e.Axis) > 0 {
		var n r3.Vec
		if n, a.Reachable = t.seek(f); a.Reachable {
			a.Constrained = t.aim(f, n)
		}
	}
	return a, ctx.Err()
}

// chosen returns the extremes of a support.
func chosen(found []Extreme, support []sphere.Point) []Extreme {
	list := make([]Extreme, len(support))
	for i, p := range support {
		list[i] = found[p.From]
	}
	return list
}

// aim returns a cup position as a result.
func (t *trial) aim(f *fence, n r3.Vec) Aim {
	w := t.worst(n)
	i, v := f.angles(n)
	a := Aim{Axis: n, Cup: Cup{Definition: f.Definition, Inclination: i, Anteversion: v}, Margin: w.Margin}
	if t.round {
		a.Demanded = 2 * (t.theta - w.Margin)
	}
	a.Binding = t.binding(n, w)
	return a
}

// binding returns, motion by motion, what comes as close as the worst.
func (t *trial) binding(n r3.Vec, w Worst) []Extreme {
	if !t.round {
		return []Extreme{t.extremeAt(n, w)}
	}
	far := t.theta - w.Margin
	var list []Extreme
	for i := range t.list {
		if e, ok := t.FarthestOf(i, n); ok && e.Angle >= far-bindingSlack {
			list = append(list, e)
		}
	}
	return list
}

func (t *trial) extremeAt(n r3.Vec, w Worst) Extreme {
	p := t.list[w.Moment.Motion].Paths[w.Moment.Path]
	q := p.At(w.Moment.Place)
	u := hip.RotationZ(t.tilts.Of(p.Zero)).Apply(shaft(p, q).Apply(t.Demand.neck))
	return Extreme{Moment: w.Moment, Posture: q, Direction: u, Angle: sphere.Between(n, u)}
}
