package implant

import "rimclear/kinematics/unit"

// Bump is a local widening of the neck, such as an osteophyte or a cam: a
// ridge along the neck that stands Height out of the section over a plateau of
// full width Plateau centred at azimuth Centre about the neck axis (0
// superior, positive towards anterior), falling along cosine ramps.
type Bump struct {
	Height                float64 // mm
	Centre, Plateau, Ramp unit.Angle
}

// Present reports whether the neck is widened.
func (b Bump) Present() bool { return b.Height != 0 }

func (b Bump) rise(psi unit.Angle) float64 {
	if !b.Present() {
		return 0
	}
	return b.Height * plateau(psi, b.Centre, b.Plateau, b.Ramp)
}
