package view

import (
	"image"
	"math"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"rimclear/kinematics"
)

// BenchmarkSliderDrag is our own work for one picture while a slider is
// dragged in a window of 1280×800: from the slider's change to the joint, the
// rulers and the slider's group drawn, with what is written and charted several
// times a second.
func BenchmarkSliderDrag(b *testing.B) {
	for _, key := range []string{"cup_inclination_deg", "neck_shaft_deg", "head_diameter_mm", "flexion_deg"} {
		b.Run(key, func(b *testing.B) {
			e := open(b, 1280, 776)
			group := e.panel.groups[kinematics.ParameterByKey(key).Group]
			measure(b, e, func(i int) {
				e.drag(key, float32(0.5-0.2*math.Cos(float64(i)/40)))
				paint(e.answers.limits.rulers)
				paint(group)
			})
		})
	}
}

// BenchmarkViewDrag is our own work for one picture while the view is turned.
func BenchmarkViewDrag(b *testing.B) {
	e := open(b, 1280, 776)
	measure(b, e, func(int) { e.Picture().Dragged(&fyne.DragEvent{Dragged: fyne.Delta{DX: 2, DY: 0.5}}) })
}

// BenchmarkNeedleDrag is our own work for one picture while the posture is
// dragged along a ruler.
func BenchmarkNeedleDrag(b *testing.B) {
	e := open(b, 1280, 776)
	r := e.answers.limits.lines[0].ruler
	measure(b, e, func(i int) {
		x := r.Size().Width * float32(0.6-0.2*math.Cos(float64(i)/40))
		r.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, 8)}})
		paint(e.answers.limits.rulers)
		paint(e.panel.groups[kinematics.PostureGroup])
	})
}

// paint draws a picture of words, as the toolkit has it drawn after a change.
func paint(o interface {
	fyne.CanvasObject
	Paint(w, h int) image.Image
}) {
	o.Paint(int(o.Size().Width), int(o.Size().Height))
}

// measure reports the time per picture, that of all processors together, and
// the longest.
func measure(b *testing.B, e *stage, move func(i int)) {
	e.draw()
	b.ReportAllocs()
	worst, i := time.Duration(0), 0
	before := processor()
	for b.Loop() {
		start := time.Now()
		move(i)
		e.draw()
		worst = max(worst, time.Since(start))
		i++
	}
	b.ReportMetric((processor()-before)*1e3/float64(b.N), "cpu-ms/op")
	b.ReportMetric(float64(worst.Microseconds())/1e3, "worst-ms")
}
