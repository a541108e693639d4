package implant

import "rimclear/kinematics/unit"

// Mobile is the mobile liner of a dual mobility bearing. The rim it belongs to
// is then the shell's: its HeadDiameter is the liner's outer diameter, on which
// the liner turns, and neck on shell is the hard stop. The liner holds a small
// head of diameter Head by its own arc Arc, and turns freely; neck on liner is
// wear, not a limit. Concentric bearings only.
type Mobile struct {
	Head float64    // mm
	Arc  unit.Angle // of the liner's own opening, edge to edge at the centre
}

// Present reports whether the bearing has a mobile liner.
func (m Mobile) Present() bool { return m != Mobile{} }

// InnerHalfAngle returns the half angle of the cone in which the neck is free
// inside the liner, about the liner's axis.
func (m Mobile) InnerHalfAngle(n Neck) unit.Angle {
	return 180*unit.Degree - m.Arc/2 - n.Beta(0, m.Head/2)
}
