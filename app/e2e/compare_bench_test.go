package e2e

import (
	"slices"
	"testing"
	"time"
)

// BenchmarkCompareDrag drags in the built window with four designs side by
// side: the view of all, the posture of all, and a size of one.
func BenchmarkCompareDrag(b *testing.B) {
	for _, where := range []string{"designs", "flexion_deg", "head_diameter_mm"} {
		b.Run(where, func(b *testing.B) {
			p, w := open(b, 1280, 800)
			for range 2 { // the sample has two designs
				press(b, w, 'd')
			}
			press(b, w, 'm')
			if _, err := p.Await("compare", stay, func(s State) bool { _, ok := s.Places["designs"]; return ok }); err != nil {
				b.Fatal(err)
			}
			at := place(b, p, where)
			time.Sleep(3 * time.Second) // the placements are simulated
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

// press presses a key with Control.
func press(b *testing.B, w Window, key Keysym) {
	b.Helper()
	if err := w.Key(key, Control); err != nil {
		b.Fatal(err)
	}
	time.Sleep(300 * time.Millisecond)
}
