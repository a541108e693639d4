// Package implant describes the parts that can meet: the rim of the cup and
// the neck under the head, as structs of features. Lengths in mm. A part
// answers one question, and features are combined in its answer: a rim how far
// from the cup axis its face stands (Face, polar angle gamma at a distance),
// a neck how wide it is seen from the head centre (Beta at a distance).
package implant

import (
	"math"

	"rimclear/kinematics/unit"
)

// Rim is the cup's edge and face as a struct of features; the zero value of a
// feature means that it is absent.
//
// The body is all that lies between HeadDiameter/2 and HeadDiameter/2 + Wall
// from the liner's centre, at a polar angle from the cup axis of at least
// 180° - Arc/2 (less where a Lip stands, more in a Notch): the face is cut
// along rays from the liner's centre, a plane at Arc 180°. Inset moves the
// liner out along the cup axis, so that the head lies deeper; Extension
// continues it as a cylinder beyond the bearing sphere, which puts the rim
// circle in the same place. A Recess sets the inner ring of the face back, a
// Chamfer cuts its inner edge.
//
// Edge, if present, states the rim as a circle instead of by Arc and Inset; its
// face is plane.
type Rim struct {
	HeadDiameter float64    // mm; of the mobile liner where there is one
	Arc          unit.Angle // rim edge to rim edge, at the liner's centre
	Wall         float64    // mm
	Inset        float64    // mm, positive: head deeper under the rim
	Extension    float64    // mm
	Edge         Edge
	Lips         [2]Lip
	Notch        Lip
	Chamfer      Chamfer
	Recess       Recess
	Mobile       Mobile
}

// Edge is a rim circle of Radius at Height outside the head centre, in mm.
type Edge struct{ Radius, Height float64 }

// Present reports whether the rim is stated as a circle.
func (e Edge) Present() bool { return e.Radius != 0 }

// Vertex is a corner of the face in the half plane through the cup axis: so
// far out along the axis from the head centre, so far across it, in mm.
type Vertex struct{ Axial, Radial float64 }

// Gamma returns the polar angle from the cup axis at which the vertex stands.
func (v Vertex) Gamma() unit.Angle { return unit.Angle(math.Atan2(v.Radial, v.Axial)) }

// Rho returns the vertex's distance from the head centre.
func (v Vertex) Rho() float64 { return math.Hypot(v.Axial, v.Radial) }

// between returns the vertex at share t of the way from a to b.
func between(a, b Vertex, t float64) Vertex {
	return Vertex{Axial: a.Axial + t*(b.Axial-a.Axial), Radial: a.Radial + t*(b.Radial-a.Radial)}
}

// Face is the outline of the face at one azimuth, from the bearing outwards.
type Face struct {
	Corner [MaxCorners]Vertex
	Count  int
}

// MaxCorners is the most corners a face outline has: chamfer, recess, wall.
const MaxCorners = 5

func (f *Face) add(axial, radial float64) {
	f.Corner[f.Count] = Vertex{axial, radial}
	f.Count++
}

// Round reports whether the rim is the same at every azimuth.
func (r Rim) Round() bool {
	return !r.Lips[0].Present() && !r.Lips[1].Present() && !r.Notch.Present()
}

// Polar returns the polar angle of the face seen from the centre at Offset, at
// azimuth phi: the least over the lips present, lowered in the notch.
func (r Rim) Polar(phi unit.Angle) unit.Angle {
	p := r.base()
	if r.Round() {
		return p
	}
	return p - max(r.Lips[0].rise(phi), r.Lips[1].rise(phi)) + r.Notch.rise(phi)
}

// Bare returns the rim without lips and notch.
func (r Rim) Bare() Rim {
	r.Lips, r.Notch = [2]Lip{}, Lip{}
	return r
}

func (r Rim) base() unit.Angle {
	if r.Edge.Present() {
		return 90 * unit.Degree
	}
	return 180*unit.Degree - r.Arc/2
}

// Face returns the outline of the face at azimuth phi.
func (r Rim) Face(phi unit.Angle) Face { return r.FaceAt(r.Polar(phi)) }

// FaceAt returns the outline of the face where it stands at the polar angle p
// seen from the centre at Offset.
func (r Rim) FaceAt(p unit.Angle) Face {
	var f Face
	s, c := p.Sincos()
	inner, offset := r.HeadDiameter/2, r.Offset()
	if r.Edge.Present() {
		inner = r.Edge.Radius
	}
	f.add(offset+inner*c, inner*s)
	f.add(offset+(inner+r.Wall)*c, (inner+r.Wall)*s)
	if r.Recess.Present() {
		f = r.Recess.recessed(f, offset)
	}
	if r.Chamfer.Present() {
		f = r.Chamfer.cut(f, offset)
	}
	return f
}

// Breaks returns the azimuths at which the rim's outline has a corner or step.
func (r Rim) Breaks() []unit.Angle {
	b := append(r.Lips[0].breaks(), r.Lips[1].breaks()...)
	return append(b, r.Notch.breaks()...)
}

// Radial reports whether the whole face stands, at each azimuth, at one polar
// angle from the head centre.
func (r Rim) Radial() bool {
	return r.Offset() == 0 && !r.Edge.Present() && !r.Recess.Present() && !r.Chamfer.Present()
}

// Reach returns the least and greatest distance of a radial face from the head
// centre.
func (r Rim) Reach() (from, to float64) {
	return r.HeadDiameter / 2, r.HeadDiameter/2 + r.Wall
}

// Offset returns how far out along the cup axis, from the head centre, the
// centre lies from which the face's polar angle is measured, in mm.
func (r Rim) Offset() float64 {
	if r.Edge.Present() {
		return r.Edge.Height
	}
	return r.Inset + r.Extension
}
