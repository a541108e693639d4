package kinematics

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/sphere"
	"rimclear/kinematics/unit"
)

// Stability is how a placed cup holds the head under one load.
type Stability struct {
	Load       Load
	Functional hip.Radiographic // the cup's orientation in the loaded posture
	Psi        unit.Angle       // between load and cup floor

	LateralJump  float64 // mm, vertical load in the coronal plane, towards lateral
	LeastJump    float64 // mm, over all rim points under the load
	LeastAzimuth unit.Angle
	Patch        Patch
}

// Patch is the contact patch of a hard-on-hard bearing. Known is false for all
// others, of which none of this may be said.
type Patch struct {
	Known  bool
	Centre float64 // from the patch's centre to the rim along the surface, mm
	Radius float64 // of the patch, mm
	Edge   float64 // from the patch's edge to the rim, mm
}

// Stability returns how a design's cup holds the head under a load. The patch is
// that of a resurfacing; the couple may be CobaltChrome.
func (j Joint) Stability(d Design, l Load, c Couple) Stability {
	w := l.InAPP(j.tilts)
	n := j.CupAxis()
	rim := j.Aperture.Rim()
	r := rim.HeadDiameter / 2
	functional := hip.RotationZ(-j.tilts.Of(l.Plane)).Apply(n)
	s := Stability{
		Load:       l,
		Functional: hip.RadiographicOf(functional),
		Psi:        sphere.Between(w, r3.Scale(-1, n)),
	}
	k := cover{rim, j.cupFromAPP.Apply(w)}
	at, angle := k.least()
	s.LeastAzimuth, s.LeastJump = at, Jump(r, angle)
	room := j.tilts.APPFromPlane(l.Plane)
	up, side := j.cupFromAPP.Apply(room.Column(1)), j.cupFromAPP.Apply(room.Column(2))
	s.LateralJump = Jump(r, cover{rim, up}.lateral(up, side))
	if d.Bearing == Resurfacing {
		s.Patch.Known = true
		s.Patch.Centre = r * float64(angle)
		s.Patch.Radius = c.PatchRadius(rim.HeadDiameter)
		s.Patch.Edge = s.Patch.Centre - s.Patch.Radius
	}
	return s
}

// Total is a total arc of motion of the placed components, through neutral, and
// the least that a standard asks for.
type Total struct {
	Key    string
	Arc    unit.Angle
	Least  unit.Angle
	Basis  motion.Basis
	Source string
	Open   bool // free to the end of a path: the arc is at least this
}

// totals are the least arcs of ISO 21535, from memory (the clause was not
// seen; a figure of 80° for flexion and extension is also in circulation).
var totals = []struct {
	key   string
	moves [2]Movement
	least unit.Angle
}{
	{"total_flexion", [2]Movement{FlexionMovement, Extension}, 100 * unit.Degree},
	{"total_abduction", [2]Movement{Abduction, AdductionMovement}, 60 * unit.Degree},
	{"total_rotation", [2]Movement{Internal, External}, 90 * unit.Degree},
}

// Totals returns the arcs of flexion and extension, abduction and adduction,
// and rotation, each the sum of both limits from neutral.
func (j Joint) Totals() []Total {
	list := make([]Total, len(totals))
	for i, t := range totals {
		list[i] = Total{Key: t.key, Least: t.least, Basis: motion.Memory, Source: "source_iso_21535_memory"}
		for _, m := range t.moves {
			end := endRotation
			if a, _ := m.Joint(); a == hip.Adduction {
				end = endAbduct
			}
			path := m.Path(hip.Neutral, end, j.zero)
			l := j.Limit(path)
			if l.Status == StartsInContact {
				continue
			}
			list[i].Arc += m.Reading(path, l.At)
			list[i].Open = list[i].Open || l.Status == Free
		}
	}
	return list
}
