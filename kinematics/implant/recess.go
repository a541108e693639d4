package implant

import "math"

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
