package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Hit returns the distance from eye along the unit direction to the first
// triangle of the mesh that faces the eye; false if there is none. (Möller and
// Trumbore, J Graphics Tools 1997;2:21.)
func (m *Mesh) Hit(eye, direction r3.Vec) (distance float64, ok bool) {
	to := r3.Sub(m.centre, eye)
	if off := r3.Norm(r3.Cross(to, direction)); off > m.radius {
		return 0, false
	}
	best := math.Inf(1)
	for _, c := range m.corners {
		a := m.Point(int(c[0]))
		e1, e2 := r3.Sub(m.Point(int(c[1])), a), r3.Sub(m.Point(int(c[2])), a)
		h := r3.Cross(direction, e2)
		det := r3.Dot(e1, h)
		if det <= 0 {
			continue
		}
		s := r3.Sub(eye, a)
		u := r3.Dot(s, h)
		q := r3.Cross(s, e1)
		v := r3.Dot(direction, q)
		if u < 0 || v < 0 || u+v > det {
			continue
		}
		if t := r3.Dot(e2, q) / det; t > 0 && t < best {
			best = t
		}
	}
	return best, !math.IsInf(best, 1)
}

// Pick returns the instance nearest along a line of sight and the point met, in
// the pelvis frame; -1 if the line meets none.
func Pick(instances []Instance, eye, direction r3.Vec) (index int, point r3.Vec) {
	index = -1
	best := math.Inf(1)
	for i, in := range instances {
		if in.Mesh == nil || in.Pose.Mirrors() {
			continue
		}
		back := in.Pose.Inverse()
		if d, ok := in.Mesh.Hit(back.Moved(eye), back.Turned(direction)); ok && d < best {
			index, best = i, d
		}
	}
	if index >= 0 {
		point = r3.Add(eye, r3.Scale(best, direction))
	}
	return index, point
}
