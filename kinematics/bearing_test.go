package kinematics

import (
	"testing"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Where the head lies deeper than the liner's centre there is room between the
// ball and the bearing, and a skirt that ends in it passes under the edge of a
// lip. It is then stopped by the bearing, not by the face.
func TestASkirtThatPassesUnderALipMeetsTheBearing(t *testing.T) {
	h := Hip{Side: 1, Tilts: hip.Tilts{Supine: 0.353357, Standing: 0.164396, RelaxedSitting: 0.020494, FlexedSitting: 0.41602}, CupPlane: 4, PosturePlane: 4}
	var d Design
	d.Rim = implant.Rim{HeadDiameter: 42.2764, Arc: 3.12387, Wall: 3.847, Inset: 3.369}
	d.Rim.Lips[0] = implant.Lip{Height: 0.229454, Centre: -1.613066, Plateau: 0.229363, Ramp: 0.521172}
	d.Neck = implant.Neck{Diameter: 14.028, Skirt: implant.Skirt{Diameter: 20.66827, Length: 19.23421}}
	d.Cup.Inclination, d.Cup.Anteversion = 0.488604, 0.578967
	d.Stem = hip.Stem{Anteversion: 0.036482, NeckShaft: 2.488775, Varus: -0.122446, SagittalTilt: -0.03355}
	m := motion.Path{Zero: 1, Waypoints: []hip.Posture{{}, {Adduction: -143.3506 * unit.Degree}}}

	var sum solidTally
	agreeWithSolids(t, h, d, m, &sum)
	j := NewJoint(h, d)
	under := j.Limit(m)
	d.Neck.Skirt.Length += 3 // now it reaches past the lip's edge
	if past := NewJoint(h, d).Limit(m); past.Angle.Abs() > under.Angle.Abs() {
		t.Errorf("a longer skirt stops at %v, the shorter at %v", past.Angle, under.Angle)
	}
	for x := under.Angle.Abs() - 1*unit.Degree; x < under.Angle.Abs()+12*unit.Degree; x += 0.1 * unit.Degree {
		p := hip.Posture{Adduction: -x}
		if free := j.On(m).Free(p); free != (j.On(m).Contact(p).Margin > Touch) {
			t.Errorf("at %v abduction free is %v, the margin %v", x, free, j.On(m).Contact(p).Margin)
		}
	}
}
