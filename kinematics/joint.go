package kinematics

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Joint is a design placed in a hip: everything brought to the anterior pelvic
// plane (APP) of a right hip, ready to be asked. It is cheap to make, so it is
// made anew for every change of a slider; the aperture is not, and is shared.
type Joint struct {
	Aperture *aperture.Aperture

	tilts         hip.Tilts
	zero          hip.Plane
	side          hip.Side
	adduction     unit.Angle
	appFromCup    hip.Rotation
	cupFromAPP    hip.Rotation
	femurFromNeck hip.Rotation
	cosTheta      float64
}

// Assemble places a design's aperture in a hip.
func Assemble(h Hip, d Design, ap *aperture.Aperture) Joint {
	axis := hip.AxisBy(d.Cup.Definition, d.Cup.Inclination, d.Cup.Anteversion)
	j := Joint{
		Aperture:      ap,
		tilts:         h.Tilts,
		zero:          h.PosturePlane,
		side:          h.Side,
		adduction:     h.GivenAdduction,
		appFromCup:    h.Tilts.APPFromPlane(h.CupPlane).Mul(hip.PlaneFromCup(axis)),
		femurFromNeck: d.Stem.FemurFromNeck(),
	}
	j.cupFromAPP = j.appFromCup.Inverse()
	if theta, round := ap.Theta(); round {
		j.cosTheta = theta.Cos()
	}
	return j
}

// NewJoint builds the aperture and places it, where no cache is at hand.
func NewJoint(h Hip, d Design) Joint { return Assemble(h, d, aperture.Build(d.Rim, d.Neck)) }

// CupAxis returns the unit vector out of the cup's opening, in the APP of a
// right hip.
func (j Joint) CupAxis() r3.Vec { return j.appFromCup.Column(2) }

// APPFromCup returns the rotation from cup to APP coordinates.
func (j Joint) APPFromCup() hip.Rotation { return j.appFromCup }

// APPFromNeck returns the rotation from neck to APP coordinates at a posture
// whose zero is in the given plane.
func (j Joint) APPFromNeck(p hip.Posture, zero hip.Plane) hip.Rotation {
	return j.APPFromFemur(p, zero).Mul(j.femurFromNeck)
}

// APPFromFemur returns the rotation from shaft to APP coordinates at a posture
// whose zero is in the given plane.
func (j Joint) APPFromFemur(p hip.Posture, zero hip.Plane) hip.Rotation {
	r := p.PelvisFromFemur()
	if t := j.tilts.Of(zero); t != 0 {
		r = hip.RotationZ(t).Mul(r)
	}
	return r
}

// pose returns the neck in the cup.
func (j Joint) pose(p hip.Posture, zero hip.Plane) aperture.Pose {
	r := j.cupFromAPP.Mul(j.APPFromNeck(p, zero))
	return aperture.Pose{Superior: r.Column(0), Anterior: r.Column(1), Axis: r.Column(2)}
}

// On returns the joint as a path sees it: its postures have the path's zero,
// and where they are those of the mechanical axis, the neck is turned in the
// femur by what lies between it and the shaft.
func (j Joint) On(m motion.Path) Joint {
	j.zero = m.Zero
	if m.Mechanical != 0 {
		j.femurFromNeck = hip.RotationX(m.Mechanical).Mul(j.femurFromNeck)
	}
	return j
}

// Zero returns the plane in which postures have their zero.
func (j Joint) Zero() hip.Plane { return j.zero }

// Side returns the side of the body.
func (j Joint) Side() hip.Side { return j.side }

// Free reports whether neck and rim are apart at a posture, on the exact shapes.
func (j Joint) Free(p hip.Posture) bool { return j.Aperture.Free(j.pose(p, j.zero)) }

// Margin returns the angle by which the neck is clear of the rim at a posture,
// negative in contact (see aperture.Margin).
func (j Joint) Margin(p hip.Posture) unit.Angle { return j.Aperture.Margin(j.pose(p, j.zero)) }
