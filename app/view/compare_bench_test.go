package view

import (
	"math"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"rimclear/kinematics"
)

// BenchmarkCompareDrag is our own work for one picture of four designs in a
// window of 1280×800, one of them with an oval neck: while the view is turned,
// while the posture is dragged, and while a size of one design is.
func BenchmarkCompareDrag(b *testing.B) {
	b.Run("view", func(b *testing.B) {
		a := compare(b, 1280, 776, 4)
		measureTiles(b, a, func(int) { a.Picture().Dragged(&fyne.DragEvent{Dragged: fyne.Delta{DX: 2, DY: 0.5}}) })
	})
	for _, key := range []string{"flexion_deg", "head_diameter_mm"} {
		b.Run(key, func(b *testing.B) {
			a := compare(b, 1280, 776, 4)
			p := kinematics.ParameterByKey(key)
			from := p.Get(&a.Session.Now().Case, 0)
			measureTiles(b, a, func(i int) {
				a.Session.Set(p, from+4+4*math.Round(4*math.Sin(float64(i)/20))/4)
			})
		})
	}
}

// measureTiles reports the time per picture, that of all processors together,
// and the longest.
func measureTiles(b *testing.B, a *arena, move func(i int)) {
	a.settled(b)
	b.ReportAllocs()
	size := a.Picture().Size()
	worst, i := time.Duration(0), 0
	before := processor()
	for b.Loop() {
		start := time.Now()
		move(i)
		a.stage.catchUp(start)
		a.Picture().Paint(int(size.Width), int(size.Height))
		worst = max(worst, time.Since(start))
		i++
	}
	b.ReportMetric((processor()-before)*1e3/float64(b.N), "cpu-ms/op")
	b.ReportMetric(float64(worst.Microseconds())/1e3, "worst-ms")
}
