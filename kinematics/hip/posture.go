// Package hip holds the vocabulary of the joint: postures, cup orientations,
// planes and pelvic tilt, the stem in the shaft, and the side.
//
// The pelvis frame has its origin at the hip centre, X anterior, Y superior
// and Z to the patient's right, of a named plane. Everything is computed as a
// right hip, whose Z is lateral; a left hip is its mirror image in Z (Side).
package hip

import "rimclear/kinematics/unit"

// Posture is the position of the femur in the pelvis by the joint coordinate
// system: flexion about the pelvic Z, adduction about the floating X, internal
// rotation about the femoral Y, each positive, on both sides of the body.
// Extension, abduction and external rotation are negative values.
//
// Order and signs are those of Wu et al., J Biomech 2002;35:543 (from memory).
// The joint angles are singular at adduction ±90°.
type Posture struct {
	Flexion          unit.Angle
	Adduction        unit.Angle
	InternalRotation unit.Angle
}

// Neutral is the posture in which femur and pelvis axes coincide.
var Neutral = Posture{}

// PelvisFromFemur returns Rz(flexion)·Rx(adduction)·Ry(internal rotation).
func (p Posture) PelvisFromFemur() Rotation {
	sz, cz := p.Flexion.Sincos()
	sx, cx := p.Adduction.Sincos()
	sy, cy := p.InternalRotation.Sincos()
	return Rotation{
		{cz*cy - sz*sx*sy, -sz * cx, cz*sy + sz*sx*cy},
		{sz*cy + cz*sx*sy, cz * cx, sz*sy - cz*sx*cy},
		{-cx * sy, sx, cx * cy},
	}
}

// Toward returns the posture at fraction f of the way to q, linear in the
// three joint angles, as a motion runs between its waypoints.
func (p Posture) Toward(q Posture, f float64) Posture {
	at := func(a, b unit.Angle) unit.Angle { return a + unit.Angle(f)*(b-a) }
	return Posture{
		Flexion:          at(p.Flexion, q.Flexion),
		Adduction:        at(p.Adduction, q.Adduction),
		InternalRotation: at(p.InternalRotation, q.InternalRotation),
	}
}

// Joint angles by name, for sweeps and charts.
type JointAngle int

const (
	Flexion JointAngle = iota
	Adduction
	InternalRotation
)

// Angle returns one of the three joint angles.
func (p Posture) Angle(a JointAngle) unit.Angle {
	switch a {
	case Adduction:
		return p.Adduction
	case InternalRotation:
		return p.InternalRotation
	}
	return p.Flexion
}

// With returns the posture with one joint angle replaced.
func (p Posture) With(a JointAngle, v unit.Angle) Posture {
	switch a {
	case Adduction:
		p.Adduction = v
	case InternalRotation:
		p.InternalRotation = v
	default:
		p.Flexion = v
	}
	return p
}
