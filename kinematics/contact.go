package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Touch is the margin at or below which rim and neck are in contact: a
// tangency is a contact. 1e-9°.
const Touch = 1e-9 * unit.Degree

// Contact is where rim and neck are, or come closest, at one posture. Points
// are in the APP of a right hip, in mm from the head centre; hip.Side mirrors
// them for a left one.
type Contact struct {
	Margin    unit.Angle // by which the neck is clear, negative in contact
	Clearance float64    // shortest distance from the cup's face to the neck outside the ball, mm; 0 in contact
	Azimuth   unit.Angle // of the rim point: 0 superior, positive towards anterior, on both sides
	RimPoint  r3.Vec
	NeckPoint r3.Vec
	Escape    r3.Vec // unit direction, in the opening's plane, in which the head would be levered
}

// InContact reports whether rim and neck touch or overlap.
func (c Contact) InContact() bool { return c.Margin <= Touch }

// Clock returns the rim point as an hour, 0 < h ≤ 12, seen into the opening:
// 12 superior, 3 anterior, 6 inferior, 9 posterior, on both sides.
func (c Contact) Clock() float64 { return Clock(c.Azimuth) }

// Clock returns an azimuth about the cup axis as an hour, 0 < h ≤ 12.
func Clock(azimuth unit.Angle) float64 {
	h := math.Mod(azimuth.Degrees()/30, 12)
	if h <= 0 {
		h += 12
	}
	return h
}

// Contact returns where rim and neck are at a posture with its zero in the
// case's posture plane.
func (j Joint) Contact(p hip.Posture) Contact { return j.contact(p, j.zero) }

func (j Joint) contact(p hip.Posture, zero hip.Plane) Contact {
	pose := j.pose(p, zero)
	t := j.Aperture.Nearest(pose)
	s, c := t.Azimuth.Sincos()
	clearance := 0.0
	if t.Margin > 2*Touch { // a limit stands at Touch itself
		clearance = j.Aperture.Clearance(pose)
	}
	return Contact{
		Margin:    t.Margin,
		Clearance: clearance,
		Azimuth:   t.Azimuth.Wrapped(),
		RimPoint:  j.appFromCup.Apply(t.RimPoint()),
		NeckPoint: j.appFromCup.Apply(j.Aperture.NeckPoint(pose, t)),
		Escape:    j.appFromCup.Apply(r3.Vec{X: -c, Y: -s}),
	}
}
