package motion

import (
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Setting is what a motion needs to know of the patient before its angles mean
// a pose: the pelvic tilts, and by how much the shaft axis differs from the
// mechanical axis (knee centre to hip centre), which recordings use: positive
// when the shaft runs from lateral above to medial below, as it does; about 6°
// (UsualMechanical), 0 to leave it out.
type Setting struct {
	Tilts      hip.Tilts
	Mechanical unit.Angle
}

// UsualMechanical is the usual angle between shaft and mechanical axis
// (patient-specific; from memory).
const UsualMechanical = 6 * unit.Degree

// Reference says what the angles of a motion are counted from.
type Reference int

const (
	PelvisReference    Reference = iota // joint angles, zero in the anterior pelvic plane: no tilt acts
	PostureReference                    // joint angles, zero at the pelvis of a stated posture
	RoomReference                       // thigh angles in the room, the pelvis tilted as in a stated posture
	RecordingReference                  // joint angles, zero in a recording's own pelvis: not converted
	ReferenceCount
)

// ReferenceKeys are the words for a reference in files, in their order.
var ReferenceKeys = []string{"pelvis", "posture", "room", "recording"}

// Key returns the word for the reference in files.
func (r Reference) Key() string { return ReferenceKeys[r] }

// PlaneKeys are the words for the planes in files, in the order of hip.Plane.
var PlaneKeys = []string{"app", "supine", "standing", "relaxed_sitting", "flexed_sitting"}

// Zero is where the angles of a motion have their zero. Basis says how well
// that is known: many papers do not state it.
type Zero struct {
	Reference Reference
	Plane     hip.Plane // of PostureReference; of RoomReference where a waypoint names none
	Basis     Basis
}

// Converted reports whether the zero is known, so that the motion could be
// brought to the anterior pelvic plane. If not, it is used as if it had its
// zero there, and that must be said: expect an offset of several degrees.
func (z Zero) Converted() bool { return z.Reference != RecordingReference }

// Tilted reports whether the patient's pelvic tilt acts on the motion.
func (z Zero) Tilted() bool {
	return z.Reference == PostureReference || z.Reference == RoomReference
}

// plane returns the plane of a waypoint that names one of its own, or none.
func (z Zero) plane(own hip.Plane) hip.Plane {
	switch {
	case !z.Tilted():
		return hip.APP
	case z.Reference == RoomReference && own != hip.APP:
		return own
	}
	return z.Plane
}

// path joins postures whose zeros lie in the given planes. A tilt adds to
// flexion exactly, Rz(p)·Rz(flexion) = Rz(p + flexion), so a motion during
// which the pelvis rolls from one posture's tilt to another's is brought to the
// plane of its last posture as a whole: an error of tilt that is common to all
// postures then acts on it as on any other.
func (s Setting) path(planes []hip.Plane, postures []hip.Posture, mechanical bool) Path {
	last := planes[len(planes)-1]
	p := Path{Zero: last, Waypoints: postures}
	if mechanical {
		p.Mechanical = s.Mechanical
	}
	if same(planes) {
		return p
	}
	p.Waypoints = make([]hip.Posture, len(postures))
	for i, q := range postures {
		q.Flexion += s.Tilts.Of(planes[i]) - s.Tilts.Of(last)
		p.Waypoints[i] = q
	}
	return p
}

func same(planes []hip.Plane) bool {
	for _, p := range planes {
		if p != planes[0] {
			return false
		}
	}
	return true
}
