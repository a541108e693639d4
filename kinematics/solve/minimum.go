package solve

import "math"

// golden is the share of an interval cut off by a golden-section step.
const golden = 0.3819660112501051

// Minimum returns the place and value of the least f on [a, b], where f falls
// and then rises, by parabolas safeguarded with golden section (Brent's
// method). The place is good to about 1e-7 of the interval, the value to
// rounding where the bottom is flat.
func Minimum(f Func, a, b float64) (x, v float64) {
	tol := 1e-7 * (b - a)
	x = a + golden*(b-a)
	v = f(x)
	w, u := x, x // second and third best places so far
	fw, fu := v, v
	var d, e float64
	for range 100 {
		m := (a + b) / 2
		if math.Abs(x-m) <= 2*tol-(b-a)/2 {
			break
		}
		step, ok := parabola(x, w, u, v, fw, fu)
		if ok && math.Abs(e) > tol && math.Abs(step) < math.Abs(e)/2 && x+step > a && x+step < b {
			e, d = d, step
			if y := x + d; y-a < 2*tol || b-y < 2*tol {
				d = math.Copysign(tol, m-x)
			}
		} else {
			e = b - x
			if x >= m {
				e = a - x
			}
			d = golden * e
		}
		if math.Abs(d) < tol {
			d = math.Copysign(tol, d)
		}
		y := x + d
		fy := f(y)
		if fy <= v {
			if y >= x {
				a = x
			} else {
				b = x
			}
			u, w, x = w, x, y
			fu, fw, v = fw, v, fy
			continue
		}
		if y < x {
			a = y
		} else {
			b = y
		}
		if fy <= fw || w == x {
			u, w = w, y
			fu, fw = fw, fy
		} else if fy <= fu || u == x || u == w {
			u, fu = y, fy
		}
	}
	return x, v
}

// parabola returns the step from x to the bottom of the parabola through three
// points, and whether it has one.
func parabola(x, w, u, fx, fw, fu float64) (float64, bool) {
	r := (x - w) * (fx - fu)
	q := (x - u) * (fx - fw)
	p := (x-u)*q - (x-w)*r
	q = 2 * (q - r)
	if q == 0 {
		return 0, false
	}
	return -p / q, true
}
