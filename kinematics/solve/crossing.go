// Package solve finds roots, minima and first crossings of functions of one
// number. It knows no anatomy.
package solve

import "math"

// Func is a continuous function of one number.
type Func func(x float64) float64

// Bound is what is known of a function beforehand: its slope is nowhere
// steeper than Slope. A function with a known slope cannot reach zero within
// |f|/Slope of where it stands, which is what makes a search certified.
type Bound struct {
	Slope float64 // greatest |df/dx|, above 0
	Zero  float64 // values at or below Zero count as zero (a touch is a contact)
}

// resolution is the smallest step of a certified search, as a share of the
// interval's scale: below the stated tolerance (1e-9°) and above rounding.
const resolution = 1e-13

// stall is how many small certified steps are taken before the search stops
// creeping and looks for the bottom of the valley instead.
const stall = 24

// FirstCrossing returns the least x in [a, b] at which f(x) ≤ bound.Zero, and
// whether there is one. It steps by f/Slope, so no dip, however narrow, is
// stepped over; where the steps stall it minimises f on the valley ahead (the
// valley is then so narrow that f is taken to be unimodal on it).
func FirstCrossing(f Func, a, b float64, bound Bound) (x float64, found bool) {
	c := crossing{f: f, end: b, bound: bound}
	return c.from(a)
}

type crossing struct {
	f     Func
	end   float64
	bound Bound
}

func (c *crossing) from(x float64) (float64, bool) {
	v := c.f(x)
	small := 0
	for {
		if v <= c.bound.Zero {
			return x, true
		}
		if !(x < c.end) { // also where f is not a number
			return x, false
		}
		step := (v - c.bound.Zero) / c.bound.Slope
		if step < c.near() {
			small++
		} else {
			small = 0
		}
		if small >= stall || step < resolution*c.scale() {
			var done bool
			if x, v, done = c.valley(x, v, step); done {
				return x, true
			}
			small = 0
			continue
		}
		x = math.Min(x+step, c.end)
		v = c.f(x)
	}
}

// near is the step below which the search is close to a crossing or a touch.
func (c *crossing) near() float64 { return 1e-4 }

func (c *crossing) scale() float64 { return math.Max(1, math.Abs(c.end)) }

// valley looks ahead of x by growing steps until f crosses zero or rises
// again. It returns the crossing (done), or a point past the valley's bottom.
func (c *crossing) valley(x, v, step float64) (float64, float64, bool) {
	h := math.Max(step, resolution*c.scale())
	lo, mid, vmid := x, x, v
	rising := false
	for {
		hi := math.Min(mid+h, c.end)
		vhi := c.f(hi)
		if vhi <= c.bound.Zero {
			return c.refine(mid, hi), c.bound.Zero, true
		}
		if vhi > vmid && lo == mid && hi < c.end && h < c.near() {
			rising, lo, mid, vmid = true, hi, hi, vhi // uphill from the start: no bottom here
			h *= 2
			continue
		}
		if rising {
			return hi, vhi, false
		}
		if vhi >= vmid || hi >= c.end {
			at, vat := Minimum(c.f, lo, hi)
			if vat <= c.bound.Zero {
				return c.refine(lo, at), c.bound.Zero, true
			}
			return hi, vhi, false
		}
		lo, mid, vmid = mid, hi, vhi
		h *= 2
	}
}

// refine closes in on the crossing between a free point and one in contact.
func (c *crossing) refine(free, contact float64) float64 {
	g := func(x float64) float64 { return c.f(x) - c.bound.Zero }
	return Root(g, free, contact)
}

// LeavesAt returns the first x in [a, b] at which f has risen above
// bound.Zero again, for leaving a contact interval; found is false when it
// stays at or below to the end.
func LeavesAt(f Func, a, b float64, bound Bound) (x float64, found bool) {
	inside := func(x float64) float64 { return bound.Zero - f(x) }
	return FirstCrossing(inside, a, b, Bound{Slope: bound.Slope, Zero: -tiny})
}

// tiny keeps a touch of a single point from being left and re-entered at once.
const tiny = 1e-15
