package kinematics

import (
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Movement is one of the six clinical directions in which one joint angle
// moves. Its angles are counted in its own direction: extension 20° is flexion
// -20°.
type Movement int

const (
	FlexionMovement Movement = iota
	Extension
	AdductionMovement
	Abduction
	Internal
	External
	MovementCount
)

// Joint returns the joint angle that moves and the sign with which the
// movement counts it.
func (m Movement) Joint() (hip.JointAngle, unit.Angle) {
	sign := unit.Angle(1)
	if m%2 == 1 {
		sign = -1
	}
	return hip.JointAngle(m / 2), sign
}

// Path returns the sweep from a start posture to end, counted in the
// movement's direction.
func (m Movement) Path(start hip.Posture, end unit.Angle, zero hip.Plane) motion.Path {
	angle, sign := m.Joint()
	return motion.Sweep(start, angle, sign*end, zero)
}

// Reading returns the moving angle at a place of a sweep, counted in the
// movement's direction.
func (m Movement) Reading(p motion.Path, at motion.Place) unit.Angle {
	angle, sign := m.Joint()
	return sign * p.At(at).Angle(angle)
}
