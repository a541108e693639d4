package kinematics

import (
	"cmp"
	"context"

	"rimclear/kinematics/unit"
)

// BestPlacement is the cup position at which the greatest share of placements
// meets every criterion.
type BestPlacement struct {
	Cup   Cup // in the design's definition and the hip's cup plane
	Share Share
}

// Steps of the search for it: a grid, then neighbours at ever smaller
// distances.
const (
	coarseStep   = 5 * unit.Degree
	finestStep   = 0.5 * unit.Degree
	coarsePoints = 64 // per randomisation, for the grid
	coarseRuns   = 4
)

// Where it is looked for if the bounds give no ranges.
var (
	usualInclination = spanOf(20, 70)
	usualAnteversion = spanOf(-10, 50)
)

// MostShare looks for the cup position at which the share is greatest, within
// the ranges of the bounds, which are read in the design's definition and the
// hip's cup plane. All positions are tried with the same deviations, so they
// differ by what they are and not by chance; positions whose shares lie within
// a standard error of each other cannot be told apart.
func MostShare(ctx context.Context, s Simulation) (BestPlacement, error) {
	is, as := s.Bounds.Inclination.Within(usualInclination), s.Bounds.Anteversion.Within(usualAnteversion)
	base, err := s.draw()
	if err != nil {
		return BestPlacement{}, err
	}
	var grid []Spot
	for i := is.Least; i <= is.Most+1e-9; i += coarseStep {
		for a := as.Least; a <= as.Most+1e-9; a += coarseStep {
			grid = append(grid, Spot{i, a})
		}
	}
	report := reporter(s.Progress, len(grid)+1)
	best, err := base.best(ctx, s, grid, coarseRuns, coarsePoints, report)
	if err != nil {
		return BestPlacement{}, err
	}
	runs, points := cmp.Or(s.Randomisations, usualRandomisations), s.points()
	for step := coarseStep / 2; step >= finestStep/2 && err == nil; step /= 2 {
		best, err = base.climb(ctx, s, best, step, is, as, runs, points)
	}
	if err != nil {
		return BestPlacement{}, err
	}
	s.Design.Cup.Inclination, s.Design.Cup.Anteversion = best.Across, best.Up
	s.Progress = nil
	b := BestPlacement{Cup: s.Design.Cup}
	b.Share, err = Placement(ctx, s)
	report()
	return b, err
}

// best returns the position that meets the criteria most often; of equals, the
// first.
func (d *draw) best(ctx context.Context, s Simulation, list []Spot, runs, points int, report func()) (Spot, error) {
	met := make([]int, len(list))
	err := share(ctx, s.Workers, len(list), func() func(int) {
		own := d.copied()
		return func(i int) {
			met[i] = own.met(list[i], s.Seed, runs, points)
			report()
		}
	})
	at := 0
	for i, n := range met {
		if n > met[at] {
			at = i
		}
	}
	return list[at], err
}

// met counts the placements about a position that meet every criterion.
func (d *draw) met(at Spot, seed uint64, runs, points int) int {
	n := 0
	for r := range runs {
		q := newSequence(seed, r)
		for i := range points {
			z := q.normals(uint32(i))
			p := d.placeAt(at.Across, at.Up, d.mix.of(&z))
			if d.serves(&p) && d.covers(&p) {
				n++
			}
		}
	}
	return n
}

// climb goes on to the best neighbour until none is better.
func (d *draw) climb(ctx context.Context, s Simulation, at Spot, step unit.Angle, is, as Range, runs, points int) (Spot, error) {
	for range 20 {
		list := []Spot{at}
		for i := -1; i <= 1; i++ {
			for a := -1; a <= 1; a++ {
				n := Spot{at.Across + unit.Angle(i)*step, at.Up + unit.Angle(a)*step}
				if n != at && is.excess(n.Across) <= 1e-9 && as.excess(n.Up) <= 1e-9 {
					list = append(list, n)
				}
			}
		}
		next, err := d.best(ctx, s, list, runs, points, func() {})
		if err != nil || next == at {
			return at, err
		}
		at = next
	}
	return at, nil
}
