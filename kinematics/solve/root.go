package solve

import "math"

// Root returns a zero of f between a and b, where f has opposite signs, by
// bisection safeguarded inverse quadratic steps (Brent's method), to the last
// bits of x. If the signs are equal it returns the end nearer to zero.
func Root(f Func, a, b float64) float64 {
	fa, fb := f(a), f(b)
	if fa == 0 {
		return a
	}
	if fb == 0 {
		return b
	}
	if (fa > 0) == (fb > 0) {
		if math.Abs(fa) < math.Abs(fb) {
			return a
		}
		return b
	}
	c, fc := a, fa
	d := b - a
	e := d
	for range 200 {
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		tol := 4e-16 * math.Max(1, math.Abs(b))
		m := (c - b) / 2
		if math.Abs(m) <= tol || fb == 0 {
			return b
		}
		if math.Abs(e) < tol || math.Abs(fa) <= math.Abs(fb) {
			d, e = m, m
		} else {
			p, q := interpolate(a, b, c, fa, fb, fc, m)
			if 2*p < math.Min(3*m*q-math.Abs(tol*q), math.Abs(e*q)) {
				e, d = d, p/q
			} else {
				d, e = m, m
			}
		}
		a, fa = b, fb
		if math.Abs(d) > tol {
			b += d
		} else {
			b += math.Copysign(tol, m)
		}
		fb = f(b)
		if (fb > 0) == (fc > 0) {
			c, fc = a, fa
			d = b - a
			e = d
		}
	}
	return b
}

// interpolate gives the secant or inverse quadratic step p/q with q > 0 folded
// into the sign of p.
func interpolate(a, b, c, fa, fb, fc, m float64) (p, q float64) {
	s := fb / fa
	if a == c {
		p, q = 2*m*s, 1-s
	} else {
		q = fa / fc
		r := fb / fc
		p = s * (2*m*q*(q-r) - (b-a)*(r-1))
		q = (q - 1) * (r - 1) * (s - 1)
	}
	if p > 0 {
		q = -q
	} else {
		p = -p
	}
	return p, q
}
