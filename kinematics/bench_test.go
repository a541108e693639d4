package kinematics

import (
	"context"
	"math/rand/v2"
	"testing"

	"rimclear/kinematics/motion"
)

// benchShapes are the designs whose times are claimed.
func benchShapes() map[string]Design {
	r := rand.New(rand.NewPCG(9, 9))
	round, lip, oval := usual(), usual(), usual()
	feature(r, &lip, "lip")
	oval.Neck.Diameter = 0
	oval.Neck.Oval.Width, oval.Neck.Oval.Depth, oval.Neck.Oval.Roll = 14, 10, deg(20)
	both := oval
	both.Rim = lip.Rim
	return map[string]Design{"round": round, "lip": lip, "oval": oval, "lip and oval": both}
}

// BenchmarkLimit is one limit of a placed design, the mean of the eight of the
// tables.
func BenchmarkLimit(b *testing.B) {
	for name, d := range benchShapes() {
		b.Run(name, func(b *testing.B) {
			j := NewJoint(Hip{}, d)
			b.ReportAllocs()
			for b.Loop() {
				for _, c := range columns {
					j.Limit(c.movement.Path(posture(c.flexion, 0, 0), deg(180), 0))
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(columns)), "ns/limit")
		})
	}
}

// BenchmarkRegion fills one standard slice of the envelope.
func BenchmarkRegion(b *testing.B) {
	for name, d := range benchShapes() {
		b.Run(name, func(b *testing.B) {
			j := NewJoint(Hip{}, d)
			r := j.Region(StandardSlice(0, posture(0, 0, 0)))
			for b.Loop() {
				j.RegionInto(&r)
			}
		})
	}
}

// BenchmarkTarget looks for the best cup for five motions, without bounds.
func BenchmarkTarget(b *testing.B) {
	list := []motion.Requirement{through(95, 5, 10), through(-10, 0, -20), through(80, 0, 30), through(20, -20, -20), through(85, 0, 10)}
	for name, d := range benchShapes() {
		b.Run(name, func(b *testing.B) {
			s := Search{Design: d, Required: list}
			for b.Loop() {
				if _, err := FindTarget(context.Background(), s); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
