package view

import (
	"math"

	"rimclear/app/scene"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// joint makes the parts of the picture from a snapshot. Meshes are made anew
// only when the shape they show changes.
type joint struct {
	rim  implant.Rim
	neck implant.Neck
	stem hip.Stem

	liner, shell *scene.Mesh
	mobile       *scene.Mesh // the mobile liner of a dual mobility bearing
	head         *scene.Mesh
	collum       *scene.Mesh // the neck
	body         *scene.Mesh // of the stem
	pelvis       *scene.Mesh
	reamed       float64 // radius to which the pelvis was opened, mm
	mark         *scene.Mesh
	marked       float64 // clock position of the mark
	list         []scene.Instance

	Pelvis, Femur bool // show the bones
	Glass         bool // and see through them
}

func newJoint() *joint { return &joint{Pelvis: true, Femur: true} }

// What follows is for the eye alone; the model has no part in it.
const (
	shellBehind = 7 * math.Pi / 180 // how much farther from the opening the shell ends than the liner
	shellWall   = 3.5               // mm
	reamedBy    = 1.0               // room between shell and bone, mm
	neckEnd     = 36.0              // how far from the head centre a neck is drawn at least, mm
	gap         = 0.15              // between surfaces that would share their pixels, mm
	glass       = 0.28              // opacity of bones one sees through
)

// instances returns the parts as they stand in a snapshot. The slice is used
// again.
func (j *joint) instances(s *session.Snapshot) []scene.Instance {
	d := s.Design()
	j.remake(d)
	cup := partPose(s.Joint.APPFromCup())
	femur := framePose(s.Joint.APPFromFemur(s.Case.Posture, s.Case.Hip.PosturePlane))
	neck := partPose(s.Joint.APPFromNeck(s.Case.Posture, s.Case.Hip.PosturePlane))
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
	add(j.shell, cup, scene.DarkShell)
	add(j.liner, cup, scene.PaleBlue)
	add(j.mobile, neck, scene.PaleBlue)
	add(j.head, scene.Still, scene.Ceramic)
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
		r := j.rim.HeadDiameter / 2
		j.marked = clock
		j.mark = scene.Mark{Rim: j.face(), Clock: clock, Inner: r + 0.2, Outer: r + j.rim.Wall + shellWall + 5}.Mesh()
	}
	return j.mark
}

func (j *joint) face() scene.Polar {
	rim := j.rim
	return func(clock, distance float64) float64 { return facePolar(rim, clock, distance) }
}

// remake makes the meshes of a design that are not at hand.
func (j *joint) remake(d *kinematics.Design) {
	if d.Rim != j.rim || j.head == nil {
		j.rim, j.mark = d.Rim, nil
		j.remakeCup()
	}
	if d.Neck != j.neck || d.Stem != j.stem || j.collum == nil {
		j.neck, j.stem = d.Neck, d.Stem
		j.collum = neckMesh(d)
		j.body = scene.UsualStem(d.Stem.Axis()).Mesh()
	}
}

func (j *joint) remakeCup() {
	r, face := j.rim.HeadDiameter/2, j.face()
	outer := r + j.rim.Wall
	j.liner, j.shell = scene.Cup{
		Bearing: r, Liner: outer, Shell: outer + shellWall, Rim: face,
		ShellRim: func(clock, _ float64) float64 { return math.Min(face(clock, outer)+shellBehind, math.Pi-0.1) },
	}.Meshes()
	j.mobile = nil
	if m := j.rim.Mobile; m.Present() {
		_, j.mobile = scene.Cup{
			Bearing: m.Head / 2, Liner: m.Head / 2, Shell: r - gap, Rim: scene.Flat(m.Arc.Radians()),
		}.Meshes()
		r = m.Head / 2
	}
	j.head = scene.Head(r - gap)
	if wide := math.Ceil(2*(outer+shellWall+reamedBy)) / 2; j.pelvis == nil || wide != j.reamed {
		j.reamed, j.pelvis = wide, scene.Hemipelvis().Reamed(wide)
	}
}

func neckMesh(d *kinematics.Design) *scene.Mesh {
	at, n := d.Neck.Breaks(0)
	from := 0.3 * d.Rim.HeadDiameter
	if m := d.Rim.Mobile; m.Present() {
		from = 0.3 * m.Head
	}
	to := math.Max(neckEnd, d.Rim.HeadDiameter/2+14)
	return scene.Neck(func(distance, azimuth float64) float64 {
		return d.Neck.Radius(unit.Angle(azimuth), distance)
	}, from, to, at[:n]...)
}

// facePolar returns the polar angle of a rim's face at a clock position and a
// distance from the head centre, that of the nearest corner beyond its ends.
func facePolar(rim implant.Rim, clock, distance float64) float64 {
	f := rim.Face(unit.Angle(clock))
	last := f.Corner[0]
	for i := 1; i < f.Count; i++ {
		next := f.Corner[i]
		if a, b := last.Rho(), next.Rho(); (a-distance)*(b-distance) <= 0 && a != b {
			t := (distance - a) / (b - a)
			return implant.Vertex{
				Axial:  last.Axial + t*(next.Axial-last.Axial),
				Radial: last.Radial + t*(next.Radial-last.Radial),
			}.Gamma().Radians()
		}
		last = next
	}
	if distance < f.Corner[0].Rho() {
		return f.Corner[0].Gamma().Radians()
	}
	return last.Gamma().Radians()
}

// framePose is the pose of a part whose own axes are those of the rotation's
// source frame.
func framePose(r hip.Rotation) scene.Pose {
	return scene.Pose{X: r.Column(0), Y: r.Column(1), Z: r.Column(2)}
}

// partPose is the pose of a cup or neck, whose own Y is the axis, X superior
// and Z anterior, where the rotation's frame has Z, X and Y.
func partPose(r hip.Rotation) scene.Pose {
	return scene.Pose{X: r.Column(0), Y: r.Column(2), Z: r.Column(1)}
}
