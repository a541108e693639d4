package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Meridian is a smooth stretch of a profile: pairs of distance from the axis
// and height along it, in mm, in the order that keeps the outside on the right
// hand of one who walks it with the axis on the left and up ahead (an outer
// wall is walked upwards).
type Meridian [][2]float64

// Revolve returns the surface that the meridians sweep about +Y, in around
// steps. Meridians meet in sharp edges. It is closed if they join end to end
// and start and end on the axis, or form a ring.
func Revolve(around int, meridians ...Meridian) *Mesh {
	var d draft
	for _, m := range meridians {
		d.sheet(len(m), around, true, func(i, j int) r3.Vec {
			c, s := turnAt(around-j, around)
			return r3.Vec{X: m[i][0] * c, Y: m[i][1], Z: m[i][0] * s}
		}, nil)
	}
	return d.mesh()
}

// Arc returns the meridian of a circle of the given radius and height of
// centre, from one polar angle (from +Y, radians) to another in n steps.
func Arc(radius, height, from, to float64, n int) Meridian {
	m := make(Meridian, n+1)
	for i := range m {
		s, c := math.Sincos(from + (to-from)*float64(i)/float64(n))
		m[i] = [2]float64{radius * s, height + radius*c}
	}
	snap(m)
	return m
}

// snap puts points that should lie on the axis exactly there.
func snap(m Meridian) {
	for i := range m {
		if math.Abs(m[i][0]) < 1e-9 {
			m[i][0] = 0
		}
	}
}

// Head returns the ball of a given radius about the origin.
func Head(radius float64) *Mesh {
	return Revolve(42, Arc(radius, 0, math.Pi, 0, 21))
}
