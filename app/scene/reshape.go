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
