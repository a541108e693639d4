package implant

import (
	"math"

	"rimclear/kinematics/unit"
)

// Chamfer cuts the inner edge of the face: Width is what it takes of the face,
// Depth what it takes of the bearing surface, in mm.
type Chamfer struct{ Width, Depth float64 }

// Present reports whether the edge is cut.
func (c Chamfer) Present() bool { return c != Chamfer{} }

// Recess sets the inner ring of the face back: by Depth along the cup axis,
// over Width from the bearing outwards, in mm, so that the outer ring stands.
type Recess struct{ Width, Depth float64 }

// Present reports whether the face is recessed.
func (r Recess) Present() bool { return r != Recess{} }

// recessed replaces the inner end of a face along a ray by the lower ring and
// the step up to the rest.
func (r Recess) recessed(f Face, offset float64) Face {
	a, b := f.Corner[0], f.Corner[1]
	length := math.Hypot(b.Axial-a.Axial, b.Radial-a.Radial)
	step := between(a, b, math.Min(1, r.Width/length))
	radius := math.Hypot(a.Axial-offset, a.Radial)
	axial := math.Max(a.Axial-offset-r.Depth, -radius)
	var g Face
	g.add(offset+axial, math.Sqrt(radius*radius-axial*axial))
	g.add(step.Axial-r.Depth, step.Radial)
	g.add(step.Axial, step.Radial)
	g.add(b.Axial, b.Radial)
	return g
}

// cut replaces the inner corner of a face by the chamfer's two.
func (c Chamfer) cut(f Face, offset float64) Face {
	a, b := f.Corner[0], f.Corner[1]
	radius := math.Hypot(a.Axial-offset, a.Radial)
	p := unit.Angle(math.Atan2(a.Radial, a.Axial-offset) + c.Depth/radius)
	length := math.Hypot(b.Axial-a.Axial, b.Radial-a.Radial)
	var g Face
	g.add(offset+radius*p.Cos(), radius*p.Sin())
	v := between(a, b, math.Min(1, c.Width/length))
	g.add(v.Axial, v.Radial)
	for _, w := range f.Corner[1:f.Count] {
		g.add(w.Axial, w.Radial)
	}
	return g
}

func between(a, b Vertex, t float64) Vertex {
	return Vertex{Axial: a.Axial + t*(b.Axial-a.Axial), Radial: a.Radial + t*(b.Radial-a.Radial)}
}
