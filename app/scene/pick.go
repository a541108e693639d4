package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Hit returns the distance from eye along the unit direction to the first
// triangle of the mesh that faces the eye; false if there is none. (Möller and
// Trumbore, J Graphics Tools 1997;2:21.)
func (m *Mesh) Hit(eye, direction r3.Vec) (distance float64, ok bool) {
	return m.hit(eye, direction, 0, false)
}

// hit is Hit from a distance on, of triangles that face away as well if insides
// is set.
func (m *Mesh) hit(eye, direction r3.Vec, from float64, insides bool) (distance float64, ok bool) {
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
		if det == 0 || det < 0 && !insides {
			continue
		}
		s := r3.Sub(eye, a)
		u := r3.Dot(s, h) / det
		q := r3.Cross(s, e1)
		v := r3.Dot(direction, q) / det
		if u < 0 || v < 0 || u+v > 1 {
			continue
		}
		if t := r3.Dot(e2, q) / det; t > from && t < best {
			best = t
		}
	}
	return best, !math.IsInf(best, 1)
}

// Pick returns the instance nearest along a line of sight and the point met, in
// the pelvis frame; -1 if the line meets none. What a plane has cut away is not
// met; where it has cut a part open, the cut face is met.
func Pick(instances []Instance, cut Plane, eye, direction r3.Vec) (index int, point r3.Vec) {
	index = -1
	best := math.Inf(1)
	cut = cut.facing(eye)
	for i, in := range instances {
		if in.Mesh == nil || in.Pose.Mirrors() {
			continue
		}
		from, splits := cut.open(&in, eye, direction)
		back := in.Pose.Inverse()
		if d, ok := in.Mesh.hit(back.Moved(eye), back.Turned(direction), from, splits); ok && d < best {
			index, best = i, d
		}
	}
	if index >= 0 {
		point = r3.Add(eye, r3.Scale(best, direction))
	}
	return index, point
}

// open returns the distance along a line of sight from which an instance is
// there, and whether the plane splits it.
func (p Plane) open(in *Instance, eye, direction r3.Vec) (from float64, split bool) {
	switch p.meets(in) {
	case keepsAll:
		return 0, false
	case losesAll:
		return math.Inf(1), false
	}
	toward := -r3.Dot(direction, p.Normal)
	if toward <= 0 {
		return math.Inf(1), true // the line never comes to the side that is left
	}
	return p.beyond(eye) / toward, true
}
