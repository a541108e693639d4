// Package kinematics answers the questions a surgeon asks of a hip
// replacement: how far does it move before the neck meets the rim, in which
// direction, where on the rim, and which way would it lever out.
//
// The model is of rigid parts. Bone, soft tissue and laxity are not in it.
package kinematics

import (
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// MaxDesigns is how many designs one case compares.
const MaxDesigns = 4

// Case is one hip and the designs considered for it. It is a value: a copy is
// independent, so that undo is a stack of cases.
type Case struct {
	Label   string // free text, no patient's name
	Hip     Hip
	Goal    Goal
	Posture hip.Posture // the posture looked at, zero in Hip.PosturePlane
	Designs [MaxDesigns]Design
	Count   int // designs in use, 1 to MaxDesigns
}

// Hip is what does not change with the design: the side, the pelvis, and the
// planes in which angles are stated.
type Hip struct {
	Side         hip.Side
	Tilts        hip.Tilts
	CupPlane     hip.Plane // the plane in which cup angles are measured
	PosturePlane hip.Plane // the plane in which joint angles have their zero
	Socket       Socket
	// GivenAdduction is the adduction at which flexion and rotation are asked
	// for besides the neutral one.
	GivenAdduction unit.Angle
}

// Design is one bearing and how it is placed.
type Design struct {
	Name    string
	Bearing BearingKind
	Rim     implant.Rim
	Neck    implant.Neck
	Cup     Cup
	Stem    hip.Stem
}

// BearingKind is the kind of bearing, which decides what the socket can hold
// and which warnings apply; the shapes decide contact.
type BearingKind int

const (
	FixedLiner BearingKind = iota
	Resurfacing
	DualMobility
)

// Cup is the cup's orientation, in the definition in which it was stated.
type Cup struct {
	Definition  hip.Definition
	Inclination unit.Angle
	Anteversion unit.Angle
}

// Active returns the designs in use.
func (c *Case) Active() []Design { return c.Designs[:max(0, min(c.Count, MaxDesigns))] }

// HeadNeckRatio returns head diameter over the neck's widest diameter.
func (d Design) HeadNeckRatio() float64 { return d.Rim.HeadDiameter / d.Neck.Widest() }

// offset returns the head-neck offset at an azimuth about the neck axis: how
// far the neck's surface lies inside the head's, in mm.
func (d *Design) offset(psi unit.Angle) float64 {
	return d.Rim.HeadDiameter/2 - d.Neck.Section(psi)
}

// shift moves an oval section towards one side; other sections stay centred.
func (d *Design) shift(centre *float64, by float64) {
	if d.Neck.Oval.Present() {
		*centre += by
	}
}

// Redefined returns the same cup axis stated in another definition. The axis
// stays where it is.
func (c Cup) Redefined(to hip.Definition) Cup {
	if to == c.Definition {
		return c
	}
	i, a := hip.AnglesBy(to, hip.AxisBy(c.Definition, c.Inclination, c.Anteversion))
	return Cup{Definition: to, Inclination: i, Anteversion: a}
}
