package view

import (
	"rimclear/app/scene"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
)

// joint makes the parts of the picture from a snapshot. Meshes are made anew
// only when the shape they show changes.
type joint struct {
	rim  implant.Rim
	neck implant.Neck
	stem hip.Stem

	bearing scene.Bearing
	collum  *scene.Mesh // the neck
	body    *scene.Mesh // of the stem
	pelvis  *scene.Mesh
	reamed  float64 // radius to which the pelvis was opened, mm
	mark    *scene.Mesh
	marked  float64 // clock position of the mark
	list    []scene.Instance

	Pelvis, Femur bool // show the bones
	Glass         bool // and see through them
}

func newJoint() *joint { return &joint{Pelvis: true, Femur: true} }

// glass is the opacity of bones one sees through.
const glass = 0.28

// instances returns the parts as they stand in a snapshot. The slice is used
// again.
func (j *joint) instances(s *session.Snapshot) []scene.Instance {
	d := s.Design()
	j.remake(d)
	cup := scene.PartPose(s.Joint.APPFromCup())
	femur := scene.FramePose(s.Joint.APPFromFemur(s.Case.Posture, s.Case.Hip.PosturePlane))
	neck := scene.PartPose(s.Joint.APPFromNeck(s.Case.Posture, s.Case.Hip.PosturePlane))
	bone := scene.IvoryBone
	if j.Glass {
		bone = bone.Faded(glass)
	}
	j.list = j.list[:0]
	add := func(m *scene.Mesh, at scene.Pose, of scene.Material) {
		if m != nil {
			j.list = append(j.list, scene.Instance{Mesh: m, Pose: at, Material: of})
		}
	}
	if j.Pelvis {
		add(j.pelvis, scene.Still, bone)
	}
	add(j.bearing.Shell, cup, scene.DarkShell)
	add(j.bearing.Liner, cup, scene.PaleBlue)
	if j.bearing.Mobile != nil {
		add(j.bearing.Mobile, scene.AxisPose(s.Joint.LinerAt(s.Case.Posture)), scene.PaleBlue)
	}
	add(j.bearing.Head, scene.Still, scene.Ceramic)
	if d.Bearing == kinematics.Resurfacing {
		add(j.collum, neck, scene.IvoryBone)
		if j.Femur {
			add(scene.FemurNeck(), femur, bone)
		}
	} else {
		add(j.collum, neck, scene.BrushedGrey)
		add(j.body, femur, scene.BrushedGrey)
		if j.Femur {
			add(scene.FemurCut(), femur, bone)
		}
	}
	if s.Contact.InContact() {
		add(j.wedge(s), cup, scene.ContactMark)
	}
	return j.list
}

// wedge returns the mark on the rim where it is touched.
func (j *joint) wedge(s *session.Snapshot) *scene.Mesh {
	clock := s.Contact.Azimuth.Radians()
	if j.mark == nil || clock != j.marked {
		j.marked, j.mark = clock, scene.MarkOn(j.rim, s.Contact.Azimuth)
	}
	return j.mark
}

// remake makes the meshes of a design that are not at hand.
func (j *joint) remake(d *kinematics.Design) {
	if d.Rim != j.rim || j.bearing.Head == nil {
		j.rim, j.mark = d.Rim, nil
		j.bearing = scene.BearingOf(d.Rim)
	}
	if wide := j.bearing.Reamed; j.pelvis == nil || wide != j.reamed {
		j.reamed, j.pelvis = wide, scene.Hemipelvis().Reamed(wide)
	}
	if d.Neck != j.neck || d.Stem != j.stem || j.collum == nil {
		j.neck, j.stem = d.Neck, d.Stem
		j.collum = scene.NeckOf(d)
		j.body = scene.UsualStem(d.Stem.Axis()).Mesh()
	}
}
