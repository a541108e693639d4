package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Stem gives the illustrative shape of a stem below its neck, in the femur's
// frame: shaft along -Y, origin at the head centre, lengths in mm.
type Stem struct {
	// Neck is the unit direction from the head centre to the shaft.
	Neck r3.Vec
	// Axis is the distance along the neck at which the shaft's axis is met,
	// and Collar where the body of the stem begins.
	Axis, Collar float64
	// Length is from the collar to the tip along the shaft.
	Length float64
	// Width is the width of the body at the collar.
	Width float64
}

// UsualStem returns a stem of common proportions for a neck direction.
func UsualStem(neck r3.Vec) Stem {
	return Stem{Neck: r3.Unit(neck), Axis: 58, Collar: 32, Length: 125, Width: 30}
}

// Mesh returns the closed tapered body. Its sections are rounded rectangles in
// the plane of neck and shaft; its medial side bends from the neck into the
// shaft.
func (s Stem) Mesh() *Mesh {
	const rings, around = 18, 28
	shaft := r3.Scale(s.Axis, s.Neck)
	start := r3.Scale(s.Collar, s.Neck)
	lateral := r3.Unit(r3.Vec{X: s.Neck.X, Z: s.Neck.Z})
	down := r3.Vec{Y: -1}
	tip := r3.Vec{X: shaft.X, Y: start.Y - s.Length, Z: shaft.Z}
	section := func(t float64) (centre, across r3.Vec, half, thick float64) {
		// A quadratic curve from the collar through the bend to the shaft,
		// then straight to the tip.
		const bend = 0.42
		knee := r3.Vec{X: shaft.X, Y: shaft.Y + (start.Y-shaft.Y)*0.15, Z: shaft.Z}
		low := r3.Vec{X: shaft.X, Y: start.Y - s.Length*bend, Z: shaft.Z}
		heading := down
		if t < bend {
			u := t / bend
			centre = r3.Add(r3.Scale((1-u)*(1-u), start), r3.Add(r3.Scale(2*u*(1-u), knee), r3.Scale(u*u, low)))
			heading = r3.Unit(r3.Add(r3.Scale(1-u, r3.Sub(knee, start)), r3.Scale(u, r3.Sub(low, knee))))
		} else {
			u := (t - bend) / (1 - bend)
			centre = r3.Add(r3.Scale(1-u, low), r3.Scale(u, tip))
		}
		front := r3.Unit(r3.Cross(down, lateral))
		across = r3.Unit(r3.Cross(front, heading))
		if r3.Dot(across, lateral) < 0 {
			across = r3.Scale(-1, across)
		}
		taper := (1 - t)
		half = s.Width / 2 * (0.26 + 0.74*math.Pow(taper, 1.5))
		thick = s.Width / 2 * (0.24 + 0.26*taper)
		return
	}
	front := r3.Unit(r3.Cross(down, lateral))
	point := func(t float64, k int, scale float64) r3.Vec {
		centre, across, half, thick := section(t)
		cos, sin := turnAt((k+around)%around, around)
		x, z := squircle(cos, sin)
		return r3.Add(centre, r3.Add(r3.Scale(scale*half*x, across), r3.Scale(scale*thick*z, front)))
	}
	var d draft
	d.sheet(2, around, true, func(i, j int) r3.Vec { return point(0, -j, float64(1-i)) }, nil)
	d.sheet(rings+1, around, true, func(i, j int) r3.Vec { return point(1-float64(i)/rings, -j, 1) }, nil)
	d.sheet(5, around, true, func(i, j int) r3.Vec {
		sin, cos := math.Sincos(math.Pi / 2 * float64(i) / 4)
		if i == 0 {
			sin, cos = 0, 1
		}
		p := point(1, -j, sin)
		if i == 4 {
			return point(1, -j, 1)
		}
		return r3.Add(p, r3.Scale(4*cos, down))
	}, nil)
	return d.mesh()
}

// squircle pushes a point of the unit circle towards a rounded square.
func squircle(cos, sin float64) (x, z float64) {
	k := math.Pow(math.Pow(math.Abs(cos), 3.2)+math.Pow(math.Abs(sin), 3.2), -1/3.2)
	return k * cos, k * sin
}
