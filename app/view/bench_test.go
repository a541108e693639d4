package view

import (
	"image"
	"math"
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
)

// bench is an Explore of the size it has in a window of 1280×800, without a
// window: what the toolkit does on top is not measured.
type bench struct {
	*Explore
	pixels image.Point
	later  []later
}

// later is what is to be done at a time.
type later struct {
	at time.Time
	do func()
}

// open returns an Explore on the default case, on the toolkit's test driver.
// What is done later, is done when the test says so.
func open(t testing.TB, width, height float32) *bench {
	t.Helper()
	test.NewTempApp(t)
	th := &control.Theme{Brightness: control.AlwaysLight}
	fyne.CurrentApp().Settings().SetTheme(th)
	post := func(f func()) { fyne.Do(f) }
	s := session.New(kinematics.Default(), post, time.Now)
	b := &bench{}
	c := &Context{
		Session: s, Words: present.English(), Theme: th, Post: post, Now: time.Now,
		After: func(d time.Duration, f func()) func() {
			b.later = append(b.later, later{time.Now().Add(d), f})
			return func() {}
		},
	}
	c.Hint = control.NewHint(c.After)
	b.Explore = NewExplore(c)
	e := b.Explore
	w := test.NewTempWindow(t, e.Object())
	w.SetPadded(false)
	w.Resize(fyne.NewSize(width, height))
	t.Cleanup(func() { e.Close(); s.Close() })
	size := e.Picture().Size()
	b.pixels = image.Pt(int(size.Width), int(size.Height))
	return b
}

// draw does what is due and draws the picture, as the toolkit's painter has it
// drawn.
func (b *bench) draw() {
	b.catchUp(time.Now())
	b.Picture().Paint(b.pixels.X, b.pixels.Y)
}

// catchUp does what is to be done by a time.
func (b *bench) catchUp(now time.Time) {
	for i := 0; i < len(b.later); {
		if l := b.later[i]; !l.at.After(now) {
			b.later = slices.Delete(b.later, i, i+1)
			l.do()
			continue
		}
		i++
	}
}

// BenchmarkSliderDrag is our own work for one picture while a slider is
// dragged: from the slider's change to the joint drawn, with what is written
// and charted fifteen times a second.
func BenchmarkSliderDrag(b *testing.B) {
	for _, key := range []string{"cup_inclination_deg", "neck_shaft_deg", "head_diameter_mm", "flexion_deg"} {
		b.Run(key, func(b *testing.B) {
			e := open(b, 1280, 776)
			track := e.panel.dials[key].Track()
			e.draw()
			b.ReportAllocs()
			worst, i := time.Duration(0), 0
			cpu := processor()
			for b.Loop() {
				start := time.Now()
				f := 0.5 - 0.2*math.Cos(float64(i)/40)
				i++
				x := float32(f)*(track.Size().Width-12) + 6
				track.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, 8)}})
				e.draw()
				worst = max(worst, time.Since(start))
			}
			b.ReportMetric((processor()-cpu)*1e3/float64(b.N), "cpu-ms/op")
			b.ReportMetric(float64(worst.Microseconds())/1000, "worst-ms")
		})
	}
}

// BenchmarkViewDrag is our own work for one picture while the view is turned.
func BenchmarkViewDrag(b *testing.B) {
	e := open(b, 1280, 776)
	b.ReportAllocs()
	cpu := processor()
	for b.Loop() {
		e.Picture().Dragged(&fyne.DragEvent{Dragged: fyne.Delta{DX: 2, DY: 0.5}})
		e.draw()
	}
	b.ReportMetric((processor()-cpu)*1e3/float64(b.N), "cpu-ms/op")
}
