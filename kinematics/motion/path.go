// Package motion holds what a hip is asked to do: paths through postures, each
// with its own zero.
package motion

import (
	"math"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Path is a motion: postures joined linearly in the three joint angles. Zero
// names the pelvic plane in which the joint angles have their zero.
//
// Mechanical is the angle between shaft and mechanical axis where the angles
// are those of the mechanical axis: pelvisFromShaft = pelvisFromFemur ·
// Rx(Mechanical). It is 0 where they are the shaft's own.
type Path struct {
	Zero       hip.Plane
	Waypoints  []hip.Posture
	Mechanical unit.Angle
}

// Place is a point of a path: so far along one of its legs. Leg 0 runs from
// the first waypoint to the second.
type Place struct {
	Leg      int
	Fraction float64 // 0 to 1
}

// Legs returns the number of legs.
func (p Path) Legs() int { return max(0, len(p.Waypoints)-1) }

// At returns the posture at a place of the path.
func (p Path) At(at Place) hip.Posture {
	if p.Legs() == 0 {
		return p.Waypoints[0]
	}
	return p.Waypoints[at.Leg].Toward(p.Waypoints[at.Leg+1], at.Fraction)
}

// ShaftAt returns the posture of the shaft at a place, which is the posture
// itself unless the path's angles are those of the mechanical axis.
func (p Path) ShaftAt(at Place) hip.Posture {
	q := p.At(at)
	if p.Mechanical == 0 {
		return q
	}
	r := q.PelvisFromFemur().Mul(hip.RotationX(p.Mechanical))
	return hip.Posture{
		Flexion:          unit.Angle(math.Atan2(-r[0][1], r[1][1])),
		Adduction:        unit.Angle(math.Atan2(r[2][1], math.Hypot(r[0][1], r[1][1]))),
		InternalRotation: unit.Angle(math.Atan2(-r[2][0], r[2][2])),
	}
}

// End returns the last place of the path.
func (p Path) End() Place {
	if p.Legs() == 0 {
		return Place{}
	}
	return Place{Leg: p.Legs() - 1, Fraction: 1}
}

// Moving returns the joint angle that moves on a leg and whether it is the
// only one; on a leg that moves several it is the one that moves most.
func (p Path) Moving(leg int) (angle hip.JointAngle, alone bool) {
	a, b := p.Waypoints[leg], p.Waypoints[leg+1]
	moved, most := 0, unit.Angle(-1)
	for _, j := range [3]hip.JointAngle{hip.Flexion, hip.Adduction, hip.InternalRotation} {
		d := (b.Angle(j) - a.Angle(j)).Abs()
		if d > 0 {
			moved++
		}
		if d > most {
			angle, most = j, d
		}
	}
	return angle, moved <= 1
}

// Sweep is the path on which one joint angle moves from a start posture to the
// value end.
func Sweep(start hip.Posture, moving hip.JointAngle, end unit.Angle, zero hip.Plane) Path {
	return Path{Zero: zero, Waypoints: []hip.Posture{start, start.With(moving, end)}}
}

// Through is the path from neutral through the given postures.
func Through(zero hip.Plane, postures ...hip.Posture) Path {
	return Path{Zero: zero, Waypoints: append([]hip.Posture{hip.Neutral}, postures...)}
}
