package main

import (
	"math"
	"runtime"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"
)

// solid is a closed triangle mesh whose triangles share vertices.
type solid struct {
	points  []r3.Vec
	corners [][3]int32
}

// extract returns the zero surface of f in the box from lo to hi, sampled every
// step mm. Each cube is cut into six tetrahedra about its diagonal (marching
// tetrahedra, after Doi and Koide 1991), which has no ambiguous case: the
// surface is closed and every edge has two triangles.
func extract(f field, lo, hi r3.Vec, step float64) solid {
	g := newGrid(f, lo, hi, step)
	var s solid
	made := map[[2]int32]int32{}
	point := func(a, b int32) int32 {
		key := [2]int32{min(a, b), max(a, b)}
		if i, ok := made[key]; ok {
			return i
		}
		va, vb := g.value[key[0]], g.value[key[1]]
		t := va / (va - vb)
		pa, pb := g.point(key[0]), g.point(key[1])
		i := int32(len(s.points))
		s.points = append(s.points, r3.Add(pa, r3.Scale(t, r3.Sub(pb, pa))))
		made[key] = i
		return i
	}
	for z := range g.nz - 1 {
		for y := range g.ny - 1 {
			for x := range g.nx - 1 {
				for _, tet := range tetrahedra {
					var v [4]int32
					for k, c := range tet {
						v[k] = g.index(x+c&1, y+c>>1&1, z+c>>2)
					}
					s.corners = g.cut(s.corners, v, point)
				}
			}
		}
	}
	return s
}

// tetrahedra are the six about the diagonal from corner 0 to corner 7, each
// right-handed; corner bits are x, y, z.
var tetrahedra = [6][4]int{{0, 1, 3, 7}, {0, 3, 2, 7}, {0, 2, 6, 7}, {0, 6, 4, 7}, {0, 4, 5, 7}, {0, 5, 1, 7}}

// cut appends the triangles of one tetrahedron, outside outwards.
func (g *grid) cut(out [][3]int32, v [4]int32, point func(a, b int32) int32) [][3]int32 {
	var in, ex []int32
	for _, i := range v {
		if g.value[i] < 0 {
			in = append(in, i)
		} else {
			ex = append(ex, i)
		}
	}
	var ring []int32
	switch len(in) {
	case 1:
		ring = []int32{point(in[0], ex[0]), point(in[0], ex[1]), point(in[0], ex[2])}
	case 2:
		ring = []int32{point(in[0], ex[0]), point(in[0], ex[1]), point(in[1], ex[1]), point(in[1], ex[0])}
	case 3:
		ring = []int32{point(in[0], ex[0]), point(in[1], ex[0]), point(in[2], ex[0])}
	default:
		return out
	}
	if !g.outward(in, ex) {
		for i, j := 0, len(ring)-1; i < j; i, j = i+1, j-1 {
			ring[i], ring[j] = ring[j], ring[i]
		}
	}
	for k := 2; k < len(ring); k++ {
		out = append(out, [3]int32{ring[0], ring[k-1], ring[k]})
	}
	return out
}

// outward reports whether the ring that cut forms turns anticlockwise seen
// from the outside corners. It looks at grid corners only, never at the
// surface points, which may coincide.
func (g *grid) outward(in, ex []int32) bool {
	p := func(i int32) r3.Vec { return g.point(i) }
	mid := func(a, b int32) r3.Vec { return r3.Scale(0.5, r3.Add(p(a), p(b))) }
	var a, b, c r3.Vec
	switch len(in) {
	case 1:
		a, b, c = mid(in[0], ex[0]), mid(in[0], ex[1]), mid(in[0], ex[2])
	case 2:
		a, b, c = mid(in[0], ex[0]), mid(in[0], ex[1]), mid(in[1], ex[1])
	default:
		a, b, c = mid(in[0], ex[0]), mid(in[1], ex[0]), mid(in[2], ex[0])
	}
	n := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
	return r3.Dot(n, r3.Sub(p(ex[0]), p(in[0]))) > 0
}

// grid holds samples of a field.
type grid struct {
	lo         r3.Vec
	step       float64
	nx, ny, nz int
	value      []float64
}

func newGrid(f field, lo, hi r3.Vec, step float64) *grid {
	n := func(a, b float64) int { return int(math.Ceil((b-a)/step)) + 1 }
	g := &grid{lo: lo, step: step, nx: n(lo.X, hi.X), ny: n(lo.Y, hi.Y), nz: n(lo.Z, hi.Z)}
	g.value = make([]float64, g.nx*g.ny*g.nz)
	var wg sync.WaitGroup
	workers := runtime.NumCPU()
	for w := range workers {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for z := w; z < g.nz; z += workers {
				for i := g.index(0, 0, z); i < g.index(0, 0, z+1); i++ {
					g.value[i] = aloof(f(g.point(i)), 0.15*step)
				}
			}
		}()
	}
	wg.Wait()
	return g
}

// aloof keeps the surface off the grid points, which would make slivers.
func aloof(v, least float64) float64 {
	if math.Abs(v) < least {
		return math.Copysign(least, v)
	}
	return v
}

func (g *grid) index(x, y, z int) int32 { return int32((z*g.ny+y)*g.nx + x) }

func (g *grid) point(i int32) r3.Vec {
	x, y, z := int(i)%g.nx, int(i)/g.nx%g.ny, int(i)/(g.nx*g.ny)
	return r3.Add(g.lo, r3.Scale(g.step, at(float64(x), float64(y), float64(z))))
}
