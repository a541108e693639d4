package view

import (
	"gonum.org/v1/gonum/spatial/r3"

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
	cut     bool    // the bearing's meshes are for a picture that cuts them
	list    []scene.Instance
	skin    skin

	thigh, thighEnd int // the parts in the list that move with the thigh

	Free          bool // paint the free area on the bearing's sphere
	Pelvis, Femur bool // show the bones
	Glass         bool // and see through them
	Cut           bool // cut shell, liner and bones open

	Flash float64 // how brightly the mark shines, 0 to 1
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
	levered := j.levered(s)
	femur.At, neck.At = levered, levered
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
		liner := scene.AxisPose(s.Joint.LinerAt(s.Case.Posture))
		liner.At = levered
		add(j.bearing.Mobile, liner, scene.Mobile)
	}
	head := scene.Still
	head.At = levered
	add(j.bearing.Head, head, scene.Ceramic)
	j.thigh = len(j.list)
	j.femoral(d, neck, femur, bone, add)
	j.thighEnd = len(j.list)
	if j.Free {
		j.skin.paint(s)
		at := scene.FramePose(s.Joint.APPFromCup())
		at.At = levered
		add(j.skin.area, at, scene.FreeSkin)
		add(j.skin.edge, at, scene.FreeSkin.Faded(1))
	}
	if j.skin.free != nil || j.skin.past != nil {
		at := scene.FramePose(s.Joint.APPFromCup())
		at.At = levered
		add(j.skin.free, at, scene.Way)
		add(j.skin.past, at, scene.ContactMark)
	}
	if s.Contact.InContact() {
		add(j.wedge(s), cup, scene.ContactMark.Lit(j.Flash))
	}
	return j.list
}

// femoral adds neck, stem and femur. Under the painted area a neck of bone, which
// covers it, is glass.
func (j *joint) femoral(d *kinematics.Design, neck, femur scene.Pose, bone scene.Material, add func(*scene.Mesh, scene.Pose, scene.Material)) {
	if d.Bearing == kinematics.Resurfacing {
		collum := scene.IvoryBone.Uncut()
		if j.Free {
			collum, bone = collum.Faded(glass), bone.Faded(glass)
		}
		add(j.collum, neck, collum)
		if j.Femur {
			add(scene.FemurNeck(), femur, bone)
		}
		return
	}
	add(j.collum, neck, scene.BrushedGrey)
	add(j.body, femur, scene.BrushedGrey)
	if j.Femur {
		add(scene.FemurCut(), femur, bone)
	}
}

// levered returns where the head's centre lies, in mm: past contact the rim has
// levered it out of its seat.
func (j *joint) levered(s *session.Snapshot) r3.Vec {
	if s.Contact.Margin >= -pastBy {
		return r3.Vec{}
	}
	return s.Joint.LeveredCentre(s.Contact, -s.Contact.Margin)
}

// wedge returns the mark on the rim where it is touched.
func (j *joint) wedge(s *session.Snapshot) *scene.Mesh {
	clock := s.Contact.Azimuth.Radians()
	if j.Flash > 0 {
		j.mark = nil
		return scene.FlashOn(j.rim, s.Contact.Azimuth, j.Flash)
	}
	if j.mark == nil || clock != j.marked {
		j.marked, j.mark = clock, scene.MarkOn(j.rim, s.Contact.Azimuth)
	}
	return j.mark
}

// plane is where the parts are cut open: along the cup's axis, through the place
// of the rim that the neck is nearest to. Without a cut it is none.
func (j *joint) plane(s *session.Snapshot) scene.Plane {
	if !j.Cut {
		return scene.Plane{}
	}
	across := r3.Cross(s.Joint.CupAxis(), s.Contact.RimPoint)
	if r3.Norm(across) < 1e-9 {
		return scene.Plane{}
	}
	return scene.Plane{Normal: r3.Unit(across)}
}

// remake makes the meshes of a design that are not at hand.
func (j *joint) remake(d *kinematics.Design) {
	if d.Rim != j.rim || j.bearing.Head == nil || j.cut != j.Cut {
		j.rim, j.mark, j.cut = d.Rim, nil, j.Cut
		j.bearing = scene.BearingOf(d.Rim)
		if j.cut {
			j.bearing = scene.CutBearingOf(d.Rim)
		}
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
