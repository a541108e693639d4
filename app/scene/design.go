package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// What follows is for the eye alone; the model's cup ends where its wall does,
// and it does not care what a neck is made of.
const (
	shellBehind = 7 * math.Pi / 180 // how much farther from the opening the shell ends than the liner
	shellWall   = 3.5               // mm
	reamedBy    = 1.0               // room between shell and bone, mm
	neckEnd     = 36.0              // how far from the head centre a neck is drawn at least, mm
	hair        = 0.15              // between surfaces that would share their pixels, mm
	markBeyond  = 1.5               // how far a mark's broad end stands out over the shell, mm
	markWide    = 0.75              // its width there, in radians: it shows on both sides of a stem's neck
)

// Bearing is what a rim looks like: the socket's liner and shell, the head, and
// the mobile liner where there is one.
type Bearing struct {
	Liner, Shell, Head, Mobile *Mesh
	Reamed                     float64 // radius to which the pelvis makes room, mm
}

// BearingOf returns the meshes of a rim.
func BearingOf(rim implant.Rim) Bearing { return bearingOf(rim, false) }

// CutBearingOf returns the meshes of a rim for pictures in which a Plane cuts
// them: with more triangles where walls else lie hidden.
func CutBearingOf(rim implant.Rim) Bearing { return bearingOf(rim, true) }

func bearingOf(rim implant.Rim, cut bool) Bearing {
	r, face := rim.HeadDiameter/2, FaceOf(rim)
	outer := r + rim.Wall
	b := Bearing{Reamed: math.Ceil(2*(outer+shellWall+reamedBy)) / 2}
	b.Liner, b.Shell = Cup{
		Bearing: r, Liner: outer, Shell: outer + shellWall, Rim: face, Cut: cut,
		ShellRim: func(clock, _ float64) float64 { return math.Min(face(clock, outer)+shellBehind, math.Pi-0.1) },
	}.Meshes()
	if m := rim.Mobile; m.Present() {
		_, b.Mobile = Cup{
			Bearing: m.Head / 2, Liner: m.Head / 2, Shell: r - hair, Rim: Flat(m.Arc.Radians()), Cut: cut,
		}.Meshes()
		r = m.Head / 2
	}
	b.Head = Head(r - hair)
	return b
}

// NeckOf returns the mesh of a design's neck.
func NeckOf(d *kinematics.Design) *Mesh {
	at, n := d.Neck.Breaks(0)
	ball := d.Rim.HeadDiameter
	if m := d.Rim.Mobile; m.Present() {
		ball = m.Head
	}
	to := math.Max(neckEnd, d.Rim.HeadDiameter/2+14)
	return Neck(func(distance, azimuth float64) float64 {
		return d.Neck.Radius(unit.Angle(azimuth), distance)
	}, 0.3*ball, to, at[:n]...)
}

// MarkOn returns the mark of a contact at an azimuth of the rim.
func MarkOn(rim implant.Rim, azimuth unit.Angle) *Mesh { return FlashOn(rim, azimuth, 0) }

// FlashOn returns the mark of a contact that has just begun, which stands out by
// a share of 0 to 1 more than it will.
func FlashOn(rim implant.Rim, azimuth unit.Angle, more float64) *Mesh {
	r := rim.HeadDiameter / 2
	outer := r + rim.Wall + shellWall + markBeyond
	return Mark{
		Rim: FaceOf(rim), Clock: azimuth.Radians(),
		Inner: r + 0.2, Outer: outer + 3*more,
		Width: markWide * outer * (1 + more/2), Height: 1 + 2*more,
	}.Mesh()
}

// FaceOf returns the shape of a rim's face: at a clock position and a distance
// from the head centre its polar angle, beyond its ends that of the nearer
// corner.
func FaceOf(rim implant.Rim) Polar {
	return func(clock, distance float64) float64 {
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
}

// FramePose is the pose of a part whose own axes are those of the rotation's
// source frame, such as the femur.
func FramePose(r hip.Rotation) Pose {
	return Pose{X: r.Column(0), Y: r.Column(1), Z: r.Column(2)}
}

// PartPose is the pose of a cup or neck, whose own Y is the axis, X superior
// and Z anterior, where the rotation's frame has Z, X and Y.
func PartPose(r hip.Rotation) Pose {
	return Pose{X: r.Column(0), Y: r.Column(2), Z: r.Column(1)}
}

// AxisPose is the pose of a part of revolution about a direction.
func AxisPose(axis r3.Vec) Pose { return PartPose(hip.PlaneFromCup(axis)) }
