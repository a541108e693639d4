package view

import "time"

// Pace measures our own work per picture: what a change costs before the
// picture is drawn, and the drawing.
type Pace struct {
	Pictures int
	Last     time.Duration // all work of the last picture
	pending  time.Duration
	OnDrawn  func()
}

func (p *Pace) worked(d time.Duration) { p.pending += d }

func (p *Pace) drawn(d time.Duration) {
	p.Pictures++
	p.Last, p.pending = p.pending+d, 0
	if p.OnDrawn != nil {
		p.OnDrawn()
	}
}
