package hip

import "rimclear/kinematics/unit"

// Plane names the pelvic plane in which cup angles are measured or in which a
// motion has its zero: the anterior pelvic plane (APP), or the coronal plane of
// the room in one of four stated postures.
type Plane int

const (
	APP Plane = iota
	Supine
	Standing
	RelaxedSitting
	FlexedSitting
	PlaneCount
)

// Tilts is the pelvic tilt of the APP in four postures, positive when the APP
// is tilted anteriorly. The spinopelvic "pelvic tilt" has the opposite sense
// and another zero; only its change can be used here, negated.
type Tilts struct {
	Supine, Standing, RelaxedSitting, FlexedSitting unit.Angle
}

// Of returns the tilt in a posture; the APP has none by definition.
func (t Tilts) Of(p Plane) unit.Angle {
	switch p {
	case Supine:
		return t.Supine
	case Standing:
		return t.Standing
	case RelaxedSitting:
		return t.RelaxedSitting
	case FlexedSitting:
		return t.FlexedSitting
	}
	return 0
}

// APPFromPlane returns the rotation from coordinates of the named plane to
// those of the APP: Rz(p). Seen from the room, vectors of the pelvis turn by
// Rz(-p), so operative inclination stays and operative anteversion falls by p.
func (t Tilts) APPFromPlane(p Plane) Rotation { return RotationZ(t.Of(p)) }
