package aperture

import (
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// discRise is Rise where contact lies in discs of radii from least to most: the
// least, over them, by which the cosine of its radius exceeds that of the
// distance from its middle. The cosine to a fixed point bends no faster than the
// direction turns, squared.
func discRise(least, most, margin unit.Angle) float64 {
	if least <= 0 || most >= 180*unit.Degree {
		return 0
	}
	m := min(margin, 180*unit.Degree-most) / 2
	return max(0, 2*m.Sin()*min((least+m).Sin(), (most+m).Sin()))
}

// ellipse is the section of an oval neck that is a cylinder, seen from the head
// centre at one distance: a rim point is free where the norm of its place in the
// section, in half axes, is above 1. Its square, less 1, is the measure.
type ellipse struct {
	widest unit.Angle // greatest half-width
	minor  float64    // sine of the half minor axis
	centre float64    // norm of the place of the neck axis, 0 for one that is not shifted
}

// farthest is the norm up to which the measure's bend is bounded. A rim point
// beyond, or behind the head, does not come into contact within the reach of
// turning to which the measure is held.
const farthest = 2

// rise returns the measure over its greatest bend. The norm, as a convex
// function along the meridian, is at least on the line through its values at the
// axis and at the neck's edge.
func (e *ellipse) rise(margin unit.Angle) float64 {
	if e.minor <= 0 {
		return 0
	}
	m := max(0, min(margin, 90*unit.Degree-e.widest))
	s, c := m.Sincos()
	norm := 1 + (c+s/e.widest.Tan()-1)*(1-e.centre)
	norm = min(norm, farthest)
	bend := 2 * (1/e.minor + farthest) / e.minor
	reach := min((farthest-1)*e.minor, float64(90*unit.Degree-e.widest))
	return max(0, min((norm*norm-1)/bend, reach*reach/2))
}

// newEllipse returns the section of a neck at a distance rho, none if it is of
// another kind.
func newEllipse(neck implant.Neck, rho float64, widest unit.Angle) (e ellipse) {
	o := neck.Oval
	if neck.Diameter = 0; neck != (implant.Neck{Oval: o}) {
		return e
	}
	// The greatest half-width is sampled.
	return ellipse{widest: 1.001 * widest, minor: min(o.Width, o.Depth) / 2 / rho, centre: o.Eccentricity()}
}
