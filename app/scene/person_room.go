package scene

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Materials of the room.
var (
	ground     = Material{Colour: color.NRGBA{R: 0xDD, G: 0xE1, B: 0xE4, A: 0xFF}}
	darkGround = Material{Colour: color.NRGBA{R: 0x4A, G: 0x53, B: 0x5C, A: 0xFF}}
	shadow     = Material{Colour: color.NRGBA{R: 0x30, G: 0x38, B: 0x42, A: 0x14}}
	wood       = Material{Colour: color.NRGBA{R: 0xC3, G: 0xA8, B: 0x85, A: 0xFF}, Gloss: 0.02}
	padding    = Material{Colour: color.NRGBA{R: 0xB4, G: 0xA6, B: 0x97, A: 0xFF}}
	linen      = Material{Colour: color.NRGBA{R: 0xEC, G: 0xEA, B: 0xE4, A: 0xFF}}
	stone      = Material{Colour: color.NRGBA{R: 0xB5, G: 0xBB, B: 0xC0, A: 0xFF}}
	carton     = Material{Colour: color.NRGBA{R: 0xC2, G: 0x9B, B: 0x6C, A: 0xFF}}
)

// room collects the things about a person.
type room struct {
	list []Instance
	dark bool // the floor is dark
}

func (r *room) add(m *Mesh, of Material) { r.list = append(r.list, Instance{m, Still, of}) }

// block adds a block between two corners.
func (r *room) block(lo, hi r3.Vec, of Material) { r.add(block(lo, hi), of) }

// block returns a block with rounded edges.
func block(lo, hi r3.Vec) *Mesh {
	mid, half := r3.Scale(0.5, r3.Add(lo, hi)), r3.Scale(0.5, r3.Sub(hi, lo))
	r := math.Min(12, 0.45*math.Min(half.X, math.Min(half.Y, half.Z)))
	inner := r3.Vec{X: half.X - r, Y: half.Y - r, Z: half.Z - r}
	// Places along an edge: its rounded ends and what is between.
	steps := [6]float64{-1, -0.5, 0, 0, 0.5, 1}
	var d draft
	side := func(right, up, out r3.Vec) {
		along := func(v r3.Vec, k int) r3.Vec {
			sign := float64(1)
			if k < 3 {
				sign = -1
			}
			size := math.Abs(v.X*inner.X + v.Y*inner.Y + v.Z*inner.Z)
			return r3.Scale(sign*size+r*steps[k], v)
		}
		d.sheet(6, 6, false, func(i, j int) r3.Vec {
			size := math.Abs(out.X*half.X + out.Y*half.Y + out.Z*half.Z)
			p := r3.Add(r3.Scale(size, out), r3.Add(along(right, j), along(up, i)))
			core := r3.Vec{X: clamp(p.X, -inner.X, inner.X), Y: clamp(p.Y, -inner.Y, inner.Y), Z: clamp(p.Z, -inner.Z, inner.Z)}
			return r3.Add(mid, r3.Add(core, r3.Scale(r, r3.Unit(r3.Sub(p, core)))))
		}, nil)
	}
	x, y, z := r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
	neg := func(v r3.Vec) r3.Vec { return r3.Scale(-1, v) }
	for _, f := range [][3]r3.Vec{{x, y, z}, {neg(z), y, x}, {neg(x), y, neg(z)}, {z, y, neg(x)}, {x, neg(z), y}, {x, z, neg(y)}} {
		side(f[0], f[1], f[2])
	}
	return d.mesh()
}

// post adds a round post between two points.
func (r *room) post(from, to r3.Vec, radius float64, of Material) {
	up := r3.Sub(to, from)
	p := Along(up, r3.Vec{X: 0.8, Z: 0.6})
	r.add(loft([]ring{{p.to(from), radius, radius}, {p.to(to), radius, radius}}, radius/2, radius/2), of)
}

// floor adds the round floor about a point of it.
func (r *room) floor(x, radius float64) {
	of := ground
	if r.dark {
		of = darkGround
	}
	r.list = append(r.list, Instance{oval(radius, radius), At(r3.Vec{X: x, Y: -4}), of})
}

