package sphere

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/unit"
)

// Cap is the set of directions within Radius of Axis, a unit vector.
type Cap struct {
	Axis   r3.Vec
	Radius unit.Angle
}

// Contains reports whether the direction lies in the cap, or outside by no
// more than the slack.
func (c Cap) Contains(u r3.Vec, slack unit.Angle) bool {
	return Between(c.Axis, u) <= c.Radius+slack
}

// Between returns the angle between two unit vectors, well conditioned
// everywhere.
func Between(a, b r3.Vec) unit.Angle {
	return unit.Angle(math.Atan2(r3.Norm(r3.Cross(a, b)), r3.Dot(a, b)))
}

// Toward returns the direction square to n in which u lies seen from n, a unit
// vector; any such direction where u is n or its opposite.
func Toward(n, u r3.Vec) r3.Vec {
	t := r3.Sub(u, r3.Scale(r3.Dot(n, u), n))
	if r3.Norm(t) < 1e-12 {
		t = square(n)
	}
	return r3.Unit(t)
}

// square returns a vector square to n.
func square(n r3.Vec) r3.Vec {
	if math.Abs(n.X) < 0.6 {
		return r3.Cross(n, r3.Vec{X: 1})
	}
	return r3.Cross(n, r3.Vec{Y: 1})
}

// Turn returns v turned about a unit axis by the right hand (Rodrigues).
func Turn(v, axis r3.Vec, by unit.Angle) r3.Vec {
	s, c := by.Sincos()
	return r3.Add(r3.Add(r3.Scale(c, v), r3.Scale(s, r3.Cross(axis, v))), r3.Scale((1-c)*r3.Dot(axis, v), axis))
}
