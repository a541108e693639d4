package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/solve"
	"rimclear/kinematics/sphere"
	"rimclear/kinematics/unit"
)

// Jump returns how far the centre of a head of radius r travels, as a chord,
// until it lies under a rim point that stands at an angle from the load:
// 2R·sin(angle/2). It is 0 where the load already points past the rim.
func Jump(r float64, angle unit.Angle) float64 { return max(0, 2*r*(angle/2).Sin()) }

// LateralJump returns the jump distance of a round cup in the coronal plane
// under a vertical load, 2R·sin((acos(cos(A/2)/cos RA) - RI)/2), which is for an
// arc of 180° the formula of Sariali et al., Acta Orthop 2009;80:277-282,
// 2R·sin((90° - RI)/2) (formula from memory; confirmed by every trend the paper
// prints). It is 0 where the coronal plane does not meet the rim.
func LateralJump(r float64, arc unit.Angle, o hip.Radiographic) float64 {
	c := (arc / 2).Cos() / o.Anteversion.Cos()
	if math.Abs(c) > 1 {
		return 0
	}
	return Jump(r, unit.Angle(math.Acos(c))-o.Inclination)
}

// cover is a cup's rim about the load: appFromCup turned, and the load in the
// cup's own frame.
type cover struct {
	rim  implant.Rim
	load r3.Vec // in the cup frame
}

// edge returns the direction of the inner rim edge at an azimuth, in the cup
// frame.
func edge(rim implant.Rim, azimuth unit.Angle) r3.Vec {
	v := rim.Face(azimuth).Corner[0]
	s, c := azimuth.Sincos()
	rho := v.Rho()
	return r3.Vec{X: v.Radial / rho * c, Y: v.Radial / rho * s, Z: v.Axial / rho}
}

// angle returns the angle between load and rim edge at an azimuth, negative
// where the load points out of the cup.
func (c cover) angle(azimuth unit.Angle) unit.Angle {
	a := sphere.Between(c.load, edge(c.rim, azimuth))
	if c.outside() {
		return -a
	}
	return a
}

// outside reports whether the load points past the rim, out of the cup.
func (c cover) outside() bool {
	phi := unit.Angle(math.Atan2(c.load.Y, c.load.X))
	return sphere.Between(c.load, r3.Vec{Z: 1}) < sphere.Between(edge(c.rim, phi), r3.Vec{Z: 1})
}

// least returns the azimuth at which the rim comes closest to the load, and the
// angle there: A/2 - angle(w, -n) for a round cup.
func (c cover) least() (azimuth, angle unit.Angle) {
	const step = unit.Degree
	sign := unit.Angle(1)
	if c.outside() {
		sign = -1
	}
	f := func(x float64) float64 { return float64(sphere.Between(c.load, edge(c.rim, unit.Angle(x)))) }
	best, at := math.Inf(1), 0.0
	for i := range 360 {
		x := float64(unit.Angle(i-180) * step)
		if v := f(x); v < best {
			best, at = v, x
		}
	}
	if x, v := solve.Minimum(f, at-float64(step), at+float64(step)); v < best {
		best, at = v, x
	}
	return unit.Angle(at).Wrapped(), sign * unit.Angle(best)
}

// lateral returns the angle from the load to the rim in the coronal plane,
// towards lateral. The cup's coordinates of the coronal plane's superior and
// lateral directions are given. 0 if the rim is not met.
func (c cover) lateral(superior, lateral r3.Vec) unit.Angle {
	beyond := func(t float64) float64 {
		s, co := math.Sincos(t)
		e := r3.Add(r3.Scale(co, superior), r3.Scale(s, lateral))
		phi := unit.Angle(math.Atan2(e.Y, e.X))
		return float64(sphere.Between(e, r3.Vec{Z: 1}) - sphere.Between(edge(c.rim, phi), r3.Vec{Z: 1}))
	}
	const step = math.Pi / 180
	if beyond(0) <= 0 {
		return 0
	}
	for t := step; t < math.Pi; t += step {
		if beyond(t) <= 0 {
			return unit.Angle(solve.Root(beyond, t-step, t))
		}
	}
	return 0
}
