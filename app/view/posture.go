package view

import (
	"math"

	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

func degrees(v float64) unit.Angle { return unit.Angle(v) * unit.Degree }

// postureKeys are the parameters of the three joint angles.
var postureKeys = [...]string{"flexion_deg", "adduction_deg", "internal_rotation_deg"}

// setPosture returns the case in a posture, held within the range of each
// angle.
func setPosture(c kinematics.Case, p hip.Posture) kinematics.Case {
	for k, key := range postureKeys {
		q := kinematics.ParameterByKey(key)
		c = q.Set(c, 0, min(max(p.Angle(hip.JointAngle(k)).Degrees(), q.Min), q.Max))
	}
	return c
}

// goTo takes the session to a posture.
func goTo(s *session.Session, p hip.Posture) {
	s.Edit(session.Step{Key: "posture", Design: -1}, func(c *kinematics.Case) { *c = setPosture(*c, p) })
}

// half rounds to half a degree, the step of the posture's sliders.
func half(v float64) float64 { return math.Round(2*v) / 2 }
