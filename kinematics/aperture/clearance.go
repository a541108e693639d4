package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/solve"
	"rimclear/kinematics/unit"
)

// Clearance returns the shortest distance in space, in mm, from the face of
// the cup to the surface of the neck outside the ball; 0 in contact.
//
// In a round design it lies in the plane of both axes; otherwise it is sought
// over the samples of the outline and refined on the exact rim, to 1e-4 mm.
func (a *Aperture) Clearance(p Pose) float64 {
	if a.Margin(p) <= 0 {
		return 0
	}
	if a.round {
		return a.faceToNeck(a.rim.Face(0), azimuth(p.Axis), p)
	}
	best := math.Inf(1)
	o := a.pair.stations()
	at := a.closest(o, p, a.closest(o, p, 0, len(o.sample), coarse)-coarse, 2*coarse+1, 1)
	for _, i := range [2]int{at - 1, at} {
		best = math.Min(best, a.clearanceBetween(o, o.wrap(i), p))
	}
	return best
}

// coarse is the stride of the first look for the clearance.
const coarse = 8

// closest returns the sample of least clearance among count from a first one
// on, at a stride.
func (a *Aperture) closest(o *outline, p Pose, from, count, stride int) int {
	best, at := math.Inf(1), from
	for i := from; i < from+count; i += stride {
		s := &o.sample[o.wrap(i)]
		if d := a.roughly(s.polar, s.phi, p); d < best {
			best, at = d, i
		}
	}
	return at
}

// roughly returns the clearance at one azimuth of the rim along the neck's own
// meridian.
func (a *Aperture) roughly(polar, phi unit.Angle, p Pose) float64 {
	f := a.rim.FaceAt(polar)
	best := math.Inf(1)
	for i := range f.Count {
		at := r3.Scale(f.Corner[i].Rho(), direction(f.Corner[i], phi))
		x := r3.Dot(at, p.Axis)
		across := r3.Norm(r3.Sub(at, r3.Scale(x, p.Axis)))
		best = math.Min(best, a.neck.Profile(rollOf(p, at), a.rim.HeadDiameter/2).Distance(x, across))
	}
	return best
}

func (a *Aperture) clearanceAt(polar, phi unit.Angle, p Pose) float64 {
	return a.faceToNeck(a.rim.FaceAt(polar), phi, p)
}

func (a *Aperture) clearanceBetween(o *outline, from int, p Pose) float64 {
	f := func(t float64) float64 {
		phi, polar := o.between(from, t)
		return a.clearanceAt(polar, phi, p)
	}
	_, d := solve.Minimum(f, 0, 1)
	return math.Min(d, math.Min(f(0), f(1)))
}

// faceToNeck returns the distance from the face outline at one azimuth to the
// neck: at its corners, and between them.
func (a *Aperture) faceToNeck(f implant.Face, phi unit.Angle, p Pose) float64 {
	best := math.Inf(1)
	sp, cp := phi.Sincos()
	space := func(v implant.Vertex) r3.Vec {
		return r3.Vec{X: v.Radial * cp, Y: v.Radial * sp, Z: v.Axial}
	}
	for i := range f.Count {
		best = math.Min(best, a.pointToNeck(space(f.Corner[i]), p))
		if i > 0 && a.round {
			g := func(t float64) float64 { return a.pointToNeck(space(lerp(f.Corner[i-1], f.Corner[i], t)), p) }
			_, d := solve.Minimum(g, 0, 1)
			best = math.Min(best, d)
		}
	}
	return best
}

// pointToNeck returns the distance from a point to the neck's surface outside
// the ball.
func (a *Aperture) pointToNeck(at r3.Vec, p Pose) float64 {
	roll := rollOf(p, at)
	x := r3.Dot(at, p.Axis)
	across := r3.Norm(r3.Sub(at, r3.Scale(x, p.Axis)))
	if a.neck.Round() {
		return a.neck.Profile(roll, a.rim.HeadDiameter/2).Distance(x, across)
	}
	// The nearest point of a neck that is not round may lie at another azimuth.
	f := func(d float64) float64 {
		s, c := math.Sincos(d)
		prof := a.neck.Profile(roll+unit.Angle(d), a.rim.HeadDiameter/2)
		return math.Hypot(prof.Distance(x, across*c), across*s)
	}
	_, d := solve.Minimum(f, -1, 1)
	return d
}
