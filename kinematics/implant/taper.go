package implant

import (
	"math"

	"rimclear/kinematics/unit"
)

// Taper changes the neck's diameter along its axis: StartDiameter up to the
// axial distance Start from the head centre, EndDiameter from End on, linear
// between. It narrows or flares.
type Taper struct {
	StartDiameter, Start float64 // mm
	EndDiameter, End     float64 // mm
}

// Present reports whether the neck tapers.
func (t Taper) Present() bool { return t != Taper{} }

// scale returns the factor by which the section is wider at axial distance x.
func (t Taper) scale(x float64) float64 {
	if !t.Present() || x <= t.Start {
		return 1
	}
	end := t.EndDiameter / t.StartDiameter
	if x >= t.End {
		return end
	}
	return 1 + (end-1)*(x-t.Start)/(t.End-t.Start)
}

// beta solves rho·sin β = r·scale(rho·cos β) piece by piece, in closed form,
// and returns the greatest β that lies on its own piece.
func (t Taper) beta(r, rho float64) unit.Angle {
	if !t.Present() {
		return asin(r / rho)
	}
	best := unit.Angle(0)
	near, far := asin(r/rho), asin(r*t.EndDiameter/t.StartDiameter/rho)
	if rho*near.Cos() <= t.Start+onCorner {
		best = max(best, near)
	}
	if rho*far.Cos() >= t.End-onCorner {
		best = max(best, far)
	}
	if b, ok := t.slope(r, rho); ok {
		best = max(best, b)
	}
	return best
}

// onCorner is how near, in mm, a point counts as on a corner of the profile,
// so that no sphere falls between two pieces by rounding.
const onCorner = 1e-9

// slope solves the linear piece: sin(β - κ) = a·cos κ / rho, tan κ its slope.
func (t Taper) slope(r, rho float64) (unit.Angle, bool) {
	m := r * (t.EndDiameter/t.StartDiameter - 1) / (t.End - t.Start)
	k := math.Atan(m)
	s := (r - m*t.Start) * math.Cos(k) / rho
	if s > 1 || s < -1 {
		return 0, false
	}
	b := unit.Angle(k + math.Asin(s))
	x := rho * b.Cos()
	return b, x > t.Start-onCorner && x < t.End+onCorner
}
