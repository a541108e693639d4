package view

import (
	"bytes"
	"testing"
	"time"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

// darkroom is a stage on which only the flash's own clock runs.
type darkroom struct {
	*stage
	now  time.Time
	next []func()
}

func flashing(t *testing.T) *darkroom {
	d := &darkroom{stage: open(t, 1280, 776), now: time.Now()}
	own := *d.Explore.Context
	own.Now = func() time.Time { return d.now }
	own.After = func(_ time.Duration, f func()) func() { d.next = append(d.next, f); return func() {} }
	d.centre.flash.Context = &own
	return d
}

// pass lets so much time pass, and does once what waits for it.
func (d *darkroom) pass(t time.Duration) {
	d.now = d.now.Add(t)
	next := d.next
	d.next = nil
	for _, f := range next {
		f()
	}
}

// calm sets or leaves less motion.
func (d *darkroom) calm(on bool) { d.centre.flash.Still = on }

// touching is a posture in contact, on the way to internal rotation at 90°.
func (b *stage) touching() hip.Posture {
	b.Past = false
	from := hip.Posture{Flexion: degrees(90)}
	return b.hold(from, from.With(hip.InternalRotation, degrees(100)))
}

func TestContactFlashesTwiceAndThenRests(t *testing.T) {
	e := flashing(t)
	goTo(e.Session, e.touching())
	f := e.centre.flash
	if !e.Session.Now().Contact.InContact() || !f.runs {
		t.Fatal("contact began and nothing flashes")
	}
	peaks, last, rising := 0, 0.0, true
	for range 80 {
		e.pass(frame)
		l := f.level()
		if rising && l < last {
			peaks++
		}
		rising, last = l >= last, l
	}
	if peaks != 2 {
		t.Errorf("%d pulses, want 2", peaks)
	}
	if f.runs || e.centre.joint.Flash != 0 {
		t.Error("the flash does not end")
	}
	if n := len(e.next); n != 0 {
		t.Errorf("%d things are still to be done after the flash", n)
	}
}

func TestAFlashLeavesThePictureAsItIsWithoutOne(t *testing.T) {
	e := flashing(t)
	e.ToggleCut() // else bone lies before it
	e.calm(true)
	goTo(e.Session, e.touching())
	still := e.pixels()
	goTo(e.Session, hip.Neutral)
	e.calm(false)
	goTo(e.Session, e.touching())
	e.pass(flashFor / 4)
	if bytes.Equal(e.pixels(), still) {
		t.Error("at the height of a pulse the picture is as without one")
	}
	e.pass(flashFor)
	if !bytes.Equal(e.pixels(), still) {
		t.Error("after the flash the picture is not as without one")
	}
}

func TestOnlyContactThatBeginsFlashes(t *testing.T) {
	e := flashing(t)
	f := e.centre.flash
	at := e.touching()
	over := func() { e.pass(2 * flashFor) }
	goTo(e.Session, at)
	over()
	goTo(e.Session, e.hold(at, at.With(hip.Adduction, degrees(1))))
	if f.runs {
		t.Error("sliding along the rim flashes")
	}
	goTo(e.Session, hip.Neutral)
	if f.runs {
		t.Error("coming free flashes")
	}
	e.calm(true)
	goTo(e.Session, at)
	if f.runs {
		t.Error("with less motion it flashes")
	}
	e.calm(false)
	e.Session.Duplicate()
	e.Session.Set(kinematics.ParameterByKey("head_diameter_mm"), 36)
	over()
	e.Session.Activate(0)
	over()
	e.Session.Activate(1)
	if f.runs {
		t.Error("looking at another design flashes")
	}
}
