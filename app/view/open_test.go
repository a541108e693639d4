package view

import (
	"image"
	"slices"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
)

// stage is an Explore on the toolkit's test driver: no display, no window.
type stage struct {
	*Explore
	window fyne.Window
	later  []later

	mu    sync.Mutex
	queue []func()
}

// later is what is to be done at a time.
type later struct {
	at time.Time
	do func()
}

// open returns an Explore on the default case in a window of a size.
func open(t testing.TB, width, height float32) *stage {
	t.Helper()
	return openWith(t, width, height, &control.Theme{Brightness: control.AlwaysLight})
}

func openWith(t testing.TB, width, height float32, th *control.Theme) *stage {
	t.Helper()
	test.NewTempApp(t)
	fyne.CurrentApp().Settings().SetTheme(th)
	b := &stage{}
	s := session.New(kinematics.Default(), b.post, time.Now)
	c := b.context(s, th)
	b.Explore = NewExplore(c)
	b.show(t, b.Object(), width, height)
	t.Cleanup(func() { b.Close(); s.Close() })
	return b
}

// context returns what a view of a session works with; what comes later waits
// on the stage.
func (b *stage) context(s *session.Session, th *control.Theme) *Context {
	c := &Context{
		Session: s, Words: present.English(), Theme: th, Post: b.post, Now: time.Now,
		After: func(d time.Duration, f func()) func() {
			b.later = append(b.later, later{time.Now().Add(d), f})
			return func() {}
		},
	}
	c.Hint = control.NewHint(c.After)
	return c
}

// show puts a view into a window of a size.
func (b *stage) show(t testing.TB, o fyne.CanvasObject, width, height float32) {
	b.window = test.NewTempWindow(t, o)
	b.window.SetPadded(false)
	b.window.Resize(fyne.NewSize(width, height))
}

func (b *stage) post(f func()) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.queue = append(b.queue, f)
}

// posted does what came from the background.
func (b *stage) posted() {
	b.mu.Lock()
	queue := b.queue
	b.queue = nil
	b.mu.Unlock()
	for _, f := range queue {
		f()
	}
}

// catchUp does what is to be done by a time, and what came from the background.
func (b *stage) catchUp(now time.Time) {
	for i := 0; i < len(b.later); {
		if l := b.later[i]; !l.at.After(now) {
			b.later = slices.Delete(b.later, i, i+1)
			l.do()
			continue
		}
		i++
	}
	b.posted()
}

// rest does all that is still to be done, as if a second passed.
func (b *stage) rest() { b.catchUp(time.Now().Add(time.Second)) }

// draw does what is due and draws the picture, as the toolkit's painter has it
// drawn. The image is used again.
func (b *stage) draw() *image.RGBA {
	b.catchUp(time.Now())
	size := b.Picture().Size()
	return b.Picture().Paint(int(size.Width), int(size.Height)).(*image.RGBA)
}

// pixels returns a copy of what draw draws.
func (b *stage) pixels() []byte { return slices.Clone(b.draw().Pix) }

func (b *stage) get(key string) float64 {
	s := b.Session.Now()
	return kinematics.ParameterByKey(key).Get(&s.Case, s.Active)
}

// drag moves a slider to a share of its way.
func (b *stage) drag(key string, share float32) {
	t := b.panel.dials[key].Track()
	const inset = 6
	x := inset + share*(t.Size().Width-2*inset)
	t.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, 8)}})
	t.DragEnd()
}

func pix(i image.Image) []byte { return i.(*image.RGBA).Pix }

// drawnOnce reports whether a static layer was asked for.
func (p *plots) drawnOnce() bool { return p.asked != (plotKey{}) }
