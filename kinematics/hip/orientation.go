package hip

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/unit"
)

// Definition names one of the three ways to state a cup's orientation
// (Murray DW, J Bone Joint Surg Br 1993;75-B:228-232).
type Definition int

const (
	ByRadiograph Definition = iota
	ByOperation
	ByAnatomy
)

// Radiographic orientation: inclination between the longitudinal axis and the
// cup axis projected on the coronal plane; anteversion between the cup axis
// and the coronal plane.
type Radiographic struct{ Inclination, Anteversion unit.Angle }

// Operative orientation: inclination between the cup axis and the sagittal
// plane; anteversion between the longitudinal axis and the cup axis projected
// on the sagittal plane.
type Operative struct{ Inclination, Anteversion unit.Angle }

// Anatomic orientation: inclination between the cup axis and the longitudinal
// axis; anteversion between the transverse axis and the cup axis projected on
// the transverse plane.
type Anatomic struct{ Inclination, Anteversion unit.Angle }

// Axis returns the unit vector out of the cup's opening, in the plane in which
// the angles were measured (Murray 1993).
func (o Radiographic) Axis() r3.Vec {
	sa, ca := o.Anteversion.Sincos()
	si, ci := o.Inclination.Sincos()
	return r3.Vec{X: sa, Y: -ca * ci, Z: ca * si}
}

// Axis returns the unit vector out of the cup's opening (Murray 1993).
func (o Operative) Axis() r3.Vec {
	sa, ca := o.Anteversion.Sincos()
	si, ci := o.Inclination.Sincos()
	return r3.Vec{X: ci * sa, Y: -ci * ca, Z: si}
}

// Axis returns the unit vector out of the cup's opening (Murray 1993).
func (o Anatomic) Axis() r3.Vec {
	sa, ca := o.Anteversion.Sincos()
	si, ci := o.Inclination.Sincos()
	return r3.Vec{X: si * sa, Y: -ci, Z: si * ca}
}

// RadiographicOf reads the radiographic angles off a cup axis.
func RadiographicOf(n r3.Vec) Radiographic {
	return Radiographic{
		Inclination: atan2(n.Z, -n.Y),
		Anteversion: atan2(n.X, math.Hypot(n.Y, n.Z)),
	}
}

// OperativeOf reads the operative angles off a cup axis.
func OperativeOf(n r3.Vec) Operative {
	return Operative{
		Inclination: atan2(n.Z, math.Hypot(n.X, n.Y)),
		Anteversion: atan2(n.X, -n.Y),
	}
}

// AnatomicOf reads the anatomic angles off a cup axis.
func AnatomicOf(n r3.Vec) Anatomic {
	return Anatomic{
		Inclination: atan2(math.Hypot(n.X, n.Z), -n.Y),
		Anteversion: atan2(n.X, n.Z),
	}
}

// AxisBy returns the cup axis stated by one of the three definitions.
func AxisBy(d Definition, inclination, anteversion unit.Angle) r3.Vec {
	switch d {
	case ByOperation:
		return Operative{inclination, anteversion}.Axis()
	case ByAnatomy:
		return Anatomic{inclination, anteversion}.Axis()
	}
	return Radiographic{inclination, anteversion}.Axis()
}

// AnglesBy reads inclination and anteversion off a cup axis by one of the
// three definitions.
func AnglesBy(d Definition, n r3.Vec) (inclination, anteversion unit.Angle) {
	switch d {
	case ByOperation:
		o := OperativeOf(n)
		return o.Inclination, o.Anteversion
	case ByAnatomy:
		o := AnatomicOf(n)
		return o.Inclination, o.Anteversion
	}
	o := RadiographicOf(n)
	return o.Inclination, o.Anteversion
}

// RadiographicFromEllipse returns the orientation read from an AP radiograph:
// the inclination of the long axis of the rim's projected ellipse, and
// sin(anteversion) = minor axis / major axis.
//
// It holds for a parallel projection; a divergent beam changes it. One view
// cannot tell the sign: retroverted says which.
func RadiographicFromEllipse(inclination unit.Angle, minor, major float64, retroverted bool) (Radiographic, error) {
	if !(major > 0) || math.IsInf(major, 0) {
		return Radiographic{}, fmt.Errorf("major axis %g mm: must be above 0", major)
	}
	if !(minor >= 0 && minor <= major) {
		return Radiographic{}, fmt.Errorf("minor axis %g mm: must be from 0 to the major axis, %g mm", minor, major)
	}
	v := unit.Angle(math.Asin(minor / major))
	if retroverted {
		v = -v
	}
	return Radiographic{Inclination: inclination, Anteversion: v}, nil
}

func atan2(y, x float64) unit.Angle { return unit.Angle(math.Atan2(y, x)) }
