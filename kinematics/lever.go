package kinematics

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/sphere"
	"rimclear/kinematics/unit"
)

// Lever is what happens when a motion is forced beyond its first contact by a
// small turn: the neck pivots on the contact point and the head centre rises
// towards the opposite rim. Rigid parts, no slip, no soft tissue: a turn is
// never safe.
type Lever struct {
	Turn    unit.Angle // beyond contact
	Travel  float64    // of the head centre, mm: 2|OP|·sin(turn/2)
	Barrier float64    // left until the head lies under the opposite rim point along the load, mm
}

// LeverTurns are the turns beyond contact for which levers are given.
var LeverTurns = [3]unit.Angle{5 * unit.Degree, 10 * unit.Degree, 15 * unit.Degree}

// Levers returns the lever-out past the contact of a limit, under a load given
// in the anterior pelvic plane. The head centre O turns about the contact point
// P, about the rim's tangent there, to O'; the opposite rim point P' lies six
// hours away. The barrier is |C' - O'| with C' = P' - R·w, the centre of a head
// that lies under P' along the load w.
func (j Joint) Levers(c Contact, load r3.Vec) (list [len(LeverTurns)]Lever) {
	rim := j.Aperture.Rim()
	r := rim.HeadDiameter / 2
	over := r3.Scale(r, j.appFromCup.Apply(edge(rim, c.Azimuth+180*unit.Degree)))
	target := r3.Sub(over, r3.Scale(r, load))
	for i, turn := range LeverTurns {
		centre := j.LeveredCentre(c, turn)
		list[i] = Lever{
			Turn:    turn,
			Travel:  r3.Norm(centre),
			Barrier: r3.Norm(r3.Sub(target, centre)),
		}
	}
	return list
}

// LeveredCentre returns where the head centre comes to lie, in mm in the APP of
// a right hip, when the neck is forced by a turn beyond its contact: it turns
// about the contact point, about the rim's tangent there, without slip.
func (j Joint) LeveredCentre(c Contact, turn unit.Angle) r3.Vec {
	axis := r3.Unit(r3.Cross(c.RimPoint, j.CupAxis()))
	// The centre is -P seen from P, and swings out of the cup.
	return r3.Add(c.RimPoint, sphere.Turn(r3.Scale(-1, c.RimPoint), axis, -turn))
}

// EscapeJump returns the jump distance towards where a contact would lever the
// head out, under a load given in the anterior pelvic plane.
func (j Joint) EscapeJump(c Contact, load r3.Vec) float64 {
	rim := j.Aperture.Rim()
	k := cover{rim, j.cupFromAPP.Apply(load)}
	return Jump(rim.HeadDiameter/2, k.angle(c.Azimuth+180*unit.Degree))
}
