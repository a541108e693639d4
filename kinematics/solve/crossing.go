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

// firstStride is the first stride down a valley, as a share of the interval:
// above the rounding of f, so that uphill is told from downhill.
const firstStride = 1e-9

// Below a certified step of touchStep (as a share of the interval, which for a
// leg of 180° is 2e-5°) f is about to touch or cross, and creeping on would
// take for ever. The search then looks for the bottom of the valley within
// touchReach, and takes f to be unimodal there.
const (
	touchStep  = 1e-7
	touchReach = 1e-4
)

// FirstCrossing returns the least x in [a, b] at which f(x) ≤ bound.Zero, and
// whether there is one. It steps by f/Slope, so no dip, however narrow, is
// stepped over, but beside a touch (see touchStep), where it minimises f.
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
	for {
		if v <= c.bound.Zero {
			return x, true
		}
		if !(x < c.end) { // also where f is not a number
			return x, false
		}
		step := (v - c.bound.Zero) / c.bound.Slope
		if c.touching(v) {
			var done bool
			if x, v, done = c.valley(x, v, step); done {
				return x, true
			}
			continue
		}
		x = math.Min(x+step, c.end)
		v = c.f(x)
	}
}

// touching reports whether a value is so small that steps would creep.
func (c *crossing) touching(v float64) bool {
	return (v-c.bound.Zero)/c.bound.Slope < touchStep*c.scale()
}

func (c *crossing) scale() float64 { return math.Max(1, math.Abs(c.end)) }

// valley looks ahead of x by growing steps until f crosses zero or rises
// again. It returns the crossing (done), or a point past the valley's bottom.
func (c *crossing) valley(x, v, step float64) (float64, float64, bool) {
	h := math.Max(step, firstStride*c.scale())
	reach := x + touchReach*c.scale()
	lo, mid, vmid := x, x, v
	for {
		hi := math.Min(mid+h, c.end)
		vhi := c.f(hi)
		switch {
		case vhi <= c.bound.Zero:
			return c.refine(mid, hi), c.bound.Zero, true
		case vhi > vmid && lo < mid:
			if at, vat := Minimum(c.f, lo, hi); vat <= c.bound.Zero {
				return c.refine(lo, at), c.bound.Zero, true
			}
			return hi, vhi, false
		case vhi > vmid: // uphill from the start: no bottom here
			lo, mid, vmid = hi, hi, vhi
		default:
			lo, mid, vmid = mid, hi, vhi
		}
		if hi >= c.end || hi >= reach || lo == mid && !c.touching(vmid) {
			return mid, vmid, false
		}
		h *= 2
	}
}

// refine closes in on the crossing between a free point and one in contact, and
// returns the side in contact.
func (c *crossing) refine(free, contact float64) float64 {
	g := func(x float64) float64 { return c.f(x) - c.bound.Zero }
	x := Root(g, free, contact)
	for nudge := 4e-16 * c.scale(); g(x) > 0; nudge *= 2 {
		if x += nudge; x >= contact {
			return contact
		}
	}
	return x
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
