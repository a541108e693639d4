package chart

import (
	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
)

// neck is the neck of a joint as charts turn it: what lies to the left and to
// the right of the joint angles in cupFromNeck.
type neck struct {
	*aperture.Aperture
	cupFromPelvis hip.Rotation // of the plane in which postures have their zero
	femurFromNeck hip.Rotation
}

func neckOf(j kinematics.Joint) neck {
	appFromPelvis := j.APPFromFemur(hip.Neutral, j.Zero())
	return neck{
		Aperture:      j.Aperture,
		cupFromPelvis: j.APPFromCup().Inverse().Mul(appFromPelvis),
		femurFromNeck: appFromPelvis.Inverse().Mul(j.APPFromNeck(hip.Neutral, j.Zero())),
	}
}

// marginOf returns the margin, in degrees, where cupFromNeck is the product of
// two rotations. A round neck is asked for by its axis alone.
func (n neck) marginOf(a, b *hip.Rotation) float64 {
	if n.Neck().Round() {
		return n.Margin(aperture.Pose{Axis: a.Apply(b.Column(2))}).Degrees()
	}
	return n.Margin(poseOf(a.Mul(*b))).Degrees()
}

// poseOf returns a neck in the cup.
func poseOf(cupFromNeck hip.Rotation) aperture.Pose {
	return aperture.Pose{Superior: cupFromNeck.Column(0), Anterior: cupFromNeck.Column(1), Axis: cupFromNeck.Column(2)}
}

// factors returns a rotation for each value of a slice's axes, whose products
// are cupFromNeck. The angle across comes before the one up in the order of
// hip.JointAngle.
func (n neck) factors(s kinematics.Slice) (across, up []hip.Rotation) {
	var left, right hip.Posture
	for a := hip.Flexion; a <= hip.InternalRotation; a++ {
		if a < s.Up.Angle {
			left = left.With(a, s.Held.Angle(a))
		} else {
			right = right.With(a, s.Held.Angle(a))
		}
	}
	across, up = make([]hip.Rotation, s.Across.Count), make([]hip.Rotation, s.Up.Count)
	for i := range across {
		across[i] = n.cupFromPelvis.Mul(left.With(s.Across.Angle, s.Across.At(i)).PelvisFromFemur())
	}
	for i := range up {
		up[i] = right.With(s.Up.Angle, s.Up.At(i)).PelvisFromFemur().Mul(n.femurFromNeck)
	}
	return across, up
}
