package kinematics

import (
	"cmp"
	"context"
	"math"
	"slices"
	"sync"

	"rimclear/kinematics/aperture"
	"rimclear/kinematics/unit"
)

// Simulation is placements of a design's cup and stem that scatter about where
// they were meant to be.
//
// A placement meets every criterion if all required motions are free and the
// stability minima of the bounds are kept; ranges of the bounds are for targets
// and not asked here.
type Simulation struct {
	Search
	Scatter        Scatter
	Seed           uint64
	Points         int // per randomisation, made a power of two; 0 means 512
	Randomisations int // 0 means 16
	Workers        int // 0 means as many as there are processors; the answer is the same
	// Progress, if given, is told from one goroutine at a time how much is done.
	Progress func(done, all int)
}

// Share is the share of simulated placements that meet every criterion in this
// model of rigid parts. It is no share of successes and no risk of dislocation.
type Share struct {
	Share         float64
	StandardError float64 // from independent randomisations, or of counting where hardly any placement differs
	Placements    int
	// First is, by requirement, the share of placements that fail with this
	// motion the worst: what would fail first. Short is the share in which the
	// motion is not free, whatever else is.
	First, Short []float64
	// Uncovered is the share that breaks a stability minimum.
	Uncovered float64
	// Margin is the worst margin at the target itself, Slope how it changes.
	Margin unit.Angle
	Slope  [VariableCount]Slope
}

// Slope is the derivative of the worst margin to a variable, in degrees per
// degree: towards greater and towards smaller values, which differ where
// another motion takes over.
type Slope struct{ Up, Down float64 }

// Usual sizes of a simulation.
const (
	usualPoints         = 512
	usualRandomisations = 16
)

func (s Simulation) points() int {
	n := 1
	for want := cmp.Or(s.Points, usualPoints); n < want; n *= 2 {
	}
	return n
}

// Placement returns the share of placements that meet every criterion, the same
// for any number of workers. The error is a scatter that cannot be, or the
// context's.
func Placement(ctx context.Context, s Simulation) (Share, error) {
	base, err := s.draw()
	if err != nil {
		return Share{}, err
	}
	runs, points := cmp.Or(s.Randomisations, usualRandomisations), s.points()
	tallies := make([]tally, runs)
	report := reporter(s.Progress, runs)
	err = share(ctx, s.Workers, runs, func() func(int) {
		d := base.copied()
		return func(r int) {
			tallies[r] = d.run(ctx, newSequence(s.Seed, r), points)
			if ctx.Err() == nil {
				report()
			}
		}
	})
	if err != nil {
		return Share{}, err
	}
	a := summed(tallies, points, len(s.Required))
	if s.Scatter.SD != (Scatter{}).SD {
		a.StandardError = max(a.StandardError, rare(a, runs))
	}
	a.Margin, a.Slope = base.slopes()
	return a, nil
}

// reporter counts what is done and tells.
func reporter(tell func(done, all int), all int) func() {
	if tell == nil {
		return func() {}
	}
	var lock sync.Mutex
	done := 0
	return func() {
		lock.Lock()
		defer lock.Unlock()
		done++
		tell(done, all)
	}
}

// tally counts the placements of one randomisation.
type tally struct {
	met, uncovered int
	first, short   []int
}

// summed adds up the randomisations.
func summed(list []tally, points, motions int) Share {
	a := Share{Placements: points * len(list), First: make([]float64, motions), Short: make([]float64, motions)}
	all := float64(a.Placements)
	for _, t := range list {
		a.Share += float64(t.met) / all
		a.Uncovered += float64(t.uncovered) / all
		for i := range motions {
			a.First[i] += float64(t.first[i]) / all
			a.Short[i] += float64(t.short[i]) / all
		}
	}
	sum := 0.0
	for _, t := range list {
		d := float64(t.met)/float64(points) - a.Share
		sum += d * d
	}
	if n := float64(len(list)); n > 1 {
		a.StandardError = math.Sqrt(sum / (n - 1) / n)
	}
	return a
}

// rare is the standard error of a share of which so few placements fall on one
// side, perhaps none, that randomisations cannot tell it: that of independent
// draws, by Laplace's rule of succession. 0 where there are enough.
func rare(a Share, runs int) float64 {
	n := float64(a.Placements)
	few := min(a.Share, 1-a.Share) * n
	if few >= float64(runs) {
		return 0
	}
	p := (few + 1) / (n + 2)
	return math.Sqrt(p * (1 - p) / n)
}

