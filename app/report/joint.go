package report

import (
	"rimclear/app/scene"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Placed is a design in a hip at one posture.
type Placed struct {
	Design  kinematics.Design
	Joint   kinematics.Joint
	Posture hip.Posture
	Zero    hip.Plane // in which the posture has its zero
	Contact kinematics.Contact
}

// PlacedAt returns the i-th design of a case at a posture.
func PlacedAt(c *kinematics.Case, i int, p hip.Posture) Placed {
	return placedOf(c, i, kinematics.NewJoint(c.Hip, c.Designs[i]), p)
}

// placedOf is PlacedAt where the joint is at hand.
func placedOf(c *kinematics.Case, i int, j kinematics.Joint, p hip.Posture) Placed {
	return Placed{Design: c.Designs[i], Joint: j, Posture: p, Zero: c.Hip.PosturePlane, Contact: j.Contact(p)}
}

// Parts returns the parts of the picture of a placed design: cup, head, neck
// and stem, where they touch a mark on the rim, and the bones if wanted.
func Parts(p Placed, bones bool) []scene.Instance {
	var list []scene.Instance
	add := func(m *scene.Mesh, at scene.Pose, of scene.Material) {
		if m != nil {
			list = append(list, scene.Instance{Mesh: m, Pose: at, Material: of})
		}
	}
	d := p.Design
	cup := scene.PartPose(p.Joint.APPFromCup())
	femur := scene.FramePose(p.Joint.APPFromFemur(p.Posture, p.Zero))
	neck := scene.PartPose(p.Joint.APPFromNeck(p.Posture, p.Zero))
	b := scene.BearingOf(d.Rim)
	if bones {
		add(scene.Hemipelvis().Reamed(b.Reamed), scene.Still, scene.IvoryBone)
	}
	add(b.Shell, cup, scene.DarkShell)
	add(b.Liner, cup, scene.PaleBlue)
	if b.Mobile != nil {
		add(b.Mobile, scene.AxisPose(p.Joint.LinerAt(p.Posture)), scene.PaleBlue)
	}
	add(b.Head, scene.Still, scene.Ceramic)
	bone := scene.FemurNeck
	if d.Bearing == kinematics.Resurfacing {
		add(scene.NeckOf(&d), neck, scene.IvoryBone)
	} else {
		bone = scene.FemurCut
		stem := scene.UsualStem(d.Stem.Axis())
		add(scene.NeckOf(&d), neck, scene.BrushedGrey)
		add(stem.Mesh(), femur, scene.BrushedGrey)
	}
	if bones {
		add(bone(), femur, scene.IvoryBone)
	}
	if p.Contact.Margin < nearly {
		add(scene.MarkOn(d.Rim, p.Contact.Azimuth), cup, scene.ContactMark)
	}
	return list
}

// nearly is the margin below which the rim is marked where it is nearest: a
// limit is found to less than this.
const nearly = 1e-3 * unit.Degree
