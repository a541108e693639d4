package aperture

import (
	"math"
	"sync/atomic"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/unit"
)

// field is a lower bound of the margin by the direction that the table and the
// rings ask about, cell by cell over the whole sphere. A cell is filled when it
// is first asked for, with what its middle has less its own radius: no margin
// falls faster than the direction moves. Two goroutines that fill the same cell
// write the same value.
type field struct {
	cell [fieldSide * fieldSide]atomic.Uint32 // a float32, all zeros while unknown
}

// fieldSide is how many cells the octahedron, unfolded to a square, has along a
// side: each then reaches 1.9° from its middle at most.
const fieldSide = 128

// unfold returns where a direction lies on the octahedron |x|+|y|+|z| = 1
// unfolded to the square from -1 to 1.
func unfold(u r3.Vec) (x, y float64) {
	s := 1 / (math.Abs(u.X) + math.Abs(u.Y) + math.Abs(u.Z))
	x, y = u.X*s, u.Y*s
	if u.Z < 0 {
		x, y = math.Copysign(1-math.Abs(y), x), math.Copysign(1-math.Abs(x), y)
	}
	return x, y
}

// fold is the inverse of unfold.
func fold(x, y float64) r3.Vec {
	z := 1 - math.Abs(x) - math.Abs(y)
	if z < 0 {
		x, y = math.Copysign(1-math.Abs(y), x), math.Copysign(1-math.Abs(x), y)
	}
	return r3.Unit(r3.Vec{X: x, Y: y, Z: z})
}

// fieldCell returns the column and row of a direction's cell.
func fieldCell(u r3.Vec) (i, k int) {
	x, y := unfold(u)
	return min(int((x+1)*(fieldSide/2)), fieldSide-1), min(int((y+1)*(fieldSide/2)), fieldSide-1)
}

// fieldCap returns a cap that holds a cell: its middle and its radius. The
// cell's edges, and the fold that may cross it, are great circles, so no point
// of it is farther off than its corners.
func fieldCap(i, k int) (middle r3.Vec, radius unit.Angle) {
	const h = 2.0 / fieldSide
	x, y := float64(i)*h-1, float64(k)*h-1
	middle = fold(x+h/2, y+h/2)
	for _, corner := range [4]r3.Vec{fold(x, y), fold(x+h, y), fold(x, y+h), fold(x+h, y+h)} {
		radius = max(radius, between(middle, corner))
	}
	return middle, radius
}

// rounding is taken off a value before it is kept in 32 bits.
const rounding = 1e-6

// below returns the bound at a direction.
func (f *field) below(a *Aperture, u r3.Vec) unit.Angle {
	i, k := fieldCell(u)
	c := &f.cell[k*fieldSide+i]
	if bits := c.Load(); bits != 0 {
		return unit.Angle(math.Float32frombits(bits))
	}
	middle, radius := fieldCap(i, k)
	v := math.Float32bits(float32(a.pair.least(middle, radius) - radius - a.short - rounding))
	c.Store(v)
	return unit.Angle(math.Float32frombits(v))
}

// unknown is a bound where there is none: below any margin.
const unknown = -360 * unit.Degree
