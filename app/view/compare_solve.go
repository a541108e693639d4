package view

import (
	"context"
	"runtime"
	"slices"

	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
)

// compareKey is all that a comparison depends on.
type compareKey struct {
	hip      kinematics.Hip
	goal     kinematics.Goal
	designs  [kinematics.MaxDesigns]kinematics.Design
	count    int
	required *motion.Requirement // the first of the list, which stays while the case asks for the same
}

// sameDesign reports whether the i-th design has the same answers under two
// keys.
func (k *compareKey) sameDesign(o *compareKey, i int) bool {
	return k.hip == o.hip && k.goal == o.goal && k.required == o.required && k.designs[i] == o.designs[i]
}

type compareQuestion struct {
	key      compareKey
	required []motion.Requirement
	joints   []kinematics.Joint
}

// comparer compares designs away from the goroutine that draws: first limits
// and motions, then, when it is quiet, the share of placements.
type comparer struct {
	*session.Errand[compareQuestion]
	post  func(func())
	known func(compareKey, []present.Rival)

	// The answers of the last question: a design that has not changed since is
	// not worked out again. Only solve looks here, of which one runs at a time.
	last   compareKey
	rivals []present.Rival
}

func newComparer(post func(func()), known func(compareKey, []present.Rival)) *comparer {
	c := &comparer{post: post, known: known}
	c.Errand = session.NewErrand(c.solve, post)
	return c
}

func (c *comparer) solve(ctx context.Context, q compareQuestion) {
	list := make([]present.Rival, q.key.count)
	for i := range list {
		if i < len(c.rivals) && q.key.sameDesign(&c.last, i) {
			list[i] = c.rivals[i]
			continue
		}
		list[i] = rivalOf(&q, i)
	}
	c.last, c.rivals = q.key, list
	tell := func() {
		now := slices.Clone(list)
		c.post(func() { c.known(q.key, now) })
	}
	tell()
	if len(q.required) == 0 || !session.Quiet(ctx) {
		return
	}
	for i := range list {
		if list[i].Shared {
			continue
		}
		s, err := shareOf(ctx, &q, i)
		if err != nil {
			return // called off
		}
		list[i].Share, list[i].Shared = s, true
		tell()
	}
}

// rivalOf works out what is compared of the i-th design.
func rivalOf(q *compareQuestion, i int) present.Rival {
	d, j := q.key.designs[i], q.joints[i]
	verdict := j.Judge(q.required, q.key.goal.Closeness)
	r := present.RivalOf(present.Letter(i), d, j, verdict, func(question kinematics.Question) kinematics.Answer {
		return j.Answer(q.key.hip, question)
	})
	r.Doubt = present.DoubtOf(q.key.hip, d, j.Aperture, q.key.goal.SD)
	return r
}

// Placements of shapes that are not round are fewer: each takes some fifty
// times as long.
const (
	fewPlacements     = 64
	fewRandomisations = 8
)

// shareOf simulates placements of the i-th design. One processor is left to the
// window.
func shareOf(ctx context.Context, q *compareQuestion, i int) (kinematics.Share, error) {
	d := q.key.designs[i]
	s := kinematics.Simulation{
		Search: kinematics.Search{Hip: q.key.hip, Design: d, Aperture: q.joints[i].Aperture, Required: q.required,
			Bounds: q.key.goal.Bounds(q.key.hip, d)},
		Scatter: q.key.goal.Scatter(), Seed: 1, Workers: max(1, runtime.GOMAXPROCS(0)-1),
	}
	if _, round := q.joints[i].Aperture.Theta(); !round {
		s.Points, s.Randomisations = fewPlacements, fewRandomisations
	}
	return kinematics.Placement(ctx, s)
}
