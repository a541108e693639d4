package implant

import (
	"math"

	"rimclear/kinematics/unit"
)

// Neck is the neck as a struct of features; the zero value of a feature means
// that it is absent. The neck starts at the head centre and reaches beyond the
// cup; the ball itself is no part of it. Diameters in mm.
//
// A round neck is a cylinder of Diameter or a Taper. An Oval or a Trapezoid
// replaces Diameter as its section; a Taper then scales the section along the
// neck. A Skirt is joined to either.
type Neck struct {
	Diameter float64
	Taper    Taper
	Oval     Oval
	Skirt    Skirt
}

// Section reports how wide the neck is across its axis: the radius at azimuth
// psi where nothing tapers it.
func (n Neck) section(psi unit.Angle) float64 {
	switch {
	case n.Oval.Present():
		return n.Oval.radius(psi)
	case n.Taper.Present():
		return n.Taper.StartDiameter / 2
	}
	return n.Diameter / 2
}

// Round reports whether the neck has the same width all round its axis.
func (n Neck) Round() bool { return !n.Oval.Present() }

// Beta returns the angular half-width of the neck as seen from the head
// centre, at azimuth psi about its axis (0 superior, positive towards
// anterior) and distance rho: the greatest over the features present.
func (n Neck) Beta(psi unit.Angle, rho float64) unit.Angle {
	b := n.Taper.beta(n.section(psi), rho)
	if n.Skirt.Present() {
		b = max(b, n.Skirt.beta(rho))
	}
	return b
}

// Radius returns the distance of the neck's surface from its axis at azimuth
// psi and axial distance x from the head centre.
func (n Neck) Radius(psi unit.Angle, x float64) float64 {
	r := n.section(psi) * n.Taper.scale(x)
	if n.Skirt.Present() && x <= n.Skirt.Length {
		r = max(r, n.Skirt.Diameter/2)
	}
	return r
}

// Breaks returns the distances from the head centre at which Beta has a corner
// or a jump; n of them are filled. A jump's own distance still has the wider
// value.
func (n Neck) Breaks() (at [3]float64, count int) {
	if n.Taper.Present() {
		// Corners of the widest section; where the section is not round the
		// corners of its other azimuths lie near and are found by sampling.
		r := n.widest()
		at[0] = math.Hypot(n.Taper.Start, r)
		at[1] = math.Hypot(n.Taper.End, r*n.Taper.EndDiameter/n.Taper.StartDiameter)
		count = 2
	}
	if n.Skirt.Present() {
		at[count] = math.Hypot(n.Skirt.Length, n.Skirt.Diameter/2)
		count++
	}
	return at, count
}

// widest returns the greatest radius of the untapered section.
func (n Neck) widest() float64 {
	if n.Oval.Present() {
		return math.Max(n.Oval.Width, n.Oval.Depth) / 2
	}
	return n.section(0)
}

// Widest returns the greatest diameter of the neck next to the head, in mm.
func (n Neck) Widest() float64 { return 2 * n.widest() }

func asin(x float64) unit.Angle { return unit.Angle(math.Asin(math.Min(1, x))) }
