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
	// Gap is the angle in radians of a sector taken out, centred on the clock
	// position GapAt, to show what is inside; 0 for none.
	Gap, GapAt float64
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
	closed := c.Gap <= 0
	columns := c.Around
	if !closed {
		columns++
	}
	b := bowl{cup: c, rim: rim}
	// Columns run against the clock: to the right, seen from outside the wall.
	deep := func(i, _ int) float64 { return 1 - 0.45*math.Sin(math.Pi/2*float64(i)/down) }
	wall := func(i, k int, radius float64) r3.Vec { return b.wall(float64(i)/down, k, radius) }
	face := func(i, k int) r3.Vec {
		t := float64(i) / across
		return b.wall(0, k, outer*(1-t)+inner*t)
	}
	last := c.Around
	var d draft
	d.sheet(down+1, columns, closed, func(i, j int) r3.Vec { return wall(i, last-j, inner) }, deep)
	d.sheet(across+1, columns, closed, func(i, j int) r3.Vec { return face(i, last-j) }, nil)
	d.sheet(down+1, columns, closed, func(i, j int) r3.Vec { return wall(down-i, last-j, outer) }, nil)
	if !closed {
		// The two faces of the gap: from the inner wall to the outer.
		section := func(k int, across, i float64) r3.Vec { return b.wall(i, k, inner+(outer-inner)*across) }
		d.sheet(down+1, across+1, false, func(i, j int) r3.Vec {
			return section(0, side(across-j, across), 1-float64(i)/down)
		}, nil)
		d.sheet(down+1, across+1, false, func(i, j int) r3.Vec {
			return section(last, side(j, across), 1-float64(i)/down)
		}, nil)
	}
	return d.mesh()
}

// side returns j/n with exact ends.
func side(j, n int) float64 { return float64(j) / float64(n) }

// bowl knows the points of a cup's walls.
type bowl struct {
	cup Cup
	rim Polar
}

// wall returns the point at column k of a wall, a share t of the way from the
// rim to the pole.
func (b bowl) wall(t float64, k int, radius float64) r3.Vec {
	n := b.cup.Around
	clock := b.cup.GapAt + b.cup.Gap/2 + (2*math.Pi-b.cup.Gap)*float64(k)/float64(n)
	if b.cup.Gap <= 0 {
		clock = 2 * math.Pi * float64(k%n) / float64(n)
	}
	clock = math.Mod(clock+4*math.Pi, 2*math.Pi)
	g := b.rim(clock, radius)
	s, h := math.Sincos(g + (math.Pi-g)*t)
	if t == 1 {
		s, h = 0, -1
	}
	sin, cos := math.Sincos(clock)
	return r3.Vec{X: radius * s * cos, Y: radius * h, Z: radius * s * sin}
}
