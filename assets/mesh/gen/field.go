package main

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// field is a body: negative inside, positive outside, about the distance to
// its surface in mm.
type field func(p r3.Vec) float64

func at(x, y, z float64) r3.Vec { return r3.Vec{X: x, Y: y, Z: z} }

// knob is a ball of a chain: centre and radius.
type knob struct {
	c r3.Vec
	r float64
}

func ball(c r3.Vec, r float64) field {
	return func(p r3.Vec) float64 { return r3.Norm(r3.Sub(p, c)) - r }
}

// egg is an ellipsoid with half axes along X, Y, Z.
func egg(c, half r3.Vec) field {
	return func(p r3.Vec) float64 {
		q := r3.Sub(p, c)
		k := r3.Norm(at(q.X/half.X, q.Y/half.Y, q.Z/half.Z))
		g := r3.Norm(at(q.X/(half.X*half.X), q.Y/(half.Y*half.Y), q.Z/(half.Z*half.Z)))
		if g == 0 {
			return -min(half.X, half.Y, half.Z)
		}
		return k * (k - 1) / g
	}
}

// horn is a rod whose radius runs from a's to b's, with round ends.
func horn(a, b knob) field {
	axis := r3.Sub(b.c, a.c)
	l2 := r3.Dot(axis, axis)
	return func(p r3.Vec) float64 {
		t := math.Min(1, math.Max(0, r3.Dot(r3.Sub(p, a.c), axis)/l2))
		return r3.Norm(r3.Sub(p, r3.Add(a.c, r3.Scale(t, axis)))) - (a.r + t*(b.r-a.r))
	}
}

// chain is a rod along a smooth curve through the knobs.
func chain(knobs ...knob) field {
	var parts []field
	for i := range len(knobs) - 1 {
		const steps = 5
		last := knobs[i]
		for k := 1; k <= steps; k++ {
			next := along(knobs, i, float64(k)/steps)
			parts = append(parts, horn(last, next))
			last = next
		}
	}
	return func(p r3.Vec) float64 {
		d := math.Inf(1)
		for _, f := range parts {
			d = math.Min(d, f(p))
		}
		return d
	}
}

// along is the knob a share u of the way from knob i to the next, on a
// Catmull-Rom curve.
func along(knobs []knob, i int, u float64) knob {
	b, c := knobs[i], knobs[i+1]
	a, d := knobs[max(i-1, 0)], knobs[min(i+2, len(knobs)-1)]
	mix := func(a, b, c, d float64) float64 {
		return b + u/2*(c-a+u*(2*a-5*b+4*c-d+u*(3*(b-c)+d-a)))
	}
	return knob{
		at(mix(a.c.X, b.c.X, c.c.X, d.c.X), mix(a.c.Y, b.c.Y, c.c.Y, d.c.Y), mix(a.c.Z, b.c.Z, c.c.Z, d.c.Z)),
		mix(a.r, b.r, c.r, d.r),
	}
}

// strap is a chain flattened along the unit vector n: its thickness is a share
// flat of its width.
func strap(n r3.Vec, flat float64, knobs ...knob) field {
	stretch := func(p r3.Vec) r3.Vec { return r3.Add(p, r3.Scale((1/flat-1)*r3.Dot(p, n), n)) }
	for i := range knobs {
		knobs[i].c = stretch(knobs[i].c)
	}
	f := chain(knobs...)
	return func(p r3.Vec) float64 { return f(stretch(p)) * flat }
}

// half is everything on the far side of a plane through c, against n.
func half(c, n r3.Vec) field {
	return func(p r3.Vec) float64 { return r3.Dot(r3.Sub(p, c), n) }
}

// melt is the smaller of a and b, rounded over a width k (a quadratic fillet).
func melt(a, b, k float64) float64 {
	h := math.Max(k-math.Abs(a-b), 0)
	return math.Min(a, b) - h*h/(4*k)
}

// blend joins bodies with fillets of width k.
func blend(k float64, parts ...field) field {
	return func(p r3.Vec) float64 {
		d := parts[0](p)
		for _, f := range parts[1:] {
			d = melt(d, f(p), k)
		}
		return d
	}
}

// carve takes body b out of a, rounding the lip over a width k.
func carve(k float64, a, b field) field {
	return func(p r3.Vec) float64 { return -melt(-a(p), b(p), k) }
}

// within keeps the part of a that lies in b.
func within(k float64, a, b field) field {
	return func(p r3.Vec) float64 { return -melt(-a(p), -b(p), k) }
}

// gradient returns the unit outward direction of the field at p.
func (f field) gradient(p r3.Vec) r3.Vec {
	const h = 0.25
	g := at(
		f(at(p.X+h, p.Y, p.Z))-f(at(p.X-h, p.Y, p.Z)),
		f(at(p.X, p.Y+h, p.Z))-f(at(p.X, p.Y-h, p.Z)),
		f(at(p.X, p.Y, p.Z+h))-f(at(p.X, p.Y, p.Z-h)))
	if n := r3.Norm(g); n > 0 {
		return r3.Scale(1/n, g)
	}
	return at(0, 1, 0)
}

// table is a smooth function through points of rising argument (a monotone
// cubic, Fritsch and Carlson 1980), constant beyond them.
type table [][2]float64

func (t table) at(x float64) float64 {
	n := len(t)
	if x <= t[0][0] {
		return t[0][1]
	}
	if x >= t[n-1][0] {
		return t[n-1][1]
	}
	i := 0
	for t[i+1][0] < x {
		i++
	}
	h := t[i+1][0] - t[i][0]
	u := (x - t[i][0]) / h
	m0, m1 := t.slope(i)*h, t.slope(i+1)*h
	u2, u3 := u*u, u*u*u
	return (2*u3-3*u2+1)*t[i][1] + (u3-2*u2+u)*m0 + (3*u2-2*u3)*t[i+1][1] + (u3-u2)*m1
}

// slope returns the tangent at point i: the harmonic mean of the secants, 0 at
// an extremum and at the ends.
func (t table) slope(i int) float64 {
	if i == 0 || i == len(t)-1 {
		return 0
	}
	a := (t[i][1] - t[i-1][1]) / (t[i][0] - t[i-1][0])
	b := (t[i+1][1] - t[i][1]) / (t[i+1][0] - t[i][0])
	if a*b <= 0 {
		return 0
	}
	return 2 * a * b / (a + b)
}
