package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Polar is the shape of a rim: the polar angle (radians, from the opening's
// normal) of the face at a clock position (radians from 12 towards 3 o'clock)
// and a distance from the head centre in mm.
type Polar func(clock, distance float64) float64

// Flat returns the rim that is a plane circle at polar angle half the cup's
// arc, at every distance: the face is then a cone, a plane if the arc is 180°.
func Flat(arc float64) Polar {
	return func(_, _ float64) float64 { return arc / 2 }
}

// Cup gives the shape of a socket in its own frame: +Y out of the opening, +X
// to 12 o'clock, +Z to 3 o'clock, origin at the head centre, lengths in mm.
type Cup struct {
	// Bearing, Liner and Shell are the radii of the concave bearing, of the
	// outside of the liner, and of the outside of the shell. Liner equal to
	// Bearing means no liner.
	Bearing, Liner, Shell float64
	// Rim shapes the liner; ShellRim the shell, Rim if nil.
	Rim, ShellRim Polar
	// Around is the number of steps round the rim, 80 if 0.
	Around int
}

// Meshes returns the liner (nil if there is none) and the shell, each closed.
func (c Cup) Meshes() (liner, shell *Mesh) {
	if c.Around == 0 {
		c.Around = 80
	}
	outer := c.ShellRim
	if outer == nil {
		outer = c.Rim
	}
	if c.Liner-c.Bearing < 0.05 {
		return nil, c.bowl(c.Bearing, c.Shell, outer)
	}
	// The liner ends a hair inside the shell, so that the two walls do not
	// fight for the same pixels.
	return c.bowl(c.Bearing, c.Liner-0.02, c.Rim), c.bowl(c.Liner, c.Shell, outer)
}

// bowl returns the closed body between two radii behind a rim.
func (c Cup) bowl(inner, outer float64, rim Polar) *Mesh {
	const down, across = 14, 2
	var d draft
	point := func(k int, radius, polar float64) r3.Vec {
		cos, sin := turnAt((k+c.Around)%c.Around, c.Around)
		s, h := math.Sincos(polar)
		if math.Abs(s) < 1e-12 {
			s = 0
		}
		return r3.Vec{X: radius * s * cos, Y: radius * h, Z: radius * s * sin}
	}
	edge := func(k int, radius float64) float64 {
		return rim(2*math.Pi*float64((k+c.Around)%c.Around)/float64(c.Around), radius)
	}
	sphere := func(i, k int, radius float64) r3.Vec {
		g := edge(k, radius)
		return point(k, radius, g+(math.Pi-g)*float64(i)/down)
	}
	// Columns run against the clock: to the right, seen from outside the wall.
	deep := func(i, _ int) float64 { return 1 - 0.45*math.Sin(math.Pi/2*float64(i)/down) }
	d.sheet(down+1, c.Around, true, func(i, j int) r3.Vec { return sphere(i, -j, inner) }, deep)
	d.sheet(across+1, c.Around, true, func(i, j int) r3.Vec {
		t := float64(i) / across
		r := outer*(1-t) + inner*t
		return point(-j, r, edge(-j, r))
	}, nil)
	d.sheet(down+1, c.Around, true, func(i, j int) r3.Vec { return sphere(down-i, -j, outer) }, nil)
	return d.mesh()
}
