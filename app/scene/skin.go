package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Skin returns the patch of a sphere inside a closed boundary of unit
// directions that is star-shaped about the unit direction centre. Each boundary
// direction is joined to the centre by a great circle. The patch is open: draw
// it with BothSides.
func Skin(radius float64, centre r3.Vec, boundary []r3.Vec) *Mesh {
	const rings = 6
	if anticlockwise(centre, boundary) {
		boundary = reversed(boundary)
	}
	var d draft
	n := len(boundary)
	// Seen from outside with the rows running outwards, columns run with the
	// clock.
	d.sheet(rings+1, n, true, func(i, j int) r3.Vec {
		return r3.Scale(radius, between(centre, boundary[(j+n)%n], float64(i)/rings))
	}, nil)
	for i, p := range d.points {
		d.normals[i] = narrow(r3.Scale(1/radius, wide(p)))
	}
	return d.mesh()
}

// between returns the direction a share t of the way from a to b.
func between(a, b r3.Vec, t float64) r3.Vec {
	if t == 0 {
		return a
	}
	angle := math.Atan2(r3.Norm(r3.Cross(a, b)), r3.Dot(a, b))
	s := math.Sin(angle)
	if s < 1e-9 {
		return b
	}
	return r3.Add(r3.Scale(math.Sin((1-t)*angle)/s, a), r3.Scale(math.Sin(t*angle)/s, b))
}

// anticlockwise reports whether the boundary goes round centre against the
// clock, seen from outside the sphere.
func anticlockwise(centre r3.Vec, boundary []r3.Vec) bool {
	sum := 0.0
	for i, a := range boundary {
		b := boundary[(i+1)%len(boundary)]
		sum += r3.Dot(centre, r3.Cross(a, b))
	}
	return sum > 0
}

func reversed(v []r3.Vec) []r3.Vec {
	out := make([]r3.Vec, len(v))
	for i := range v {
		out[len(v)-1-i] = v[i]
	}
	return out
}

// Thread returns a thin tube along a line of points in mm: an outline, or the
// track of a neck. Ends are closed unless the line is.
func Thread(radius float64, closed bool, line ...r3.Vec) *Mesh {
	const around = 6
	n := len(line)
	if n < 2 {
		return &Mesh{}
	}
	at := func(i int) r3.Vec {
		if closed {
			return line[(i+n)%n]
		}
		return line[min(max(i, 0), n-1)]
	}
	// Each ring's frame is carried over from the one before.
	frames := make([]Pose, n)
	frames[0] = Along(r3.Sub(at(1), at(-1)), r3.Vec{X: 0.3, Y: 0.5, Z: 0.8})
	for i := 1; i < n; i++ {
		frames[i] = Along(r3.Sub(at(i+1), at(i-1)), frames[i-1].X)
	}
	point := func(i, k int, scale float64) r3.Vec {
		c, s := turnAt((k+around)%around, around)
		f := frames[(i+n)%n]
		return r3.Add(at(i), r3.Add(r3.Scale(scale*radius*c, f.X), r3.Scale(scale*radius*s, f.Z)))
	}
	rows := n
	if closed {
		rows++
	}
	var d draft
	d.sheet(rows, around, true, func(i, j int) r3.Vec { return point(i, -j, 1) }, nil)
	if !closed {
		d.sheet(2, around, true, func(i, j int) r3.Vec { return point(0, -j, float64(i)) }, nil)
		d.sheet(2, around, true, func(i, j int) r3.Vec { return point(n-1, -j, float64(1-i)) }, nil)
	}
	return d.mesh()
}
