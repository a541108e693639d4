package hip

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/unit"
)

// Rotation maps vectors of one frame to another. Its name says which:
// pelvisFromFemur takes femur coordinates and gives pelvis coordinates, and in
// a product neighbours match: cupFromPelvis.Mul(pelvisFromFemur).
//
// It is a plain 3×3 matrix by rows, so that a pose costs no allocation.
type Rotation [3][3]float64

// Identity is the rotation that turns nothing.
var Identity = Rotation{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}

// RotationX, RotationY and RotationZ turn by the right hand about X, Y and Z.
func RotationX(a unit.Angle) Rotation {
	s, c := a.Sincos()
	return Rotation{{1, 0, 0}, {0, c, -s}, {0, s, c}}
}

func RotationY(a unit.Angle) Rotation {
	s, c := a.Sincos()
	return Rotation{{c, 0, s}, {0, 1, 0}, {-s, 0, c}}
}

func RotationZ(a unit.Angle) Rotation {
	s, c := a.Sincos()
	return Rotation{{c, -s, 0}, {s, c, 0}, {0, 0, 1}}
}

// Columns returns the rotation whose columns are the three given orthonormal
// vectors: it maps coordinates along them to the frame they are written in.
func Columns(x, y, z r3.Vec) Rotation {
	return Rotation{{x.X, y.X, z.X}, {x.Y, y.Y, z.Y}, {x.Z, y.Z, z.Z}}
}

// Apply returns the vector in the target frame.
func (r Rotation) Apply(v r3.Vec) r3.Vec {
	return r3.Vec{
		X: r[0][0]*v.X + r[0][1]*v.Y + r[0][2]*v.Z,
		Y: r[1][0]*v.X + r[1][1]*v.Y + r[1][2]*v.Z,
		Z: r[2][0]*v.X + r[2][1]*v.Y + r[2][2]*v.Z,
	}
}

// Mul returns the product r·s: s is applied first.
func (r Rotation) Mul(s Rotation) Rotation {
	var p Rotation
	for i := range 3 {
		for j := range 3 {
			p[i][j] = r[i][0]*s[0][j] + r[i][1]*s[1][j] + r[i][2]*s[2][j]
		}
	}
	return p
}

// Inverse returns the opposite rotation.
func (r Rotation) Inverse() Rotation {
	return Rotation{{r[0][0], r[1][0], r[2][0]}, {r[0][1], r[1][1], r[2][1]}, {r[0][2], r[1][2], r[2][2]}}
}

// Column returns the image of the i-th axis.
func (r Rotation) Column(i int) r3.Vec { return r3.Vec{X: r[0][i], Y: r[1][i], Z: r[2][i]} }
