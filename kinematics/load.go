package kinematics

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Load is the direction in which the head is pressed into the cup, seen from
// the room, in one posture of the pelvis. Key names it; Source is the key of
// the words on where it comes from.
type Load struct {
	Key      string
	Plane    hip.Plane  // the posture in which it acts
	Medial   unit.Angle // from the vertical towards medial
	Anterior unit.Angle // from the vertical towards anterior
	Basis    motion.Basis
	Source   string
}

// Loads are the loads asked about. 10° medial of the vertical in standing is
// the usual assumption (Clarke & Lazennec, Reconstr Rev 2015;5(3)); in sitting
// and rising the same direction is assumed, the pelvis tilted as it is there.
var Loads = []Load{
	{Key: "standing", Plane: hip.Standing, Medial: 10 * unit.Degree, Basis: motion.Found, Source: "source_clarke"},
	{Key: "seated", Plane: hip.RelaxedSitting, Medial: 10 * unit.Degree, Basis: motion.Assumed, Source: "source_load_assumed"},
	{Key: "rising", Plane: hip.FlexedSitting, Medial: 10 * unit.Degree, Basis: motion.Assumed, Source: "source_load_assumed"},
}

// Direction returns the unit vector of the load, up and medial, in the room's
// frame of a right hip.
func (l Load) Direction() r3.Vec {
	sm, cm := l.Medial.Sincos()
	sa, ca := l.Anterior.Sincos()
	return r3.Vec{X: cm * sa, Y: cm * ca, Z: -sm}
}

// InAPP returns it in the anterior pelvic plane.
func (l Load) InAPP(t hip.Tilts) r3.Vec { return t.APPFromPlane(l.Plane).Apply(l.Direction()) }
