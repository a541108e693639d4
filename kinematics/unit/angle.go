// Package unit holds the one unit type of the program: the angle.
//
// Lengths are float64 millimetres everywhere and need no type; an angle is
// radians inside and degrees in files and on screen, which is where mistakes
// are made, so it has one.
package unit

import "math"

// Angle is an angle in radians. A literal always carries its unit:
//
//	inclination := 40 * unit.Degree
type Angle float64

const (
	Radian Angle = 1
	Degree       = (math.Pi / 180) * Radian
)

// Degrees returns the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a) * (180 / math.Pi) }

// Radians returns the angle in radians.
func (a Angle) Radians() float64 { return float64(a) }

// Sin returns the sine.
func (a Angle) Sin() float64 { return math.Sin(float64(a)) }

// Cos returns the cosine.
func (a Angle) Cos() float64 { return math.Cos(float64(a)) }

// Tan returns the tangent.
func (a Angle) Tan() float64 { return math.Tan(float64(a)) }

// Sincos returns sine and cosine.
func (a Angle) Sincos() (sin, cos float64) { return math.Sincos(float64(a)) }

// Abs returns the absolute value.
func (a Angle) Abs() Angle { return Angle(math.Abs(float64(a))) }

// Wrapped returns the equal angle in (-180°, 180°].
func (a Angle) Wrapped() Angle {
	r := math.Remainder(float64(a), 2*math.Pi)
	if r <= -math.Pi {
		r += 2 * math.Pi
	}
	return Angle(r)
}

// Finite reports whether the angle is neither NaN nor infinite.
func (a Angle) Finite() bool { return !math.IsNaN(float64(a)) && !math.IsInf(float64(a), 0) }
