package view

import (
	"context"
	"math"
	"runtime"
	"slices"
	"sync"
	"time"

	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
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

// compareJob is a question with what calls off its second part.
type compareJob struct {
	compareQuestion
	ctx context.Context
}

// comparer compares designs away from the goroutine that draws: first limits
// and motions, then, when it is quiet, the share of placements.
type comparer struct {
	latest *session.Latest[compareJob, struct{}]
	post   func(func())
	known  func(compareKey, []present.Rival)

	mu   sync.Mutex
	stop context.CancelFunc

	// The answers of the last question: a design that has not changed since is
	// not worked out again. Only solve looks here, of which one runs at a time.
	last   compareKey
	rivals []present.Rival
}

func newComparer(post func(func()), known func(compareKey, []present.Rival)) *comparer {
	c := &comparer{post: post, known: known}
	c.latest = session.NewLatest(c.solve, post, func(compareJob, struct{}) {})
	return c
}

// Ask puts a question in place of those before.
func (c *comparer) Ask(q compareQuestion) {
	c.Stop()
	ctx, stop := context.WithCancel(context.Background())
	c.mu.Lock()
	c.stop = stop
	c.mu.Unlock()
	c.latest.Ask(compareJob{q, ctx})
}

// Stop ends the work on placements.
func (c *comparer) Stop() {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.stop != nil {
		c.stop()
		c.stop = nil
	}
}

// Close ends all work.
func (c *comparer) Close() {
	c.Stop()
	c.latest.Close()
}

func (c *comparer) solve(j compareJob) struct{} {
	list := make([]present.Rival, j.key.count)
	for i := range list {
		if i < len(c.rivals) && j.key.sameDesign(&c.last, i) {
			list[i] = c.rivals[i]
			continue
		}
		list[i] = rivalOf(&j.compareQuestion, i)
	}
	c.last, c.rivals = j.key, list
	tell := func() {
		now := slices.Clone(list)
		c.post(func() { c.known(j.key, now) })
	}
	tell()
	if len(j.required) == 0 || !quietFor(j.ctx, comparePause) {
		return struct{}{}
	}
	for i := range list {
		if list[i].Shared {
			continue
		}
		s, err := shareOf(j.ctx, &j.compareQuestion, i)
		if err != nil {
			break // called off
		}
		list[i].Share, list[i].Shared = s, true
		tell()
	}
	return struct{}{}
}

// comparePause is how long nothing must have changed before placements are
// simulated, which takes all the time there is.
const comparePause = 250 * time.Millisecond

// quietFor waits, and reports whether the question still stands.
func quietFor(ctx context.Context, d time.Duration) bool {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-t.C:
		return true
	}
}

// rivalOf works out what is compared of the i-th design.
func rivalOf(q *compareQuestion, i int) present.Rival {
	d, j := q.key.designs[i], q.joints[i]
	r := present.Rival{Letter: present.Letter(i), Ratio: d.HeadNeckRatio()}
	r.Theta, r.Round = j.Aperture.Theta()
	for _, question := range present.ComparedQuestions {
		r.Answers = append(r.Answers, j.Answer(q.key.hip, question))
	}
	r.Doubt = doubtOf(q.key.hip, d, j.Aperture, q.key.goal.SD)
	r.Verdict = j.Judge(q.required, q.key.goal.Closeness)
	r.Jump = j.Stability(d, kinematics.Loads[0], kinematics.CobaltChrome).LeastJump
	return r
}

// placedBy are the variables that placement errs in; tilt is the patient's.
var placedBy = [...]struct {
	variable kinematics.Variable
	of       func(*kinematics.Design) *unit.Angle
}{
	{kinematics.CupInclination, func(d *kinematics.Design) *unit.Angle { return &d.Cup.Inclination }},
	{kinematics.CupAnteversion, func(d *kinematics.Design) *unit.Angle { return &d.Cup.Anteversion }},
	{kinematics.StemAnteversion, func(d *kinematics.Design) *unit.Angle { return &d.Stem.Anteversion }},
}

// doubtOf returns by how much one standard deviation of placement alone moves
// each limit: the root of the sum of the squares of what each variable does, one
// deviation to either side.
func doubtOf(h kinematics.Hip, d kinematics.Design, ap *aperture.Aperture, sd [kinematics.VariableCount]unit.Angle) []unit.Angle {
	sums := make([]float64, len(present.ComparedQuestions))
	for _, v := range placedBy {
		step := sd[v.variable]
		if step == 0 {
			continue
		}
		low, high := d, d
		*v.of(&low) -= step
		*v.of(&high) += step
		a, b := kinematics.Assemble(h, low, ap), kinematics.Assemble(h, high, ap)
		for k, q := range present.ComparedQuestions {
			half := float64(b.Answer(h, q).Reading-a.Answer(h, q).Reading) / 2
			sums[k] += half * half
		}
	}
	doubt := make([]unit.Angle, len(sums))
	for k, s := range sums {
		doubt[k] = unit.Angle(math.Sqrt(s))
	}
	return doubt
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
