package view

import (
	"math"
	"time"

	"rimclear/app/session"
	"rimclear/kinematics/unit"
)

// flash is a short light on the place of contact when contact begins: two
// pulses, and then nothing that costs a picture. With less motion there is none.
type flash struct {
	*Context
	draw func() // the picture, with level

	known    bool // of an earlier snapshot
	touching bool
	active   int
	runs     bool
	began    time.Time
}

// flashFor is how long it takes.
const flashFor = 600 * time.Millisecond

// apart is how far neck and rim must have come apart before they can be said to
// touch anew: a hand that slides along the rim does not make it flash.
const apart = 0.5 * unit.Degree

// see looks for contact that begins in a snapshot, by a change of the case. To
// look at another design, or open another case, is none.
func (f *flash) see(s *session.Snapshot) {
	was := f.touching
	switch {
	case s.Contact.InContact():
		f.touching = true
	case s.Contact.Margin > apart:
		f.touching = false
	}
	same := f.known && s.Active == f.active && s.Step.Key != ""
	f.known, f.active = true, s.Active
	if same && !was && f.touching && !f.Still {
		f.start()
	}
}

func (f *flash) start() {
	f.began = f.Now()
	if !f.runs {
		f.runs = true
		f.After(frame, f.tick)
	}
}

func (f *flash) tick() {
	if f.runs = f.Now().Sub(f.began) < flashFor && f.touching; f.runs {
		f.After(frame, f.tick)
	}
	f.draw()
}

// level is how bright it is, 0 to 1; no flash, as beside Target's map, is dark.
func (f *flash) level() float64 {
	if f == nil || !f.runs {
		return 0
	}
	s := math.Sin(2 * math.Pi * min(float64(f.Now().Sub(f.began))/float64(flashFor), 1))
	return s * s
}
