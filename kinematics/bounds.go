package kinematics

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/sphere"
	"rimclear/kinematics/unit"
)

// Range is from a least to a greatest value; the zero value bounds nothing.
type Range struct{ Least, Most unit.Angle }

// Present reports whether the range bounds anything.
func (r Range) Present() bool { return r != Range{} }

// Within returns the range, or a wider one where it bounds nothing.
func (r Range) Within(all Range) Range {
	if r.Present() {
		return r
	}
	return all
}

// excess returns by how much a value lies outside.
func (r Range) excess(x unit.Angle) unit.Angle {
	if !r.Present() {
		return 0
	}
	return max(0, r.Least-x, x-r.Most)
}

// Bounds are what a cup's position is held to besides the motions. Zero values
// bound nothing.
type Bounds struct {
	Definition  hip.Definition // of the two ranges
	Plane       hip.Plane      // in which they are measured
	Inclination Range
	Anteversion Range
	LeastJump   float64 // over all rim points under Load, mm
	LeastPatch  float64 // from the contact patch's centre to the rim under Load, mm (resurfacings only)
	Load        Load
}

// Any reports whether anything is bounded.
func (b Bounds) Any() bool {
	return b.Inclination.Present() || b.Anteversion.Present() || b.LeastJump > 0 || b.LeastPatch > 0
}

// Where cups are looked for if no range is given.
var (
	allInclination = Range{0, 90 * unit.Degree}
	allAnteversion = Range{-60 * unit.Degree, 90 * unit.Degree}
)

// fence is bounds made ready for one hip and bearing.
type fence struct {
	Bounds
	rim      implant.Rim
	bearing  BearingKind
	plane    hip.Rotation // APP from the bounds' plane
	cupPlane hip.Rotation
	load     r3.Vec
}

func newFence(h Hip, d Design, b Bounds) fence {
	return fence{
		Bounds: b, rim: d.Rim, bearing: d.Bearing,
		plane:    h.Tilts.APPFromPlane(b.Plane),
		cupPlane: h.Tilts.APPFromPlane(h.CupPlane),
		load:     b.Load.InAPP(h.Tilts),
	}
}

// axis returns the cup axis in the APP at angles of the bounds' definition and
// plane.
func (f *fence) axis(inclination, anteversion unit.Angle) r3.Vec {
	return f.plane.Apply(hip.AxisBy(f.Definition, inclination, anteversion))
}

// angles reads a cup axis of the APP in the bounds' definition and plane.
func (f *fence) angles(n r3.Vec) (inclination, anteversion unit.Angle) {
	return hip.AnglesBy(f.Definition, f.plane.Inverse().Apply(n))
}

// excess returns by how much a cup axis breaks the bounds, 0 where it keeps
// them: in radians, lengths as a share of the head's radius.
func (f *fence) excess(n r3.Vec) float64 {
	i, a := f.angles(n)
	e := float64(f.Inclination.excess(i) + f.Anteversion.excess(a))
	return e + f.coverExcess(n)
}

// coverExcess is the part of excess that the load asks for.
func (f *fence) coverExcess(n r3.Vec) float64 {
	wantPatch := f.LeastPatch > 0 && f.bearing == Resurfacing
	if f.LeastJump <= 0 && !wantPatch {
		return 0
	}
	r, angle := f.rim.HeadDiameter/2, f.rimAngle(n)
	short := 0.0
	if f.LeastJump > 0 {
		short = max(short, (f.LeastJump-2*r*(angle/2).Sin())/r)
	}
	if wantPatch {
		short = max(short, (f.LeastPatch-r*float64(angle))/r)
	}
	return short
}

// rimAngle returns the least angle between load and rim.
func (f *fence) rimAngle(n r3.Vec) unit.Angle {
	if f.rim.Round() {
		return 180*unit.Degree - f.rim.Face(0).Corner[0].Gamma() - sphere.Between(f.load, r3.Scale(-1, n))
	}
	cup := f.cupPlane.Mul(hip.PlaneFromCup(f.cupPlane.Inverse().Apply(n)))
	_, angle := cover{f.rim, cup.Inverse().Apply(f.load)}.least()
	return angle
}
