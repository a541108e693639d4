package scene

import (
	"fmt"
	"image"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// twenty returns a scene of about 20,000 triangles that covers about half the
// picture: what the window shows with both bones.
func twenty() []Instance {
	in := joint()
	in = append(in, Instance{Mesh: Revolve(96, Arc(120, 0, math.Pi, 0, 42)), Pose: At(r3.Vec{Z: -60, Y: 40}), Material: IvoryBone})
	return in
}

func count(in []Instance) (n int) {
	for _, i := range in {
		n += i.Mesh.Triangles()
	}
	return n
}

func BenchmarkPicture(b *testing.B) {
	in := twenty()
	for _, workers := range []int{1, 2} {
		for _, size := range [][2]int{{900, 700}, {1400, 1000}} {
			for quality, name := range []string{"fine", "coarse", "best"} {
				b.Run(fmt.Sprintf("%dx%d/workers=%d/%s", size[0], size[1], workers, name), func(b *testing.B) {
					img := image.NewRGBA(image.Rect(0, 0, size[0], size[1]))
					r := Renderer{Workers: workers, Quality: Quality(quality)}
					cam := Oblique()
					b.ReportAllocs()
					r.Draw(img, cam, Light, in)
					before := processor()
					for b.Loop() {
						cam.Azimuth += 0.01
						r.Draw(img, cam, Light, in)
					}
					b.ReportMetric(float64(count(in)), "triangles")
					b.ReportMetric((processor()-before)*1000/float64(b.N), "cpu-ms/op")
				})
			}
		}
	}
}