// draw makes the randomisation's placements one by one.
type draw struct {
	*trial
	fence  fence
	mix    mixing
	order  []int32      // pieces, of other bearings tracks, the farthest at the target first
	far    []unit.Angle // of each, in that order
	cos    float64      // below which a round bearing is in contact
	worst  []unit.Angle // by motion, of the placement at hand
	motion []int        // those touched

	// Of bearings that are not round.
	deepest unit.Angle // the worst margin of the placement at hand
	lasts   []hint     // by motion, where it last failed
	last    hint       // where any did
}

// draw returns the simulation at its target.
func (s Simulation) draw() (*draw, error) {
	mix, err := s.Scatter.mixing()
	if err != nil {
		return nil, err
	}
	ap := s.Aperture
	if ap == nil {
		ap = aperture.Build(s.Design.Rim, s.Design.Neck)
	}
	d := &draw{trial: newTrial(s.Hip, s.Design, ap, s.Required), fence: newFence(s.Hip, s.Design, s.Bounds), mix: mix}
	d.cos = cosine(d.theta)
	d.worst = make([]unit.Angle, len(s.Required))
	d.arrange()
	return d, nil
}

// arrange puts the pieces in the order in which they fail at the target, or the
// tracks.
func (d *draw) arrange() {
	p := d.place(deviation{})
	s := d.see(p.axis)
	all := make([]unit.Angle, len(d.piece))
	for i := range d.piece {
		all[i] = unit.Angle(acos(d.arc[i].Least(s[d.piece[i].zero])))
	}
	if !d.round {
		all = d.tracks.farthest(d.Demand, all)
		d.lasts = d.tracks.begin(len(d.list))
	}
	d.order = make([]int32, len(all))
	for i := range d.order {
		d.order[i] = int32(i)
	}
	slices.SortStableFunc(d.order, func(a, b int32) int { return cmp.Compare(all[b], all[a]) })
	d.far = make([]unit.Angle, len(all))
	for k, i := range d.order {
		d.far[k] = all[i]
	}
}

// copied returns a draw for another worker.
func (d *draw) copied() *draw {
	c, t := *d, *d.trial
	t.Demand = d.Demand.copied()
	c.trial, c.worst, c.motion = &t, make([]unit.Angle, len(d.worst)), nil
	c.lasts = slices.Clone(d.lasts)
	return &c
}

// run tallies the placements of one randomisation.
func (d *draw) run(ctx context.Context, q sequence, points int) tally {
	t := tally{first: make([]int, len(d.worst)), short: make([]int, len(d.worst))}
	for i := range points {
		if i%64 == 0 && ctx.Err() != nil {
			return t
		}
		z := q.normals(uint32(i))
		d.count(d.mix.of(&z), &t)
	}
	return t
}

// count tallies one placement.
func (d *draw) count(v deviation, t *tally) {
	p := d.place(v)
	d.judge(&p)
	first := -1
	for _, m := range d.motion {
		t.short[m]++
		if first < 0 || d.worst[m] < d.worst[first] || d.worst[m] == d.worst[first] && m < first {
			first = m
		}
	}
	if first >= 0 {
		t.first[first]++
	}
	covered := d.covers(&p)
	if !covered {
		t.uncovered++
	}
	if first < 0 && covered {
		t.met++
	}
}

// covers reports whether the stability minima are kept.
func (d *draw) covers(p *placed) bool {
	if d.fence.LeastJump <= 0 && d.fence.LeastPatch <= 0 {
		return true
	}
	f := d.fence
	f.load = f.Load.InAPP(p.tilts)
	f.cupPlane = p.tilts.APPFromPlane(d.h.CupPlane)
	return f.coverExcess(p.axis) <= 0
}

// slopes returns the worst margin at the target and its derivatives.
func (d *draw) slopes() (unit.Angle, [VariableCount]Slope) {
	var list [VariableCount]Slope
	if d.Empty() {
		return 180 * unit.Degree, list
	}
	const h = 0.02 * unit.Degree
	c := d.copied()
	at := c.least(deviation{})
	for i := range VariableCount {
		var v deviation
		v[i] = h
		list[i].Up = float64((c.least(v) - at) / h)
		v[i] = -h
		list[i].Down = float64((at - c.least(v)) / h)
	}
	return at, list
}
