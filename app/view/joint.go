package view

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

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
	rim    implant.Rim
	neck   implant.Neck
	stem   hip.Stem
	liner  *scene.Mesh
	shell  *scene.Mesh
	head   *scene.Mesh
	collum *scene.Mesh // the neck
	body   *scene.Mesh // of the stem
	bead   *scene.Mesh // of the contact's mark
	list   []scene.Instance

	Pelvis, Femur bool // show the bones
}

func newJoint() *joint {
	return &joint{bead: scene.Head(1.3), Pelvis: true, Femur: true}
}

// shellBehind is how much farther from the opening the shell ends than the
// liner, and shellWall its thickness, both for the eye alone: the model's cup
// ends where its wall does.
const (
	shellBehind = 7 * math.Pi / 180
	shellWall   = 3.5
)

// boneNeck is the diameter from which a neck is drawn as the bone neck of a
// resurfaced hip and not as a stem's: for the eye alone, the model does not
// care.
const boneNeck = 20

// instances returns the parts as they stand in a snapshot. The slice is used
// again.
func (j *joint) instances(s *session.Snapshot) []scene.Instance {
	d := s.Design()
	j.remake(d)
	cup := partPose(s.Joint.APPFromCup())
	femur := framePose(s.Joint.APPFromFemur(s.Case.Posture, s.Case.Hip.PosturePlane))
	neck := partPose(s.Joint.APPFromNeck(s.Case.Posture, s.Case.Hip.PosturePlane))
	resurfaced := d.Neck.Widest() >= boneNeck

	j.list = j.list[:0]
	add := func(m *scene.Mesh, at scene.Pose, of scene.Material) {
		if m != nil {
			j.list = append(j.list, scene.Instance{Mesh: m, Pose: at, Material: of})
		}
	}
	if j.Pelvis {
		add(scene.Hemipelvis(), scene.Still, scene.IvoryBone)
	}
	add(j.shell, cup, scene.DarkShell)
	add(j.liner, cup, scene.PaleBlue)
	add(j.head, scene.Still, scene.Ceramic)
	switch {
	case resurfaced:
		add(j.collum, neck, scene.IvoryBone)
		if j.Femur {
			add(scene.FemurNeck(), femur, scene.IvoryBone)
		}
	default:
		add(j.collum, neck, scene.BrushedGrey)
		add(j.body, femur, scene.BrushedGrey)
		if j.Femur {
			add(scene.FemurCut(), femur, scene.IvoryBone)
		}
	}
	if s.Contact.InContact() {
		j.mark(s)
	}
	return j.list
}

// mark lays a string of beads along the rim where it is touched.
func (j *joint) mark(s *session.Snapshot) {
	const each = 3 * unit.Degree
	axis, at := s.Joint.CupAxis(), s.Contact.RimPoint
	for k := -4; k <= 4; k++ {
		p := r3.Rotate(at, float64(unit.Angle(k)*each), axis)
		j.list = append(j.list, scene.Instance{Mesh: j.bead, Pose: scene.At(p), Material: scene.ContactMark})
	}
}

// remake makes the meshes of a design that are not at hand.
func (j *joint) remake(d *kinematics.Design) {
	if d.Rim != j.rim || j.head == nil {
		j.rim = d.Rim
		r := d.Rim.HeadDiameter / 2
		j.head = scene.Head(r - 0.15)
		face := func(clock, distance float64) float64 { return facePolar(d.Rim, clock, distance) }
		j.liner, j.shell = scene.Cup{
			Bearing: r, Liner: r + d.Rim.Wall, Shell: r + d.Rim.Wall + shellWall,
			Rim: face,
			ShellRim: func(clock, _ float64) float64 {
				return math.Min(face(clock, r+d.Rim.Wall)+shellBehind, math.Pi-0.1)
			},
		}.Meshes()
	}
	if d.Neck != j.neck || d.Stem != j.stem || j.collum == nil {
		j.neck, j.stem = d.Neck, d.Stem
		j.collum = neckMesh(d)
		stem := scene.UsualStem(d.Stem.Axis())
		j.body = stem.Mesh()
	}
}

// neckEnd is how far from the head centre a neck is drawn, mm.
const neckEnd = 36

func neckMesh(d *kinematics.Design) *scene.Mesh {
	at, n := d.Neck.Breaks(0)
	from := 0.3 * d.Rim.HeadDiameter
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
	if f.Count > 0 && distance < f.Corner[0].Rho() {
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
