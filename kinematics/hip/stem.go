package hip

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/unit"
)

// Stem is the direction of the neck in the shaft. NeckShaft is the neck-shaft
// angle; Anteversion turns the neck forward about the shaft. Varus (positive)
// and valgus tilt the stem in the coronal plane of the shaft, SagittalTilt
// (positive when the stem's tip lies posterior in the shaft) in its sagittal
// plane.
//
// ComponentToNeck is, under a resurfaced head, by how much more valgus the
// component sits than the native neck it covers: NeckShaft is then the
// component's, and the neck itself runs at NeckShaft - ComponentToNeck.
type Stem struct {
	Anteversion  unit.Angle
	NeckShaft    unit.Angle
	Varus        unit.Angle
	SagittalTilt unit.Angle

	ComponentToNeck unit.Angle
}

// Axis returns the unit vector from the head centre down the neck, in the
// frame of the shaft (Y along the shaft, Z lateral).
func (s Stem) Axis() r3.Vec { return s.tilt().Apply(s.untilted()) }

func (s Stem) untilted() r3.Vec {
	sa, ca := (180*unit.Degree - s.NeckShaft + s.ComponentToNeck).Sincos()
	sv, cv := s.Anteversion.Sincos()
	return r3.Vec{X: -sv * sa, Y: -ca, Z: cv * sa}
}

func (s Stem) tilt() Rotation {
	if s.Varus == 0 && s.SagittalTilt == 0 {
		return Identity
	}
	return RotationZ(-s.SagittalTilt).Mul(RotationX(-s.Varus))
}

// FemurFromNeck returns the rotation from neck coordinates to those of the
// shaft. The neck frame has Z down the neck axis, X across the neck towards
// its most superior side and Y across it towards anterior, so an azimuth about
// the neck counts from superior, positive towards anterior.
func (s Stem) FemurFromNeck() Rotation {
	return s.tilt().Mul(facing(s.untilted()))
}

// facing returns the frame about an axis: Z along it, X the most superior
// direction across it, Y the anterior one (X × Z of a right hip). Where the
// axis is vertical, X is lateral.
func facing(axis r3.Vec) Rotation {
	up := r3.Sub(r3.Vec{Y: 1}, r3.Scale(axis.Y, axis))
	n := r3.Norm(up)
	if n < 1e-12 {
		up, n = r3.Vec{Z: 1}, 1
	}
	up = r3.Scale(1/n, up)
	return Columns(up, r3.Cross(up, axis), axis)
}

// PlaneFromCup returns the rotation from cup coordinates to those of the plane
// in which the axis is written: Z out of the opening, X the most superior rim
// direction (12 o'clock), Y the anterior one (3 o'clock).
func PlaneFromCup(axis r3.Vec) Rotation { return facing(axis) }
