package playback

import (
	"sort"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Clip is a motion with the time at which it passes each of its waypoints.
type Clip struct {
	Path     motion.Path
	Recorded bool      // the times were recorded; otherwise the pace is assumed
	times    []float64 // s, one for each waypoint, from 0
}

// Pace is how fast the joint angles move in motions that have no times of their
// own, by the sum of their changes in a second: an assumed value, slow enough
// to follow.
const Pace = 45 * unit.Degree

// shortest is the least time a leg takes, s.
const shortest = 0.2

// Paced returns a motion at the assumed pace.
func Paced(p motion.Path) Clip {
	c := Clip{Path: p, times: make([]float64, len(p.Waypoints))}
	for leg := range p.Legs() {
		a, b := p.Waypoints[leg], p.Waypoints[leg+1]
		turn := unit.Angle(0)
		for k := hip.Flexion; k <= hip.InternalRotation; k++ {
			turn += (b.Angle(k) - a.Angle(k)).Abs()
		}
		c.times[leg+1] = c.times[leg] + max(shortest, float64(turn/Pace))
	}
	return c
}

// Timed returns a recording as it was, made ready for a patient.
func Timed(r motion.Recording, s motion.Setting) Clip {
	c := Clip{Path: r.Path(s), Recorded: true, times: make([]float64, len(r.Times))}
	for i, t := range r.Times {
		c.times[i] = t - r.Times[0]
	}
	return c
}

// Duration returns how long it takes, s.
func (c Clip) Duration() float64 {
	if len(c.times) == 0 {
		return 0
	}
	return c.times[len(c.times)-1]
}

// Empty reports whether there is nothing to be played.
func (c Clip) Empty() bool { return len(c.Path.Waypoints) == 0 }

// Place returns the place of the motion at a time, held at its ends.
func (c Clip) Place(t float64) motion.Place {
	if c.Path.Legs() == 0 {
		return motion.Place{}
	}
	i := sort.SearchFloat64s(c.times, t)
	switch {
	case i == 0:
		return motion.Place{}
	case i == len(c.times):
		return c.Path.End()
	}
	return motion.Place{Leg: i - 1, Fraction: (t - c.times[i-1]) / (c.times[i] - c.times[i-1])}
}

// Time returns when the motion passes a place, s.
func (c Clip) Time(p motion.Place) float64 {
	if p.Leg+1 >= len(c.times) {
		return c.Duration()
	}
	return c.times[p.Leg] + p.Fraction*(c.times[p.Leg+1]-c.times[p.Leg])
}

// Posture returns the posture of the shaft at a time, with its zero in a plane.
func (c Clip) Posture(t float64, zero hip.Plane, tilts hip.Tilts) hip.Posture {
	p := c.Path.ShaftAt(c.Place(t))
	// A tilt adds to flexion exactly.
	p.Flexion += tilts.Of(c.Path.Zero) - tilts.Of(zero)
	return p
}

// Trace is the margin over a motion: what is drawn along the scrub bar.
type Trace struct {
	Times   []float64 // s
	Margins []unit.Angle
	Stops   bool // it meets the rim, first at Contact
	Contact float64
	At      kinematics.Contact // there
}

// TraceOf follows a motion with a joint, at n moments evenly spaced in time.
func TraceOf(j kinematics.Joint, c Clip, n int) Trace {
	var t Trace
	if c.Empty() {
		return t
	}
	on := j.On(c.Path)
	for i := range n {
		s := c.Duration() * float64(i) / float64(max(n-1, 1))
		t.Times = append(t.Times, s)
		t.Margins = append(t.Margins, on.Margin(c.Path.At(c.Place(s))))
	}
	if l := j.Limit(c.Path); l.Status != kinematics.Free {
		t.Stops, t.At = true, l.Contact
		if l.Status == kinematics.Stopped {
			t.Contact = c.Time(l.At)
		}
	}
	return t
}
