package implant

import (
	"math"

	"rimclear/kinematics/unit"
)

// Skirt is a collar of the head, coaxial with the neck: a cylinder of Diameter
// from the head centre to the axial distance Length, with a flat end.
type Skirt struct {
	Diameter, Length float64 // mm
}

// Present reports whether the head has a skirt.
func (s Skirt) Present() bool { return s != Skirt{} }

// beta returns the half-width of the skirt at distance rho, 0 beyond its
// corner. The corner's own distance has the full width.
func (s Skirt) beta(rho float64) unit.Angle {
	if rho > math.Hypot(s.Length, s.Diameter/2)*(1+1e-12) {
		return 0
	}
	return asin(s.Diameter / 2 / rho)
}
