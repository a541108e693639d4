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
	// Around is the number of steps round the rim, 52 if 0.
	Around int
	// Gap is the angle in radians of a sector taken out, centred on the clock
	// position GapAt, to show what is inside; 0 for none.
	Gap, GapAt float64
	// Cut gives the walls that lie hidden against each other their full number
	// of steps, for pictures in which a Plane cuts them.
	Cut bool
}

// Meshes returns the liner (nil if there is none) and the shell, each closed.
func (c Cup) Meshes() (liner, shell *Mesh) {
	if c.Around == 0 {
		c.Around = 52
	}
	outer := c.ShellRim
	if outer == nil {
		outer = c.Rim
	}
	seen, hidden, seam := 10, 4, 0.02
	if c.Cut {
		seen, hidden, seam = 16, 16, hair // flat faces must not cross where both are seen
	}
	if c.Liner-c.Bearing < 0.05 {
		return nil, c.bowl(c.Bearing, c.Shell, outer, seen, seen)
	}
	// The liner ends a hair inside the shell, so that the two walls do not
	// fight for the same pixels.
	return c.bowl(c.Bearing, c.Liner-seam, c.Rim, seen, hidden), c.bowl(c.Liner, c.Shell, outer, hidden, seen)
}

// bowl returns the closed body between two radii behind a rim, its walls in so
// many steps from rim to pole: few where a wall lies hidden against another.
func (c Cup) bowl(inner, outer float64, rim Polar, insteps, outsteps int) *Mesh {
	const across = 2
	closed := c.Gap <= 0
	columns := c.Around
	if !closed {
		columns++
		insteps, outsteps = 10, 10 // the gap shows every wall
	}
	b := newBowl(c, rim)
	in, out, middle := b.wall(inner), b.wall(outer), b.wall((inner+outer)/2)
	face := [across + 1]wall{out, middle, in}
	// Columns run against the clock: to the right, seen from outside the wall.
	last := c.Around
	deep := func(i, _ int) float64 { return 1 - 0.45*math.Sin(math.Pi/2*side(i, insteps)) }
	var d draft
	d.sheet(insteps+1, columns, closed, func(i, j int) r3.Vec { return in.at(side(i, insteps), last-j) }, deep)
	d.sheet(across+1, columns, closed, func(i, j int) r3.Vec { return face[i].at(0, last-j) }, nil)
	d.sheet(outsteps+1, columns, closed, func(i, j int) r3.Vec { return out.at(side(outsteps-i, outsteps), last-j) }, nil)
	if !closed {
		// The two faces of the gap, from wall to wall.
		section := func(i, j, k int) r3.Vec { return face[across-j].at(1-side(i, insteps), k) }
		d.sheet(insteps+1, across+1, false, func(i, j int) r3.Vec { return section(i, across-j, 0) }, nil)
		d.sheet(insteps+1, across+1, false, func(i, j int) r3.Vec { return section(i, j, last) }, nil)
	}
	return d.mesh()
}

// side returns j/n with exact ends.
func side(j, n int) float64 { return float64(j) / float64(n) }

// bowl knows the columns of a cup's walls.
type bowl struct {
	rim             Polar
	clock, sin, cos []float64
}

func newBowl(c Cup, rim Polar) *bowl {
	b := &bowl{rim: rim}
	for k := range c.Around + 1 {
		clock := c.GapAt + c.Gap/2 + (2*math.Pi-c.Gap)*side(k, c.Around)
		if c.Gap <= 0 {
			clock = 2 * math.Pi * side(k%c.Around, c.Around)
		}
		s, co := math.Sincos(clock)
		b.clock = append(b.clock, math.Mod(clock+4*math.Pi, 2*math.Pi))
		b.sin, b.cos = append(b.sin, s), append(b.cos, co)
	}
	return b
}

// wall is the part of a sphere behind the rim.
type wall struct {
	*bowl
	radius float64
	edge   []float64 // polar angle of the rim per column
}

func (b *bowl) wall(radius float64) wall {
	w := wall{bowl: b, radius: radius, edge: make([]float64, len(b.clock))}
	for k, clock := range b.clock {
		w.edge[k] = b.rim(clock, radius)
	}
	return w
}

// at returns the point of column k a share t of the way from the rim to the
// pole.
func (w wall) at(t float64, k int) r3.Vec {
	g := w.edge[k]
	s, h := math.Sincos(g + (math.Pi-g)*t)
	if t == 1 {
		s, h = 0, -1
	}
	s *= w.radius
	return r3.Vec{X: s * w.cos[k], Y: w.radius * h, Z: s * w.sin[k]}
}
