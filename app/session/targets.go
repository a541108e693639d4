package session

import (
	"context"
	"runtime"

	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// TargetQuestion is all that a target depends on.
type TargetQuestion struct {
	Hip      kinematics.Hip
	Goal     kinematics.Goal
	Design   kinematics.Design
	Required []motion.Requirement
	Aperture *aperture.Aperture
}

// Same reports whether two questions have the same answer.
func (q TargetQuestion) Same(o TargetQuestion) bool {
	same := len(q.Required) == len(o.Required) && (len(q.Required) == 0 || &q.Required[0] == &o.Required[0])
	return same && q.Hip == o.Hip && q.Goal == o.Goal && q.Design == o.Design
}

func (q TargetQuestion) search() kinematics.Search {
	return kinematics.Search{
		Hip: q.Hip, Design: q.Design, Aperture: q.Aperture, Required: q.Required, Bounds: q.Goal.Bounds(q.Hip, q.Design),
	}
}

func (q TargetQuestion) simulation() kinematics.Simulation {
	return kinematics.Simulation{Search: q.search(), Scatter: q.Goal.Scatter(), Seed: placementSeed}
}

// placementSeed makes every share the same from one start to the next.
const placementSeed = 1

// Part is a part of a target's answer. They are worked out in this order.
type Part int

const (
	AimPart   Part = iota // the best cup, and what the motions demand
	SharePart             // the share of placements about the cup as placed
	MostPart              // the cup position of the greatest share
	LayerPart             // the share over the map; only if asked for
	PartCount
)

// TargetAnswer is what was worked out so far: the parts before Known.
type TargetAnswer struct {
	Known Part

	Target kinematics.Target
	// Head and Neck are the smallest head and the widest neck that would serve
	// at the best position; HeadHere and NeckHere those where the cup is placed.
	Head, Neck, HeadHere, NeckHere kinematics.Needed

	Share kinematics.Share
	Most  kinematics.BestPlacement
	Layer kinematics.ShareMap
}

// Targets works out targets away from the goroutine that draws. A new question
// ends the work on the one before, but for the best cup, which is soon found:
// so something is shown while a slider is dragged.
type Targets struct {
	*Errand[targetJob]
	Layer bool // the share over the map is wanted

	post     func(func())
	known    func(TargetQuestion, TargetAnswer)
	progress func(part Part, done, all int)
	last     aimed
}

// aimed keeps the part that does not depend on how the cup is placed.
type aimed struct {
	q TargetQuestion
	a TargetAnswer
}

type targetJob struct {
	TargetQuestion
	layer bool
}

// NewTargets returns a solver. known is told of each part as it is found, and
// progress how far the next one is, both by post.
func NewTargets(post func(func()), known func(TargetQuestion, TargetAnswer), progress func(Part, int, int)) *Targets {
	t := &Targets{post: post, known: known, progress: progress}
	t.Errand = NewErrand(t.solve, post)
	return t
}

// Ask puts a question in place of those before.
func (t *Targets) Ask(q TargetQuestion) {
	q.Design.Name = ""
	t.Errand.Ask(targetJob{q, t.Layer})
}

func (t *Targets) solve(ctx context.Context, j targetJob) {
	a := t.aim(j.TargetQuestion)
	tell := func() {
		known := a
		t.post(func() { t.known(j.TargetQuestion, known) })
	}
	tell()
	if len(j.Required) == 0 || !Quiet(ctx) {
		return
	}
	for part := SharePart; part < PartCount; part++ {
		if part == LayerPart && !j.layer {
			continue
		}
		if err := t.part(ctx, j, part, &a); err != nil {
			return // called off
		}
		a.Known = part + 1
		tell()
	}
}

// part works one part out. One processor is left to the window.
func (t *Targets) part(ctx context.Context, j targetJob, part Part, a *TargetAnswer) (err error) {
	s := j.simulation()
	s.Workers = max(1, runtime.GOMAXPROCS(0)-1)
	s.Progress = func(done, all int) {
		if step := max(1, all/steps); done%step == 0 || done == all {
			t.post(func() { t.progress(part, done, all) })
		}
	}
	switch part {
	case SharePart:
		s.Progress = nil
		a.Share, err = kinematics.Placement(ctx, s)
	case MostPart:
		if !round(j.Aperture) {
			s.Points, s.Randomisations = fewPoints, fewRandomisations
		}
		a.Most, err = kinematics.MostShare(ctx, s)
	case LayerPart:
		side := layerSide
		if !round(j.Aperture) {
			side = fewSide
		}
		a.Layer, err = kinematics.SurveyShare(ctx, s, kinematics.PlacementGrid(j.Design.Cup.Definition, j.Hip.CupPlane), side)
	}
	return err
}

// steps is about how many times a part tells how far it is.
const steps = 20

// layerSide is how many positions the share is worked out at along each side of
// the map.
const layerSide = 25

// Bearings that are not round take some fifty times as long: they are tried
// with fewer placements, at fewer positions.
const (
	fewPoints         = 64
	fewRandomisations = 8
	fewSide           = 13
)

func round(a *aperture.Aperture) bool {
	_, is := a.Theta()
	return is
}

// aim finds the best cup, which is the same wherever the cup is placed.
func (t *Targets) aim(q TargetQuestion) TargetAnswer {
	cup := q.Design.Cup
	free := q
	free.Design.Cup = kinematics.Cup{Definition: cup.Definition}
	s := q.search()
	if t.last.a.Known == AimPart+1 && t.last.q.Same(free) {
		a := t.last.a
		a.here(s, q)
		return a
	}
	a := TargetAnswer{Known: AimPart + 1}
	a.Target, _ = kinematics.FindTarget(context.Background(), s) // never ended, so never an error
	if a.Target.Asked && a.Target.Fits {
		best := a.Target.Constrained
		if !a.Target.Reachable {
			best = a.Target.Best
		}
		a.Head = kinematics.SmallestHead(s, best.Axis, 0)
		a.Neck = kinematics.WidestNeck(s, best.Axis, 0)
	}
	t.last = aimed{free, a}
	a.here(s, q)
	return a
}

// here finds the sizes that would serve where the cup is placed.
func (a *TargetAnswer) here(s kinematics.Search, q TargetQuestion) {
	if !a.Target.Asked {
		return
	}
	n := kinematics.Assemble(q.Hip, q.Design, q.Aperture).CupAxis()
	a.HeadHere = kinematics.SmallestHead(s, n, unit.Angle(0))
	a.NeckHere = kinematics.WidestNeck(s, n, unit.Angle(0))
}
