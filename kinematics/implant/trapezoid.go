package implant

import (
	"math"

	"rimclear/kinematics/unit"
)

// Trapezoid is a neck section with four rounded corners, symmetrical about the
// superior direction across the neck: Width from its superior to its inferior
// side, Superior and Inferior the widths of those sides, Corner the radius of
// its corners, all in mm. Roll turns it as an Oval's does.
type Trapezoid struct {
	Width, Superior, Inferior float64 // mm
	Corner                    float64 // mm
	Roll                      unit.Angle
}

// Present reports whether the neck is trapezoidal.
func (t Trapezoid) Present() bool { return t.Width != 0 || t.Superior != 0 || t.Inferior != 0 }

// Sound reports whether the sides are long enough for the corners.
func (t Trapezoid) Sound() bool {
	up, down, half := t.inner()
	return t.Width > 0 && t.Superior > 0 && t.Inferior > 0 && t.Corner >= 0 && half >= 0 && up >= 0 && down >= 0
}

// inner returns the half sides at the superior and inferior end and the half
// width of the trapezoid that the corners' centres form.
func (t Trapezoid) inner() (up, down, half float64) {
	half = t.Width/2 - t.Corner
	lean := (t.Inferior - t.Superior) / 2 / t.Width // of the slanting sides, per mm of width
	side := func(x float64) float64 {               // half side at x towards inferior from the middle
		return (t.Superior+t.Inferior)/4 + lean*x - t.Corner*math.Hypot(1, lean)
	}
	return side(-half), side(half), half
}

// radius returns how far the ray at azimuth psi runs inside the section: the
// farthest point of it within Corner of the inner trapezoid.
func (t Trapezoid) radius(psi unit.Angle) float64 {
	s, c := (psi - t.Roll).Sincos()
	up, down, half := t.inner()
	corner := [4][2]float64{{half, up}, {-half, down}, {-half, -down}, {half, -up}}
	best := 0.0
	for i, p := range corner {
		best = math.Max(best, rayToCircle(c, s, p[0], p[1], t.Corner))
		q := corner[(i+1)%4]
		best = math.Max(best, rayToSide(c, s, p, q, t.Corner))
	}
	return best
}

// rayToCircle returns the far meeting of a ray from the origin with a circle,
// 0 if there is none.
func rayToCircle(c, s, x, y, r float64) float64 {
	b := c*x + s*y
	d := b*b - (x*x + y*y - r*r)
	if d < 0 {
		return 0
	}
	return b + math.Sqrt(d)
}

// rayToSide returns where a ray from the origin meets the side p→q moved
// outwards by r, 0 if it passes beside it.
func rayToSide(c, s float64, p, q [2]float64, r float64) float64 {
	dx, dy := q[0]-p[0], q[1]-p[1]
	length := math.Hypot(dx, dy)
	if length == 0 {
		return 0
	}
	nx, ny := -dy/length, dx/length
	if nx*(p[0]+q[0])+ny*(p[1]+q[1]) < 0 {
		nx, ny = -nx, -ny
	}
	toward := nx*c + ny*s
	if toward <= 0 {
		return 0
	}
	at := (nx*p[0] + ny*p[1] + r) / toward
	along := ((at*c-p[0])*dx + (at*s-p[1])*dy) / (length * length)
	if along < 0 || along > 1 {
		return 0
	}
	return at
}
