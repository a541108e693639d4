package chart

import (
	"image"
	"testing"

	"rimclear/app/figure"
	"rimclear/kinematics/hip"
)

// BenchmarkRedraw draws each chart anew at 500×500, with what it asks of the
// joint: one round design, two, and one with a lip.
func BenchmarkRedraw(b *testing.B) {
	round, lipped := sample(hip.Right), sample(hip.Right)
	lipped.Designs = lipped.Designs[2:3]
	for _, c := range All {
		for _, of := range []struct {
			name string
			s    Subject
		}{{"one", small(round, 1)}, {"two", small(round, 2)}, {"lipped", lipped}} {
			b.Run(c.Key+"/"+of.name, func(b *testing.B) {
				img := image.NewRGBA(image.Rect(0, 0, 500, 500))
				for b.Loop() {
					c.Draw(of.s, Look{Size: figure.Pt(500, 500), Palette: figure.Light()}).DrawStatic(img, 1)
				}
			})
		}
	}
}

// BenchmarkMarker draws what moves with the posture alone.
func BenchmarkMarker(b *testing.B) {
	s := small(sample(hip.Right), 1)
	for _, c := range All {
		b.Run(c.Key, func(b *testing.B) {
			img := image.NewRGBA(image.Rect(0, 0, 500, 500))
			for b.Loop() {
				c.Draw(s, Look{Size: figure.Pt(500, 500), Palette: figure.Light()}).DrawMarker(img, 1)
			}
		})
	}
}
