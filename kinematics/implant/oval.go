package implant

import "rimclear/kinematics/unit"

// Oval is an elliptical neck section. Width is its full width along the
// superior direction across the neck at the neutral posture, Depth across it,
// both in mm. Roll turns the section about the neck, positive from superior
// towards anterior. It turns with the femur.
type Oval struct {
	Width, Depth float64 // mm
	Roll         unit.Angle
}

// Present reports whether the neck is oval.
func (o Oval) Present() bool { return o != Oval{} }

func (o Oval) radius(psi unit.Angle) float64 {
	s, c := (psi - o.Roll).Sincos()
	a, b := o.Width/2, o.Depth/2
	return a * b / hypot(b*c, a*s)
}
