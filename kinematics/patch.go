package kinematics

import "math"

// Couple is the materials and load of a hard-on-hard bearing, both of one
// material.
type Couple struct {
	Modulus   float64 // Young's modulus, N/mm²
	Poisson   float64
	Clearance float64 // diametral, mm
	Force     float64 // N
}

// CobaltChrome is a metal-on-metal couple: E 210 GPa, nu 0.3 (handbook values,
// from memory), diametral clearance 0.2 mm and 2000 N (assumed).
var CobaltChrome = Couple{Modulus: 210e3, Poisson: 0.3, Clearance: 0.2, Force: 2000}

// LeastPatch is the distance from contact patch to rim at or below which raised
// metal ions were reported for metal-on-metal resurfacings, mm: CORR 2013,
// n = 182.
const LeastPatch = 10.0

// PatchRadius returns the radius of the contact patch of a head of a diameter,
// in mm (Hertz, ball in a socket of like material): a³ = 3·F·Re/(4·E*),
// 1/E* = 2(1-nu²)/E, Re = Rc·Rh/(Rc-Rh).
func (c Couple) PatchRadius(head float64) float64 {
	rh := head / 2
	rc := rh + c.Clearance/2
	re := rc * rh / (rc - rh)
	stiffness := c.Modulus / (2 * (1 - c.Poisson*c.Poisson))
	return math.Cbrt(3 * c.Force * re / (4 * stiffness))
}
