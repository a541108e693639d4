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
// replaces Diameter as its section, a Bump widens the section on one side, a
// Taper scales it along the neck, and a Skirt is joined to all of them.
type Neck struct {
	Diameter  float64
	Taper     Taper
	Oval      Oval
	Trapezoid Trapezoid
	Bump      Bump
	Skirt     Skirt
}

// Section returns how far the neck reaches from its axis at azimuth psi (0
// superior, positive towards anterior), where nothing tapers it, in mm.
func (n Neck) Section(psi unit.Angle) float64 {
	return n.core(psi) + n.Bump.rise(psi)
}

func (n Neck) core(psi unit.Angle) float64 {
	switch {
	case n.Oval.Present():
		return n.Oval.radius(psi)
	case n.Trapezoid.Present():
		return n.Trapezoid.radius(psi)
	case n.Taper.Present():
		return n.Taper.StartDiameter / 2
	}
	return n.Diameter / 2
}

// Round reports whether the neck has the same width all round its axis.
func (n Neck) Round() bool {
	return !n.Oval.Present() && !n.Trapezoid.Present() && !n.Bump.Present()
}

// Beta returns the angular half-width of the neck as seen from the head
// centre, at azimuth psi about its axis and distance rho: the greatest over
// the features present.
func (n Neck) Beta(psi unit.Angle, rho float64) unit.Angle {
	return n.BetaAcross(n.Section(psi), rho)
}

// BetaAcross is Beta where the section reaches so far from the axis, in mm.
func (n Neck) BetaAcross(section, rho float64) unit.Angle {
	b := n.Taper.beta(section, rho)
	if n.Skirt.Present() {
		b = max(b, n.Skirt.beta(rho))
	}
	return b
}

// Radius returns the distance of the neck's surface from its axis at azimuth
// psi and axial distance x from the head centre.
func (n Neck) Radius(psi unit.Angle, x float64) float64 {
	r := n.Section(psi) * n.Taper.scale(x)
	if n.Skirt.Present() && x <= n.Skirt.Length {
		r = max(r, n.Skirt.Diameter/2)
	}
	return r
}

// Breaks returns the distances from the head centre at which Beta has a corner
// or a jump at azimuth psi; count of them are filled. A jump's own distance
// still has the wider value.
func (n Neck) Breaks(psi unit.Angle) (at [3]float64, count int) {
	if !n.Taper.Present() {
		return n.BreaksAcross(0)
	}
	return n.BreaksAcross(n.Section(psi))
}

// BreaksAcross is Breaks where the section reaches so far from the axis, in mm.
func (n Neck) BreaksAcross(section float64) (at [3]float64, count int) {
	if n.Taper.Present() {
		at[0] = math.Hypot(n.Taper.Start, section)
		at[1] = math.Hypot(n.Taper.End, section*n.Taper.EndDiameter/n.Taper.StartDiameter)
		count = 2
	}
	if n.Skirt.Present() {
		at[count] = math.Hypot(n.Skirt.Length, n.Skirt.Diameter/2)
		count++
	}
	return at, count
}

// Overhangs reports whether the neck is not round and narrows so steeply that
// the edge where its taper starts hangs over what lies beyond: on from it the neck
// comes nearer to the head centre.
func (n Neck) Overhangs() bool {
	t := n.Taper
	if n.Round() || !(t.EndDiameter < t.StartDiameter) {
		return false
	}
	widest, _ := n.extent()
	return widest*widest*(1-t.EndDiameter/t.StartDiameter)/(t.End-t.Start) > t.Start
}

// Edge returns the distance from the head centre up to which the neck at azimuth
// psi counts as wide as before its taper: that of the edge, and a hair.
func (n Neck) Edge(psi unit.Angle) float64 {
	return math.Hypot(n.Taper.Start+onCorner, n.Section(psi))
}

// Widest returns twice the greatest reach of the section from the neck axis,
// in mm: the diameter for a round neck.
func (n Neck) Widest() float64 {
	if n.Round() {
		return 2 * n.Section(0)
	}
	widest, _ := n.extent()
	return 2 * widest
}

// Narrowest returns twice the least reach of the section from the neck axis.
func (n Neck) Narrowest() float64 {
	if n.Round() {
		return 2 * n.Section(0)
	}
	_, narrowest := n.extent()
	return 2 * narrowest
}

// extent samples the section every quarter of a degree.
func (n Neck) extent() (widest, narrowest float64) {
	const steps = 1440
	narrowest = math.Inf(1)
	for i := range steps {
		r := n.Section(unit.Angle(i) * 360 / steps * unit.Degree)
		widest, narrowest = math.Max(widest, r), math.Min(narrowest, r)
	}
	return widest, narrowest
}

func asin(x float64) unit.Angle { return unit.Angle(math.Asin(math.Min(1, x))) }
