package view

import (
	"time"
)

// explainFrame is how often the person moves while it plays.
const explainFrame = time.Second / 40

// stillSteps is in how many steps a person moves where movement is not wanted.
const stillSteps = 4

// restart begins the round of an activity anew.
func (e *Explain) restart() {
	e.begun, e.at = e.Now(), 0
	switch {
	case e.Still:
		e.playing, e.stilled = false, true
		e.at = explainRest + reaching(e.shown.stop) // where it ends
	case e.stilled:
		e.playing, e.stilled = true, false
	}
}

// moment returns the time of the round on screen.
func (e *Explain) moment() time.Duration {
	if !e.playing {
		return e.at
	}
	return e.Now().Sub(e.begun) % explainRound(e.shown.stop)
}

// share returns how far the movement on screen has gone.
func (e *Explain) share() float64 { return shareAt(e.shown.stop, e.moment()) }

// Play plays or pauses; where movement is not wanted it moves on by a step.
func (e *Explain) Play() {
	switch {
	case e.Still:
		e.at = explainRest + reaching(e.nextStep())
	case e.playing:
		e.at, e.playing = e.moment(), false
	default:
		e.begun, e.playing = e.Now().Add(-e.at), true
	}
	e.tools.display(e.Session.Now())
	e.picture.Refresh()
	e.tick()
}

// nextStep returns the share after the one on screen.
func (e *Explain) nextStep() float64 {
	now := e.share()
	if now >= e.shown.stop-1e-9 {
		return 0
	}
	for i := 1; i < stillSteps; i++ {
		if s := e.shown.stop * float64(i) / stillSteps; s > now+1e-6 {
			return s
		}
	}
	return e.shown.stop
}

// tick has the picture drawn again and again while it plays and is seen.
func (e *Explain) tick() {
	if e.ticks || !e.playing || !e.object.Visible() {
		return
	}
	e.ticks = true
	last := -1.0
	var step func()
	step = func() {
		if e.Still && e.playing { // it was asked for meanwhile
			e.display(e.Session.Now())
		}
		if !e.playing || !e.object.Visible() {
			e.ticks, e.moving = false, false
			return
		}
		e.see()
		// Nothing is drawn while nothing moves, but once for good.
		if s := e.share(); s != last || e.moving {
			last, e.moving = s, s != last
			e.picture.Refresh()
		}
		e.After(explainFrame, step)
	}
	e.After(explainFrame, step)
}
