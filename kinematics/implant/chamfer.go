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
