package report

import (
	"math"

	"rimclear/app/scene"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
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
	j := kinematics.NewJoint(c.Hip, c.Designs[i])
	return Placed{Design: c.Designs[i], Joint: j, Posture: p, Zero: c.Hip.PosturePlane, Contact: j.Contact(p)}
}

// What follows is for the eye alone; the model's cup ends where its wall does,
// and it does not care what a neck is made of.
const (
	shellBehind = 7 * math.Pi / 180 // how much farther from the opening the shell ends than the liner
	shellWall   = 3.5               // mm
	neckEnd     = 36                // mm, how far from the head centre a neck is drawn at least
	inTheLiner  = 0.15              // mm, by which the head is drawn smaller than its bearing
)

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
	cup := axisPose(p.Joint.APPFromCup())
	femur := framePose(p.Joint.APPFromFemur(p.Posture, p.Zero))
	neck := axisPose(p.Joint.APPFromNeck(p.Posture, p.Zero))
	liner, shell := cupMeshes(d.Rim)
	if bones {
		add(scene.Hemipelvis(), scene.Still, scene.IvoryBone)
	}
	add(shell, cup, scene.DarkShell)
	add(liner, cup, scene.PaleBlue)
	add(scene.Head(d.Rim.HeadDiameter/2-inTheLiner), scene.Still, scene.Ceramic)
	bone := scene.FemurNeck
	if d.Bearing == kinematics.Resurfacing {
		add(neckMesh(d), neck, scene.IvoryBone)
	} else {
		bone = scene.FemurCut
		stem := scene.UsualStem(d.Stem.Axis())
		add(neckMesh(d), neck, scene.BrushedGrey)
		add(stem.Mesh(), femur, scene.BrushedGrey)
	}
	if bones {
		add(bone(), femur, scene.IvoryBone)
	}
	if p.Contact.Margin < nearly {
		add(mark(d.Rim, p.Contact), cup, scene.ContactMark)
	}
	return list
}

// markBeyond is how far the mark's broad end stands out over the face, in mm, so
// that it is seen on a thin wall too.
const markBeyond = 1.5

// nearly is the margin below which the rim is marked where it is nearest: a
// limit is found to less than this.
const nearly = 1e-3 * unit.Degree

func mark(rim implant.Rim, c kinematics.Contact) *scene.Mesh {
	r := rim.HeadDiameter / 2
	return scene.Mark{
		Rim:   func(clock, distance float64) float64 { return facePolar(rim, clock, distance) },
		Clock: c.Azimuth.Radians(), Inner: r, Outer: r + rim.Wall + markBeyond,
	}.Mesh()
}

func cupMeshes(rim implant.Rim) (liner, shell *scene.Mesh) {
	r := rim.HeadDiameter / 2
	return scene.Cup{
		Bearing: r, Liner: r + rim.Wall, Shell: r + rim.Wall + shellWall,
		Rim: func(clock, distance float64) float64 { return facePolar(rim, clock, distance) },
		ShellRim: func(clock, _ float64) float64 {
			return math.Min(facePolar(rim, clock, r+rim.Wall)+shellBehind, math.Pi-0.1)
		},
	}.Meshes()
}

func neckMesh(d kinematics.Design) *scene.Mesh {
	at, n := d.Neck.Breaks(0)
	from, to := 0.3*d.Rim.HeadDiameter, math.Max(neckEnd, d.Rim.HeadDiameter/2+14)
	return scene.Neck(func(distance, azimuth float64) float64 {
		return d.Neck.Radius(unit.Angle(azimuth), distance)
	}, from, to, at[:n]...)
}

// facePolar returns the polar angle of a rim's face at a clock position and a
// distance from the head centre, beyond its ends that of the nearer corner.
func facePolar(rim implant.Rim, clock, distance float64) float64 {
	f := rim.Face(unit.Angle(clock))
	for i := 1; i < f.Count; i++ {
		a, b := f.Corner[i-1], f.Corner[i]
		if (a.Rho()-distance)*(b.Rho()-distance) <= 0 && a.Rho() != b.Rho() {
			t := (distance - a.Rho()) / (b.Rho() - a.Rho())
			return implant.Vertex{
				Axial:  a.Axial + t*(b.Axial-a.Axial),
				Radial: a.Radial + t*(b.Radial-a.Radial),
			}.Gamma().Radians()
		}
	}
	if distance < f.Corner[0].Rho() {
		return f.Corner[0].Gamma().Radians()
	}
	return f.Corner[f.Count-1].Gamma().Radians()
}

// framePose is the pose of a part whose own axes are those of the rotation's
// source frame.
func framePose(r hip.Rotation) scene.Pose {
	return scene.Pose{X: r.Column(0), Y: r.Column(1), Z: r.Column(2)}
}

// axisPose is the pose of a cup or neck, whose own Y is the axis, X superior
// and Z anterior, where the rotation's frame has Z, X and Y.
func axisPose(r hip.Rotation) scene.Pose {
	return scene.Pose{X: r.Column(0), Y: r.Column(2), Z: r.Column(1)}
}
