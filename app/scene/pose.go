package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Pose is a rigid motion from a part's own frame to the pelvis frame, possibly
// with a reflection. X, Y and Z are the images of the part's axes (orthonormal),
// At is the image of its origin in mm. The zero Pose is not valid: start from
// Still.
type Pose struct {
	X, Y, Z, At r3.Vec
}

// Still is the pose that moves nothing.
var Still = Pose{X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}}

// MirrorZ is the reflection that exchanges left and right.
var MirrorZ = Pose{X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: -1}}

// Turn returns the right-handed rotation by angle (radians) about axis through
// the origin.
func Turn(angle float64, axis r3.Vec) Pose {
	rot := r3.NewRotation(angle, axis)
	return Pose{X: rot.Rotate(Still.X), Y: rot.Rotate(Still.Y), Z: rot.Rotate(Still.Z)}
}

// Along returns the rotation whose Y axis is the unit vector of axis and whose
// X axis lies as near to toward as it can. If toward is parallel to axis, any
// square direction is taken.
func Along(axis, toward r3.Vec) Pose {
	y := r3.Unit(axis)
	x := r3.Sub(toward, r3.Scale(r3.Dot(toward, y), y))
	if r3.Norm(x) < 1e-9 {
		x = square(y)
	}
	x = r3.Unit(x)
	return Pose{X: x, Y: y, Z: r3.Cross(x, y)}
}

// square returns a unit vector at right angles to the unit vector v.
func square(v r3.Vec) r3.Vec {
	other := r3.Vec{X: 1}
	if math.Abs(v.X) > 0.7 {
		other = r3.Vec{Z: 1}
	}
	return r3.Unit(r3.Sub(other, r3.Scale(r3.Dot(other, v), v)))
}

// Turned returns the image of the direction v.
func (p Pose) Turned(v r3.Vec) r3.Vec {
	return r3.Vec{
		X: p.X.X*v.X + p.Y.X*v.Y + p.Z.X*v.Z,
		Y: p.X.Y*v.X + p.Y.Y*v.Y + p.Z.Y*v.Z,
		Z: p.X.Z*v.X + p.Y.Z*v.Y + p.Z.Z*v.Z,
	}
}

// Moved returns the image of the point v.
func (p Pose) Moved(v r3.Vec) r3.Vec { return r3.Add(p.Turned(v), p.At) }

// Mul returns the pose that first applies q and then p.
func (p Pose) Mul(q Pose) Pose {
	return Pose{X: p.Turned(q.X), Y: p.Turned(q.Y), Z: p.Turned(q.Z), At: p.Moved(q.At)}
}

// Inverse returns the pose that undoes p.
func (p Pose) Inverse() Pose {
	inv := Pose{
		X: r3.Vec{X: p.X.X, Y: p.Y.X, Z: p.Z.X},
		Y: r3.Vec{X: p.X.Y, Y: p.Y.Y, Z: p.Z.Y},
		Z: r3.Vec{X: p.X.Z, Y: p.Y.Z, Z: p.Z.Z},
	}
	inv.At = r3.Scale(-1, inv.Turned(p.At))
	return inv
}

// Mirrors reports whether the pose contains a reflection.
func (p Pose) Mirrors() bool { return r3.Dot(r3.Cross(p.X, p.Y), p.Z) < 0 }

// At returns the pose that only moves the origin to v.
func At(v r3.Vec) Pose {
	p := Still
	p.At = v
	return p
}
