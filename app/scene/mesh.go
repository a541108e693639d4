package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Mesh is an immutable surface of triangles in a part's own frame (mm). Corners
// run anticlockwise seen from outside. Safe for concurrent use.
type Mesh struct {
	points  [][3]float32
	normals [][3]float32
	shade   []float32 // share of ambient light per vertex, 0 to 1; nil = 1
	corners [][3]int32
	radius  float64 // of the ball about centre that holds the mesh
	centre  r3.Vec
}

// NewMesh returns the mesh of the given points, unit normals (one per point)
// and triangles. shade may be nil. The slices belong to the mesh afterwards.
func NewMesh(points, normals [][3]float32, shade []float32, corners [][3]int32) *Mesh {
	m := &Mesh{points: points, normals: normals, shade: shade, corners: corners}
	m.bound()
	return m
}

// bound sets the ball that holds the mesh.
func (m *Mesh) bound() {
	if len(m.points) == 0 {
		return
	}
	lo, hi := m.Box()
	m.centre = r3.Scale(0.5, r3.Add(lo, hi))
	for i := range m.points {
		m.radius = max(m.radius, r3.Norm2(r3.Sub(m.Point(i), m.centre)))
	}
	m.radius = math.Sqrt(m.radius)
}

// Box returns the least and greatest coordinates of the mesh.
func (m *Mesh) Box() (lo, hi r3.Vec) {
	inf := math.Inf(1)
	lo, hi = r3.Vec{X: inf, Y: inf, Z: inf}, r3.Vec{X: -inf, Y: -inf, Z: -inf}
	for i := range m.points {
		p := m.Point(i)
		lo = r3.Vec{X: min(lo.X, p.X), Y: min(lo.Y, p.Y), Z: min(lo.Z, p.Z)}
		hi = r3.Vec{X: max(hi.X, p.X), Y: max(hi.Y, p.Y), Z: max(hi.Z, p.Z)}
	}
	return lo, hi
}

// Triangles returns the number of triangles.
func (m *Mesh) Triangles() int { return len(m.corners) }

// Points returns the number of vertices.
func (m *Mesh) Points() int { return len(m.points) }

// Point returns vertex i in mm.
func (m *Mesh) Point(i int) r3.Vec { return wide(m.points[i]) }

// Normal returns the unit outward normal at vertex i.
func (m *Mesh) Normal(i int) r3.Vec { return wide(m.normals[i]) }

// Corners returns the vertices of triangle i.
func (m *Mesh) Corners(i int) [3]int32 { return m.corners[i] }

func wide(v [3]float32) r3.Vec {
	return r3.Vec{X: float64(v[0]), Y: float64(v[1]), Z: float64(v[2])}
}

func narrow(v r3.Vec) [3]float32 {
	return [3]float32{float32(v.X), float32(v.Y), float32(v.Z)}
}
