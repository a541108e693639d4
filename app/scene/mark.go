package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Mark gives a wedge that lies on the face of a rim and points at a contact,
// in the cup's frame.
type Mark struct {
	Rim Polar
	// Clock is the position in radians from 12 towards 3 o'clock.
	Clock float64
	// Inner is the distance from the head centre, in mm, that the tip points
	// at; Outer is where the broad end lies.
	Inner, Outer float64
	// Width of the broad end and Height above the face in mm; 7 and 0.8 if 0.
	Width, Height float64
}

// The usual size of a mark, mm.
const markWidth, markHeight = 7.0, 0.8

// Mesh returns the closed wedge.
func (m Mark) Mesh() *Mesh {
	const along, across = 8, 8
	if m.Width == 0 {
		m.Width = markWidth
	}
	if m.Height == 0 {
		m.Height = markHeight
	}
	point := func(i, j int, lift float64) r3.Vec {
		u := float64(i) / along
		r := m.Inner*(1-u) + m.Outer*u
		half := m.Width / 2 * (0.06 + 0.94*u) / m.Outer
		clock := m.Clock + half*(2*float64(j)/across-1)
		s, c := math.Sincos(clock)
		st, ct := math.Sincos(m.Rim(math.Mod(clock+4*math.Pi, 2*math.Pi), r) - lift/r)
		return r3.Vec{X: r * st * c, Y: r * ct, Z: r * st * s}
	}
	const sunk = -0.4
	var d draft
	// Seen against +Y with 12 o'clock up, rows run outwards and columns with
	// the clock: the upper sheet is seen from above as it is walked.
	d.sheet(along+1, across+1, false, func(i, j int) r3.Vec { return point(i, j, m.Height) }, nil)
	d.sheet(along+1, across+1, false, func(i, j int) r3.Vec { return point(i, across-j, sunk) }, nil)
	side := func(n int, at func(k int) (i, j int)) {
		d.sheet(2, n+1, false, func(row, k int) r3.Vec {
			i, j := at(k)
			return point(i, j, sunk+(m.Height-sunk)*float64(row))
		}, nil)
	}
	side(along, func(k int) (int, int) { return along - k, 0 })
	side(along, func(k int) (int, int) { return k, across })
	side(across, func(k int) (int, int) { return 0, k })
	side(across, func(k int) (int, int) { return along, across - k })
	return d.mesh()
}
