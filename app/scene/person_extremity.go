package scene

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"
)

// slice is a cross-section of a foot at a distance before the ankle: its half
// width, its top and how far it lies to the outside.
type slice struct{ x, half, top, aside float64 }

var (
	footSlices = []slice{{-66, 4, -40, 0}, {-63, 22, -6, 0}, {-50, 32, 16, 0}, {-20, 37, 34, 0}, {15, 38, 30, 0}, {50, 40, 4, 1}, {90, 45, -18, 3}, {130, 47, -32, 4}, {165, 42, -40, 1}, {185, 28, -44, -4}, {193, 5, -52, -7}}
)

// footMesh returns the closed surface over slices that are wider by so much and
// reach from a bottom to their tops, or to a lid where that is lower.
func footMesh(bottom, lid, wider float64) *Mesh {
	const around = 24
	n := len(footSlices)
	var d draft
	d.sheet(n+2, around, true, func(i, j int) r3.Vec {
		s := footSlices[min(max(i-1, 0), n-1)]
		grow := wider
		x := s.x
		if i <= 1 {
			x -= wider
		}
		if i >= n {
			x += wider
		}
		top := math.Min(s.top+wider, lid)
		y0, h := (top+bottom)/2, (top-bottom)/2
		if i == 0 || i == n+1 {
			return r3.Vec{X: x, Y: y0, Z: s.aside}
		}
		c, sn := turnAt((around-j)%around, around)
		const e = 3.0
		k := math.Pow(math.Pow(math.Abs(c), e)+math.Pow(math.Abs(sn), e), -1/e)
		c, sn = c*k, sn*k
		narrow := 1.0
		if sn > 0 {
			narrow = 1 - 0.35*sn*sn // the instep is narrower than the sole
		}
		return r3.Vec{X: x, Y: y0 + h*sn, Z: s.aside + (s.half+grow)*narrow*c}
	}, nil)
	return d.mesh()
}

// The foot of the right side about its ankle: bare, the shoe, the shoe's sole.
var (
	bareFoot  = sync.OnceValue(func() *Mesh { return footMesh(-ankleHigh, 99, 0) })
	shoeUpper = sync.OnceValue(func() *Mesh { return footMesh(-ankleHigh+6, 99, 5) })
	shoeSole  = sync.OnceValue(func() *Mesh { return footMesh(-ankleHigh, -ankleHigh+16, 8) })
)

// handMesh returns the right hand about its wrist, hanging, its palm towards
// the body.
var handMesh = sync.OnceValue(func() *Mesh {
	var d draft
	add := func(m *Mesh) {
		base := int32(len(d.points))
		d.points, d.normals, d.shade = append(d.points, m.points...), append(d.normals, m.normals...), append(d.shade, m.shade...)
		for _, c := range m.corners {
			d.corners = append(d.corners, [3]int32{base + c[0], base + c[1], base + c[2]})
		}
	}
	palm := girths{{-170, 14, 8}, {-140, 30, 11}, {-85, 40, 14}, {-40, 36, 17}, {0, 25, 20}}
	var rings []ring
	for k := range 12 {
		y := -165 + 168*float64(k)/11
		x, z := palm.of(y)
		curl := 30 * sq(math.Min(y+60, 0)/110)
		rings = append(rings, ring{At(r3.Vec{X: 2, Y: y, Z: -curl}), x, z})
	}
	add(loft(rings, 10, 4))
	thumb := make([]ring, 6)
	for k := range thumb {
		t := float64(k) / 5
		at := r3.Vec{X: 52 - 34*t, Y: -92 + 66*t, Z: -12 + 8*t}
		thumb[k] = ring{Along(r3.Vec{X: -34, Y: 66, Z: 8}, r3.Vec{X: 1}).to(at), 10 + 5*t, 10 + 4*t}
	}
	add(loft(thumb, 10, 5))
	return d.mesh()
})

// spotMesh returns a flat round mark that looks along its Y.
var spotMesh = sync.OnceValue(func() *Mesh {
	return Revolve(28, Meridian{{0, -30}, {46, -30}}, Meridian{{46, -30}, {46, -4}, {40, 3}, {22, 9}, {0, 11}})
})