// oval returns the level oval that looks up, of half lengths along X and Z.
func oval(long, wide float64) *Mesh {
	var d draft
	d.sheet(4, 56, true, func(i, j int) r3.Vec {
		c, s := turnAt((56-j)%56, 56)
		t := float64(3-i) / 3
		return r3.Vec{X: long * t * c, Z: wide * t * s}
	}, nil)
	return d.mesh()
}

// shade adds the soft shadow on a level under a person, long and wide.
func (r *room) shade(x, y, z, long, wide float64) {
	for _, k := range []float64{1, 0.92, 0.84, 0.75, 0.65, 0.54, 0.42} {
		y += 0.5
		r.list = append(r.list, Instance{oval(long*k, wide*k), At(r3.Vec{X: x, Y: y, Z: z}), shadow})
	}
}

// chair adds a chair whose seat is at a height, its middle at x; back says that
// it has one.
func (r *room) chair(x, high float64, back bool) {
	const wide, deep, thick = 225.0, 225.0, 38.0
	r.block(r3.Vec{X: x - deep, Y: high - thick, Z: -wide}, r3.Vec{X: x + deep, Y: high, Z: wide}, padding)
	for _, sx := range []float64{-1, 1} {
		for _, sz := range []float64{-1, 1} {
			top := r3.Vec{X: x + sx*(deep-30), Y: high - thick, Z: sz * (wide - 30)}
			r.post(r3.Vec{X: top.X + sx*18, Y: 10, Z: top.Z + sz*10}, top, 17, wood)
		}
	}
	if !back {
		return
	}
	for _, sz := range []float64{-1, 1} {
		r.post(r3.Vec{X: x - deep + 12, Y: high - thick, Z: sz * (wide - 30)}, r3.Vec{X: x - deep - 70, Y: high + 430, Z: sz * (wide - 30)}, 15, wood)
	}
	r.block(r3.Vec{X: x - deep - 85, Y: high + 240, Z: -wide + 15}, r3.Vec{X: x - deep - 50, Y: high + 430, Z: wide - 15}, padding)
}

// bed adds a bed whose mattress ends above at a height; the head lies at −X.
func (r *room) bed(high, from, to, half float64) {
	r.block(r3.Vec{X: from, Y: high - 170, Z: -half}, r3.Vec{X: to, Y: high, Z: half}, linen)
	r.block(r3.Vec{X: from - 10, Y: high - 260, Z: -half - 15}, r3.Vec{X: to + 10, Y: high - 170, Z: half + 15}, wood)
	r.block(r3.Vec{X: from - 50, Y: 0, Z: -half - 20}, r3.Vec{X: from - 10, Y: high + 240, Z: half + 20}, wood)
	r.block(r3.Vec{X: to + 10, Y: 0, Z: -half - 20}, r3.Vec{X: to + 45, Y: high - 60, Z: half + 20}, wood)
}

// pillow adds a pillow about a place.
func (r *room) pillow(at r3.Vec, of Material) {
	var rings []ring
	for k := range 12 {
		t := 2*float64(k)/11 - 1
		w := math.Pow(1-math.Pow(math.Abs(t)*0.96, 4), 0.25)
		p := Along(r3.Vec{Z: 1}, r3.Vec{X: 1})
		rings = append(rings, ring{p.to(r3.Add(at, r3.Vec{Z: 290 * t})), 170 * (0.75 + 0.25*w), 58 * w})
	}
	r.add(loft(rings, 8, 8), of)
}

// steps adds stairs that rise forwards: the edges of their treads lie at x, deep
// apart, the first one at height first.
func (r *room) steps(x, first, rise, deep float64, n int) {
	const half = 430.0
	for i := range n {
		y := first + float64(i)*rise
		r.block(r3.Vec{X: x + float64(i)*deep, Y: 0, Z: -half}, r3.Vec{X: x + float64(n)*deep, Y: y, Z: half}, stone)
	}
}
