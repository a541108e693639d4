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
// 180° - Arc/2 (less where a Lip stands): the face is cut along rays from the
// liner's centre, a plane at Arc 180°. Inset moves the liner out along the cup
// axis, so that the head lies deeper.
//
// Edge, if present, states the rim as a circle instead of by Arc and Inset; its
// face is plane.
type Rim struct {
	HeadDiameter float64    // mm
	Arc          unit.Angle // rim edge to rim edge, at the liner's centre
	Wall         float64    // mm
	Inset        float64    // mm, positive: head deeper under the rim
	Edge         Edge
	Lip          Lip
}

// Edge is a rim circle of Radius at Height outside the head centre, in mm.
type Edge struct{ Radius, Height float64 }

// Present reports whether the rim is stated as a circle.
func (e Edge) Present() bool { return e != Edge{} }

// Vertex is a corner of the face in the half plane through the cup axis: so
// far out along the axis from the head centre, so far across it, in mm.
type Vertex struct{ Axial, Radial float64 }

// Gamma returns the polar angle from the cup axis at which the vertex stands.
func (v Vertex) Gamma() unit.Angle { return unit.Angle(math.Atan2(v.Radial, v.Axial)) }

// Rho returns the vertex's distance from the head centre.
func (v Vertex) Rho() float64 { return math.Hypot(v.Axial, v.Radial) }

// Face is the outline of the face at one azimuth, from the bearing outwards.
type Face struct {
	Corner [MaxCorners]Vertex
	Count  int
}

// MaxCorners is the most corners a face outline has.
const MaxCorners = 6

func (f *Face) add(axial, radial float64) {
	f.Corner[f.Count] = Vertex{axial, radial}
	f.Count++
}

// Round reports whether the rim is the same at every azimuth.
func (r Rim) Round() bool { return !r.Lip.Present() }

// Polar returns the polar angle of the face seen from the liner's centre, at
// azimuth phi: the least over the features present.
func (r Rim) Polar(phi unit.Angle) unit.Angle {
	p := 180*unit.Degree - r.Arc/2
	if r.Edge.Present() {
		p = 90 * unit.Degree
	}
	if r.Lip.Present() {
		p -= r.Lip.Height * unit.Angle(r.Lip.rise(phi))
	}
	return p
}

// Face returns the outline of the face at azimuth phi.
func (r Rim) Face(phi unit.Angle) Face { return r.FaceAt(r.Polar(phi)) }

// FaceAt returns the outline of the face where it stands at the polar angle p
// seen from the liner's centre.
func (r Rim) FaceAt(p unit.Angle) Face {
	var f Face
	s, c := p.Sincos()
	inner, offset := r.HeadDiameter/2, r.Offset()
	if r.Edge.Present() {
		inner = r.Edge.Radius
	}
	f.add(offset+inner*c, inner*s)
	f.add(offset+(inner+r.Wall)*c, (inner+r.Wall)*s)
	return f
}

// Breaks returns the azimuths at which the rim's outline has a corner or step.
func (r Rim) Breaks() []unit.Angle {
	if !r.Lip.Present() {
		return nil
	}
	b := r.Lip.breaks()
	return b[:]
}

// Radial reports whether the whole face stands, at each azimuth, at one polar
// angle from the head centre.
func (r Rim) Radial() bool { return r.Inset == 0 && !r.Edge.Present() }

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
	return r.Inset
}
