package kinematics

import (
	"context"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/unit"
)

// broken is what a position costs that breaks the bounds, more than any angle;
// the excess is added, so that a search is led back to them.
const broken = 10

// seek returns the position within the bounds at which the farthest demanded
// direction is nearest, for a round bearing. The greatest angle to a set, and
// the excess over the bounds, fall and then rise along the lines of the search,
// so golden section finds the bottom of each, and of the bottoms. A grid guards
// against a valley that is missed.
func (t *trial) seek(f *fence) (r3.Vec, bool) {
	cost := func(i, a unit.Angle) float64 {
		n := f.axis(i, a)
		if e := f.excess(n); e > 0 {
			return broken + e
		}
		s := t.see(n)
		c, _ := t.least(&s)
		return acos(c)
	}
	// A bound's own edge counts as within: rounding must not exclude it.
	wide := *f
	wide.loosen(1e-12)
	f = &wide
	is, as := f.Inclination.Within(allInclination), f.Anteversion.Within(allAnteversion)
	i, a, v := valley(cost, is, as)
	for _, near := range starts(cost, is, as, v) {
		if ni, na, nv := valley(cost, near[0], near[1]); nv < v-1e-12 {
			i, a, v = ni, na, nv
		}
	}
	return f.axis(i, a), v < broken
}

// loosen widens the ranges by a little.
func (f *fence) loosen(by unit.Angle) {
	for _, r := range [2]*Range{&f.Inclination, &f.Anteversion} {
		if r.Present() {
			r.Least, r.Most = r.Least-by, r.Most+by
		}
	}
}

// valley returns the least cost over a box by golden section within golden
// section.
func valley(cost func(i, a unit.Angle) float64, is, as Range) (i, a unit.Angle, v float64) {
	down := func(i unit.Angle) (unit.Angle, float64) {
		return golden(as, func(a unit.Angle) float64 { return cost(i, a) })
	}
	i, _ = golden(is, func(i unit.Angle) float64 {
		_, v := down(i)
		return v
	})
	a, v = down(i)
	return i, a, v
}

// golden returns the place and value of the least f on a range, its ends
// included, where f falls and then rises.
func golden(r Range, f func(unit.Angle) float64) (x unit.Angle, v float64) {
	const g = 0.6180339887498949
	a, b := r.Least, r.Most
	c, d := b-g*(b-a), a+g*(b-a)
	fc, fd := f(c), f(d)
	for b-a > 1e-11 {
		if fc < fd {
			b, d, fd = d, c, fc
			c = b - g*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + g*(b-a)
			fd = f(d)
		}
	}
	x, v = c, fc
	for _, y := range [3]unit.Angle{d, r.Least, r.Most} {
		if w := f(y); w < v {
			x, v = y, w
		}
	}
	return x, v
}

// starts returns boxes about grid positions that cost less than v: none if the
// search has found the least valley.
func starts(cost func(i, a unit.Angle) float64, is, as Range, v float64) [][2]Range {
	const step = 3 * unit.Degree
	var list [][2]Range
	for i := is.Least; i <= is.Most; i += step {
		for a := as.Least; a <= as.Most; a += step {
			if w := cost(i, a); w < v-1e-12 {
				v = w
				list = append(list[:0], [2]Range{
					{max(is.Least, i-step), min(is.Most, i+step)}, {max(as.Least, a-step), min(as.Most, a+step)}})
			}
		}
	}
	return list
}

// otherTarget answers for bearings that are not round: a grid over cup
// positions, then a search about the best of it.
func (t *trial) otherTarget(ctx context.Context, f *fence, a Target) (Target, error) {
	free := *f
	free.Bounds = Bounds{Definition: f.Definition, Plane: f.Plane}
	n, _ := t.climb(ctx, &free)
	if ctx.Err() != nil {
		return a, ctx.Err()
	}
	a.Best = t.aim(f, n)
	a.Constrained, a.Reachable = a.Best, true
	if a.Bounded && f.excess(n) > 0 {
		if n, a.Reachable = t.climb(ctx, f); a.Reachable {
			a.Constrained = t.aim(f, n)
		}
	}
	return a, ctx.Err()
}

// summit is a cup position on the way up.
type summit struct {
	i, a  unit.Angle
	value float64 // the worst margin, or less than any where the bounds are broken
}

// climb returns the cup position of greatest worst margin within the bounds.
func (t *trial) climb(ctx context.Context, f *fence) (r3.Vec, bool) {
	const step = 4 * unit.Degree
	is, as := f.Inclination.Within(allInclination), f.Anteversion.Within(allAnteversion)
	last := hint{}
	value := func(i, a unit.Angle, floor float64) float64 {
		n := f.axis(max(is.Least, min(is.Most, i)), max(as.Least, min(as.Most, a)))
		if e := f.excess(n); e > 1e-12 {
			return -broken - e
		}
		return float64(t.search(n, &last, unit.Angle(floor)).Margin)
	}
	tops := t.survey(ctx, is, as, step, value)
	best := summit{value: math.Inf(-1)}
	for _, s := range tops {
		if s = ascend(ctx, s, step/2, value); s.value > best.value {
			best = s
		}
	}
	i, a := max(is.Least, min(is.Most, best.i)), max(as.Least, min(as.Most, best.a))
	return f.axis(i, a), best.value > -broken
}

// height is the value of a position, or some value of floor or less if it is no
// more.
type height func(i, a unit.Angle, floor float64) float64

// survey returns the best positions of a grid, at most four, apart from each
// other.
func (t *trial) survey(ctx context.Context, is, as Range, step unit.Angle, value height) []summit {
	var tops []summit
	for i := is.Least; i <= is.Most+1e-9; i += step {
		for a := as.Least; a <= as.Most+1e-9; a += step {
			if ctx.Err() != nil {
				return tops
			}
			tops = keep(tops, summit{i, a, value(i, a, lowest(tops))}, 1.5*step)
		}
	}
	return tops
}

// mostTops is how many positions are kept.
const mostTops = 4

// lowest returns the value that a position must exceed to be kept.
func lowest(tops []summit) float64 {
	if len(tops) < mostTops {
		return math.Inf(-1)
	}
	low := tops[0].value
	for _, s := range tops[1:] {
		low = min(low, s.value)
	}
	return low
}

// keep adds a position to a list of the best that lie apart.
func keep(tops []summit, s summit, apart unit.Angle) []summit {
	for k, o := range tops {
		if (s.i-o.i).Abs() < apart && (s.a-o.a).Abs() < apart {
			if s.value > o.value {
				tops[k] = s
			}
			return tops
		}
	}
	if len(tops) < mostTops {
		return append(tops, s)
	}
	low := 0
	for k := range tops {
		if tops[k].value < tops[low].value {
			low = k
		}
	}
	if s.value > tops[low].value {
		tops[low] = s
	}
	return tops
}

// ascend climbs from a position by steps in sixteen directions, made shorter
// where none leads up, to 0.005°.
func ascend(ctx context.Context, s summit, step unit.Angle, value height) summit {
	for step > 0.005*unit.Degree && ctx.Err() == nil {
		best := s
		for k := range 16 {
			sin, cos := (unit.Angle(k) * 22.5 * unit.Degree).Sincos()
			i, a := s.i+step*unit.Angle(cos), s.a+step*unit.Angle(sin)
			if v := value(i, a, best.value); v > best.value {
				best = summit{i, a, v}
			}
		}
		if best.value <= s.value {
			step /= 2
		}
		s = best
	}
	return s
}
