package scene

import "gonum.org/v1/gonum/spatial/r3"

// Reamed returns the mesh with everything nearer to the origin than radius
// moved out to it: a socket opened for a larger cup.
func (m *Mesh) Reamed(radius float64) *Mesh {
	out := *m
	out.points = make([][3]float32, len(m.points))
	out.normals = make([][3]float32, len(m.normals))
	copy(out.normals, m.normals)
	for i := range m.points {
		p, n := m.Point(i), m.Normal(i)
		d := r3.Norm(p)
		to := radius
		if r3.Dot(n, p) > 0 {
			to += 1.5 // the wall's far side stays behind its near side
		}
		if d < to && d > 0 {
			if to == radius {
				out.normals[i] = narrow(r3.Scale(-1/d, p))
			}
			p = r3.Scale(to/d, p)
		}
		out.points[i] = narrow(p)
	}
	out.radius = 0
	out.bound()
	return &out
}

// Cut returns the part of the mesh on the side of the plane through at that
// normal points away from. The cut is left open; a material with a Section
// colour shows it as a flat face.
func (m *Mesh) Cut(at, normal r3.Vec) *Mesh {
	c := cutter{from: m, at: at, normal: r3.Unit(normal), made: map[[2]int32]int32{}, kept: map[int32]int32{}}
	for _, t := range m.corners {
		var ring []int32
		for k := range t {
			a, b := t[k], t[(k+1)%3]
			da, db := c.beyond(a), c.beyond(b)
			if da <= 0 {
				ring = append(ring, c.keep(a))
			}
			if da < 0 && db > 0 || da > 0 && db < 0 {
				ring = append(ring, c.split(a, b))
			}
		}
		for k := 2; k < len(ring); k++ {
			c.out.corners = append(c.out.corners, [3]int32{ring[0], ring[k-1], ring[k]})
		}
	}
	out := c.out.mesh()
	out.opened = true
	return out
}

type cutter struct {
	from       *Mesh
	at, normal r3.Vec
	out        draft
	made       map[[2]int32]int32
	kept       map[int32]int32
}

func (c *cutter) beyond(i int32) float64 {
	return r3.Dot(r3.Sub(c.from.Point(int(i)), c.at), c.normal)
}

func (c *cutter) shadeOf(i int32) float32 {
	if c.from.shade == nil {
		return 1
	}
	return c.from.shade[i]
}

func (c *cutter) keep(i int32) int32 {
	n, ok := c.kept[i]
	if !ok {
		n = c.add(c.from.Point(int(i)), c.from.Normal(int(i)), c.shadeOf(i))
		c.kept[i] = n
	}
	return n
}

// split returns the point where the edge a-b meets the plane, the same for both
// of the edge's triangles.
func (c *cutter) split(a, b int32) int32 {
	if a > b {
		a, b = b, a
	}
	n, ok := c.made[[2]int32{a, b}]
	if !ok {
		t := c.beyond(a) / (c.beyond(a) - c.beyond(b))
		mix := func(p, q r3.Vec) r3.Vec { return r3.Add(p, r3.Scale(t, r3.Sub(q, p))) }
		shade := c.shadeOf(a) + float32(t)*(c.shadeOf(b)-c.shadeOf(a))
		normal := r3.Unit(mix(c.from.Normal(int(a)), c.from.Normal(int(b))))
		n = c.add(mix(c.from.Point(int(a)), c.from.Point(int(b))), normal, shade)
		c.made[[2]int32{a, b}] = n
	}
	return n
}

func (c *cutter) add(p, n r3.Vec, shade float32) int32 {
	c.out.points = append(c.out.points, narrow(p))
	c.out.normals = append(c.out.normals, narrow(n))
	c.out.shade = append(c.out.shade, shade)
	return int32(len(c.out.points) - 1)
}
