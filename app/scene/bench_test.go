package scene

import (
	"fmt"
	"image"
	"testing"
)

// twenty returns what the window shows: a stemmed hip with both bones, a mark
// and a translucent skin, about 20,000 triangles.
func twenty() []Instance {
	in := whole()
	for i := range in {
		if in[i].Mesh == Hemipelvis() {
			in[i].Material = IvoryBone
		}
	}
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

// Parts that follow the sliders are built anew while one is dragged.
func BenchmarkParts(b *testing.B) {
	b.Run("cup", func(b *testing.B) {
		for b.Loop() {
			Cup{Bearing: 18.2, Liner: 23, Shell: 26, Rim: Flat(3)}.Meshes()
		}
	})
	b.Run("neck", func(b *testing.B) {
		for b.Loop() {
			Neck(Taper(10, 6, 36, 7), 10, 36)
		}
	})
	b.Run("head", func(b *testing.B) {
		for b.Loop() {
			Head(18)
		}
	})
	b.Run("stem", func(b *testing.B) {
		for b.Loop() {
			UsualStem(neckAxis(130, 15)).Mesh()
		}
	})
}

// A picture in which the parts are cut open; beside it the whole one.
func BenchmarkCutPicture(b *testing.B) {
	in := twenty()
	at := along(cupPose(40, 15))
	for name, plane := range map[string]Plane{"whole": {}, "cut": at} {
		b.Run(name, func(b *testing.B) {
			img := image.NewRGBA(image.Rect(0, 0, 900, 700))
			r := Renderer{Cut: plane}
			cam := Facing(at.Normal)
			cam.Extent = 150
			b.ReportAllocs()
			r.Draw(img, cam, Light, in)
			before := processor()
			for b.Loop() {
				cam.Azimuth += 0.01
				r.Draw(img, cam, Light, in)
			}
			b.ReportMetric((processor()-before)*1000/float64(b.N), "cpu-ms/op")
		})
	}
}
