package kinematics

import (
	"math"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Status is how a motion ends. A solver's outcome is data, not an error.
type Status int

const (
	Stopped         Status = iota // first contact found
	Free                          // free to the end of the path
	StartsInContact               // touching at the start; no limit is given
)

// Interval is a stretch of a path that is in contact.
type Interval struct{ From, To motion.Place }

// Limit is how far a motion goes before the neck meets the rim.
type Limit struct {
	Status    Status
	At        motion.Place   // where it stops; the path's end if free, its start if in contact there
	Moving    hip.JointAngle // the joint angle that moves on that leg
	Angle     unit.Angle     // its value there, signed
	Posture   hip.Posture    // the whole posture there
	Contact   Contact        // the touch, or for a free motion the state at its end
	Intervals []Interval     // all contact, in order; a limit is the first one's start
}

// Limit returns how far a motion goes. The legs on which one joint angle moves
// are solved in closed form for round designs, all others by a certified
// search that steps over no contact, however narrow. Errors are below 1e-9° but
// where contact is grazing, when the margin there is.
func (j Joint) Limit(m motion.Path) Limit {
	return j.limit(m, true)
}

// SearchedLimit returns the same by the certified search alone.
func (j Joint) SearchedLimit(m motion.Path) Limit {
	return j.limit(m, false)
}

func (j Joint) limit(m motion.Path, closed bool) Limit {
	j = j.On(m)
	l := Limit{Status: Free, At: m.End(), Intervals: j.intervals(m, closed)}
	if m.Legs() == 0 {
		if j.Aperture.Nearest(j.pose(m.At(motion.Place{}), m.Zero)).Margin <= Touch {
			l.Status = StartsInContact
		}
	} else if len(l.Intervals) > 0 {
		l.Status, l.At = Stopped, l.Intervals[0].From
		if l.At == (motion.Place{}) {
			l.Status = StartsInContact
		}
	}
	if m.Legs() > 0 {
		l.Moving, _ = m.Moving(l.At.Leg)
	}
	l.Posture = m.At(l.At)
	l.Angle = l.Posture.Angle(l.Moving)
	l.Contact = j.contact(l.Posture, m.Zero)
	return l
}

// intervals lists the contact along a path. Stretches that go on from one leg
// to the next are joined.
func (j Joint) intervals(m motion.Path, closed bool) []Interval {
	var all []Interval
	_, round := j.Aperture.Theta()
	for leg := range m.Legs() {
		add := func(from, to float64) {
			if n := len(all); n > 0 && from == 0 && all[n-1].To == (motion.Place{Leg: leg - 1, Fraction: 1}) {
				all[n-1].To = motion.Place{Leg: leg, Fraction: to}
				return
			}
			all = append(all, Interval{motion.Place{Leg: leg, Fraction: from}, motion.Place{Leg: leg, Fraction: to}})
		}
		if _, alone := m.Moving(leg); alone && round && closed {
			j.closedLeg(m, leg, add)
		} else {
			j.searchedLeg(m, leg, add)
		}
	}
	return all
}

// searchedLeg finds the contact on one leg by certified steps.
func (j Joint) searchedLeg(m motion.Path, leg int, add func(from, to float64)) {
	w := j.walk(m, leg)
	if w.slope == 0 {
		if w.over(0) <= 0 {
			add(0, 1)
		}
		return
	}
	for at := 0.0; ; {
		from, found := w.enters(at)
		if !found {
			return
		}
		to, left := w.leaves(from)
		add(from, to)
		if !left {
			return
		}
		at = math.Max(to, from+leastContact)
	}
}

// leastContact is the share of a leg that a contact takes at least, so that a
// touch of a single point is not found again.
const leastContact = 1e-12

// closedLeg solves a leg on which one joint angle x moves and the free set is a
// cone: cos(angle between cup and neck axis) = A + B cos x + C sin x.
func (j Joint) closedLeg(m motion.Path, leg int, add func(from, to float64)) {
	moving, _ := m.Moving(leg)
	start, end := m.Waypoints[leg].Angle(moving), m.Waypoints[leg+1].Angle(moving)
	w := j.wave(m.Waypoints[leg], moving, m.Zero)
	if start == end {
		if w.contact(j.cosTheta, start) {
			add(0, 1)
		}
		return
	}
	w.within(j, start, end, add)
}

// wave is A + H cos(x - Peak).
type wave struct {
	a, h float64
	peak unit.Angle
}

// wave returns the cosine of the angle between cup axis and neck axis as a
// function of one joint angle, the others held.
func (j Joint) wave(p hip.Posture, moving hip.JointAngle, zero hip.Plane) wave {
	n := hip.RotationZ(-j.tilts.Of(zero)).Apply(j.CupAxis())
	v := j.femurFromNeck.Column(2)
	switch moving {
	case hip.Adduction:
		n = hip.RotationZ(-p.Flexion).Apply(n)
		v = hip.RotationY(p.InternalRotation).Apply(v)
		return newWave(n.X*v.X, n.Y*v.Y+n.Z*v.Z, n.Z*v.Y-n.Y*v.Z)
	case hip.InternalRotation:
		n = hip.RotationX(-p.Adduction).Apply(hip.RotationZ(-p.Flexion).Apply(n))
		return newWave(n.Y*v.Y, n.X*v.X+n.Z*v.Z, n.X*v.Z-n.Z*v.X)
	}
	v = hip.RotationX(p.Adduction).Apply(hip.RotationY(p.InternalRotation).Apply(v))
	return newWave(n.Z*v.Z, n.X*v.X+n.Y*v.Y, n.Y*v.X-n.X*v.Y)
}

func newWave(a, b, c float64) wave {
	return wave{a: a, h: math.Hypot(b, c), peak: unit.Angle(math.Atan2(c, b))}
}

func (w wave) contact(cosTheta float64, x unit.Angle) bool {
	return w.a+w.h*(x-w.peak).Cos() <= cosTheta
}

// within adds the contact between two values of the joint angle, in the
// motion's order. Contact is where a + h·cos(x - peak) ≤ cos θ, with a touch
// widened by the margin that counts as contact.
func (w wave) within(j Joint, start, end unit.Angle, add func(from, to float64)) {
	theta, _ := j.Aperture.Theta()
	if theta <= Touch {
		add(0, 1)
		return
	}
	// The least and greatest angle between the axes over the whole turn.
	c := (theta - Touch).Cos()
	ratio := (c - w.a) / w.h
	switch {
	case !(w.h > 1e-15):
		if w.a <= c {
			add(0, 1)
		}
		return
	case ratio >= 1:
		add(0, 1)
		return
	case ratio < -1:
		return
	}
	half := unit.Angle(math.Acos(ratio)) // free within half of the peak
	w.place(half, start, end, add)
}

// place lays the periodic contact (half, 360° - half) about the peak over the
// leg and adds what it covers.
func (w wave) place(half, start, end unit.Angle, add func(from, to float64)) {
	const turn = 360 * unit.Degree
	sign := unit.Angle(1)
	if end < start {
		sign = -1
	}
	span := (end - start) * sign
	// Position along the leg of the first contact's beginning.
	first := (w.peak - start) * sign
	first = first + half
	first -= turn * unit.Angle(math.Floor(float64(first/turn)))
	for from := first - turn; from <= span; from += turn {
		to := from + turn - 2*half
		if to < 0 {
			continue
		}
		add(float64(max(from, 0)/span), float64(min(to, span)/span))
	}
}
