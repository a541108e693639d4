package implant

import (
	"math"

	"rimclear/kinematics/unit"
)

// Oval is an elliptical neck section. Width is its full width along the
// superior direction across the neck at the neutral posture, Depth across it,
// both in mm. Roll turns the section about the neck, positive from superior
// towards anterior. It turns with the femur.
//
// A native neck under a resurfaced head need not be centred under it: the
// section's centre lies SuperiorShift and AnteriorShift off the neck axis,
// which passes through the head centre.
type Oval struct {
	Width, Depth                 float64 // mm
	Roll                         unit.Angle
	SuperiorShift, AnteriorShift float64 // mm
}

// Present reports whether the neck is oval.
func (o Oval) Present() bool { return o.Width != 0 || o.Depth != 0 }

// Holds reports whether the neck axis runs inside the section.
func (o Oval) Holds() bool { return o.Width > 0 && o.Depth > 0 && o.Eccentricity() < 1 }

// Eccentricity returns how far the neck axis lies from the section's centre, as
// a share of the way to its edge.
func (o Oval) Eccentricity() float64 {
	x, y := o.centre()
	return math.Hypot(2*x/o.Width, 2*y/o.Depth)
}

// centre returns the section's centre along and across its rolled axes.
func (o Oval) centre() (x, y float64) {
	if o.SuperiorShift == 0 && o.AnteriorShift == 0 {
		return 0, 0
	}
	s, c := o.Roll.Sincos()
	return o.SuperiorShift*c + o.AnteriorShift*s, o.AnteriorShift*c - o.SuperiorShift*s
}

// radius returns the greater root t of the ray t·(cos, sin) on the ellipse.
func (o Oval) radius(psi unit.Angle) float64 {
	s, c := (psi - o.Roll).Sincos()
	a, b := o.Width/2, o.Depth/2
	x, y := o.centre()
	c, s, x, y = c/a, s/b, x/a, y/b
	qa, qb, qc := c*c+s*s, c*x+s*y, x*x+y*y-1
	return (qb + math.Sqrt(math.Max(0, qb*qb-qa*qc))) / qa
}
