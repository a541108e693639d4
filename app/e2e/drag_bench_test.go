package e2e

import (
	"image"
	"slices"
	"testing"
	"time"
)

// dragged is how long a drag is measured.
const dragged = 4 * time.Second

// BenchmarkDrag drags in the built window, on a display of its own under
// software OpenGL, and reports pictures per second and our own work for each,
// in ms. One operation is a whole drag.
func BenchmarkDrag(b *testing.B) {
	for _, where := range []string{"cup_inclination_deg", "head_diameter_mm", "flexion_deg", "joint"} {
		b.Run(where, func(b *testing.B) {
			p, w := open(b, 1280, 800)
			at := place(b, p, where)
			time.Sleep(time.Second) // the first solving is over
			pictures, work := 0, []float64{}
			var took time.Duration
			for range b.N {
				n, ms, d := drag(b, p, w, at)
				pictures, work, took = pictures+n, append(work, ms...), took+d
			}
			slices.Sort(work)
			b.ReportMetric(float64(pictures)/took.Seconds(), "pictures/s")
			b.ReportMetric(work[len(work)/2], "ms/picture")
			b.ReportMetric(work[len(work)-1], "ms-worst-seen")
		})
	}
}

// drag moves the held button to and fro over a rectangle, a quarter of it each
// way, and returns the pictures drawn, samples of our own work for one, and the
// time taken.
func drag(b *testing.B, p *Program, w Window, at image.Rectangle) (pictures int, work []float64, took time.Duration) {
	way := Line(along(at, 0.15), along(at, 0.4), 60) // heads that the socket holds
	back := slices.Clone(way)
	slices.Reverse(back)
	way = append(way, back...)
	before, start := state(b, p), time.Now()
	for time.Since(start) < dragged {
		if err := w.Drag(Left, way...); err != nil {
			b.Fatal(err)
		}
		if s, err := p.State(); err == nil && s.FrameMS > 0 {
			work = append(work, s.FrameMS)
		}
	}
	took = time.Since(start)
	time.Sleep(600 * time.Millisecond) // the state file is written twice a second
	return state(b, p).Frames - before.Frames, work, took
}
