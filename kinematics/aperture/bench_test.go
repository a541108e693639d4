package aperture

import (
	"math"
	"math/rand/v2"
	"testing"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// benchDesigns are the designs whose build and query times are claimed.
var benchDesigns = []struct {
	name string
	rim  implant.Rim
	neck implant.Neck
}{
	{"round", implant.Rim{HeadDiameter: 32, Arc: math.Pi, Wall: 5}, implant.Neck{Diameter: 12}},
	{"lip", lipped(), implant.Neck{Diameter: 12}},
	{"oval", implant.Rim{HeadDiameter: 32, Arc: math.Pi, Wall: 5}, ovalNeck()},
	{"lip and oval", lipped(), ovalNeck()},
}

// lipped is the rim of the standard lip workload.
func lipped() implant.Rim {
	const d = unit.Degree
	return implant.Rim{HeadDiameter: 32, Arc: 180 * d, Wall: 5,
		Lips: [2]implant.Lip{{Height: 12 * d, Centre: -100 * d, Plateau: 80 * d, Ramp: 20 * d}}}
}

func ovalNeck() implant.Neck {
	return implant.Neck{Oval: implant.Oval{Width: 14, Depth: 10, Roll: 20 * unit.Degree}}
}

// The whole aperture, with the table that is drawn when it is first asked.
func BenchmarkBuild(b *testing.B) { build(b, func(a *Aperture) { a.Inscribed() }) }

// What a limit needs of it.
func BenchmarkBuildForLimits(b *testing.B) { build(b, func(*Aperture) {}) }

func build(b *testing.B, then func(*Aperture)) {
	for _, d := range benchDesigns {
		b.Run(d.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				then(Build(d.rim, d.neck))
			}
		})
	}
}

// randomPoses are poses of everyday reach: the neck up to 90° from the cup
// axis.
func randomPoses() []Pose {
	r := rand.New(rand.NewPCG(3, 4))
	list := make([]Pose, 1024)
	for i := range list {
		list[i] = poseOf(r.Float64()*math.Pi/2, r.Float64()*2*math.Pi, r.Float64()*2*math.Pi)
	}
	return list
}

func query(b *testing.B, f func(a *Aperture, p Pose)) {
	poses := randomPoses()
	for _, d := range benchDesigns {
		a := Build(d.rim, d.neck)
		b.Run(d.name, func(b *testing.B) {
			b.ReportAllocs()
			i := 0
			for b.Loop() {
				f(a, poses[i&1023])
				i++
			}
		})
	}
}

func BenchmarkFree(b *testing.B)    { query(b, func(a *Aperture, p Pose) { a.Free(p) }) }
func BenchmarkMargin(b *testing.B)  { query(b, func(a *Aperture, p Pose) { a.Margin(p) }) }
func BenchmarkNearest(b *testing.B) { query(b, func(a *Aperture, p Pose) { a.Nearest(p) }) }
func BenchmarkClearance(b *testing.B) {
	query(b, func(a *Aperture, p Pose) { a.Clearance(p) })
}
