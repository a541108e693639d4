package scene

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// draft collects sheets of triangles for one mesh. Sheets do not share
// vertices, so the seam between two of them is a sharp edge.
type draft struct {
	points, normals [][3]float32
	shade           []float32
	corners         [][3]int32
}

func (d *draft) mesh() *Mesh { return NewMesh(d.points, d.normals, d.shade, d.corners) }

// sheet adds a smooth grid of rows by columns points. Seen from outside, rows
// run upwards and columns to the right; closed joins the last column to the
// first. Coinciding neighbours (poles) make no triangles. light is the share
// of ambient light at a grid point, nil for 1.
func (d *draft) sheet(rows, columns int, closed bool, at func(row, column int) r3.Vec, light func(row, column int) float64) {
	grid := make([]r3.Vec, 0, rows*columns)
	d.grow(rows * columns)
	for i := range rows {
		for j := range columns {
			grid = append(grid, at(i, j))
		}
	}
	g := lattice{grid, rows, columns, closed}
	base := int32(len(d.points))
	for i := range rows {
		for j := range columns {
			d.points = append(d.points, narrow(g.at(i, j)))
			d.normals = append(d.normals, narrow(g.normal(i, j)))
			s := 1.0
			if light != nil {
				s = light(i, j)
			}
			d.shade = append(d.shade, float32(s))
		}
	}
	g.triangles(func(a, b, c int) {
		d.corners = append(d.corners, [3]int32{base + int32(a), base + int32(b), base + int32(c)})
	})
}

// grow makes room for n more points and their triangles.
func (d *draft) grow(n int) {
	d.points, d.normals = slices.Grow(d.points, n), slices.Grow(d.normals, n)
	d.shade, d.corners = slices.Grow(d.shade, n), slices.Grow(d.corners, 2*n)
}

// lattice is a grid of points.
type lattice struct {
	grid          []r3.Vec
	rows, columns int
	closed        bool
}

func (g lattice) index(i, j int) int {
	if g.closed {
		j = (j + g.columns) % g.columns
	}
	return min(max(i, 0), g.rows-1)*g.columns + min(max(j, 0), g.columns-1)
}

func (g lattice) at(i, j int) r3.Vec { return g.grid[g.index(i, j)] }

// normal returns the unit normal from the neighbours' differences. At a pole,
// where a whole row is one point, it is square to the ring around it.
func (g lattice) normal(i, j int) r3.Vec {
	along := r3.Sub(g.at(i, j+1), g.at(i, j-1))
	across := r3.Sub(g.at(i+1, j), g.at(i-1, j))
	n := r3.Cross(along, across)
	if r3.Norm2(along) < 1e-18 {
		n = r3.Vec{}
		ring := i + 1
		if i == g.rows-1 {
			ring = i - 1
		}
		for k := range g.columns {
			a, b := r3.Sub(g.at(ring, k), g.at(i, j)), r3.Sub(g.at(ring, k+1), g.at(i, j))
			n = r3.Add(n, r3.Cross(a, b))
		}
		if ring > i {
			n = r3.Scale(-1, n)
		}
	}
	long := r3.Norm2(n)
	if long < 1e-24 {
		return r3.Vec{Y: 1}
	}
	return r3.Scale(1/math.Sqrt(long), n)
}

// triangles calls emit for each triangle, halving each cell by its shorter
// diagonal.
func (g lattice) triangles(emit func(a, b, c int)) {
	last := g.columns - 1
	if g.closed {
		last = g.columns
	}
	add := func(a, b, c int) {
		if g.grid[a] != g.grid[b] && g.grid[b] != g.grid[c] && g.grid[c] != g.grid[a] {
			emit(a, b, c)
		}
	}
	for i := range g.rows - 1 {
		for j := range last {
			a, b := g.index(i, j), g.index(i, j+1)
			c, e := g.index(i+1, j+1), g.index(i+1, j)
			if r3.Norm2(r3.Sub(g.grid[a], g.grid[c])) <= r3.Norm2(r3.Sub(g.grid[b], g.grid[e])) {
				add(a, b, c)
				add(a, c, e)
			} else {
				add(a, b, e)
				add(b, c, e)
			}
		}
	}
}

// turnAt returns the k-th of n directions about +Y as cosine and sine: azimuth
// 0 is +X, a quarter is +Z.
func turnAt(k, n int) (cos, sin float64) {
	s, c := math.Sincos(2 * math.Pi * float64(k) / float64(n))
	return c, s
}
