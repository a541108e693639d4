package kinematics

import (
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Standing is how a design stands to one required motion.
type Standing int

const (
	Met   Standing = iota // free, with a margin
	Close                 // free, with a margin below what is wanted
	Short                 // contact before the motion's end
	Asked                 // no target: only how far it goes
	StandingCount
)

// StandingKeys are the words for a standing in files, in their order.
var StandingKeys = []string{"met", "close", "short", "asked"}

// Key returns the word for the standing in files.
func (s Standing) Key() string { return StandingKeys[s] }

// Outcome is how a design stands to one requirement.
type Outcome struct {
	Standing Standing
	// Least is the least margin over all of the requirement's paths: how far the
	// cup axis of a round design may err before the motion is lost, or by how
	// much it is lost already. Not for a motion that is only asked.
	Least Least
	// Limit is where the motion stops: for a motion that is short on the path of
	// least margin, for one only asked on the path that goes least far. Path says
	// which.
	Limit Limit
	Path  int
	// Missing is how much of the moving joint angle is missing there, up to
	// where it was to go. Reached is whether the last leg was entered; if not, the
	// target was not tried.
	Missing unit.Angle
	Reached bool
	// Contact is the touch, or where a free motion comes closest.
	Contact Contact
}

// Verdict is how a design stands to a list of requirements.
type Verdict struct {
	Outcomes []Outcome // in the order of the requirements
	Count    [StandingCount]int
	// First is the requirement of least margin: the one that fails first as
	// anything goes wrong, or fails most. -1 where nothing is required.
	First     int
	Posterior Flank
	Anterior  Flank
}

// Flank is the least margin of the motions that risk dislocation to one side.
type Flank struct {
	Known  bool
	Margin unit.Angle
	Motion int // index of the requirement
}

// Serves reports whether every required motion is met or close.
func (v Verdict) Serves() bool { return v.First >= 0 && v.Count[Short] == 0 }

// Judge returns how the joint stands to a list of requirements; a margin below
// closeness counts as close.
func (j Joint) Judge(list []motion.Requirement, closeness unit.Angle) Verdict {
	v := Verdict{Outcomes: make([]Outcome, len(list)), First: -1}
	for i, r := range list {
		o := j.outcome(r, closeness)
		v.Outcomes[i] = o
		v.Count[o.Standing]++
		if o.Standing == Asked {
			continue
		}
		if v.First < 0 || o.Least.Margin < v.Outcomes[v.First].Least.Margin {
			v.First = i
		}
		switch r.Risk {
		case motion.Posterior:
			v.Posterior.lower(o.Least.Margin, i)
		case motion.Anterior:
			v.Anterior.lower(o.Least.Margin, i)
		}
	}
	return v
}

func (f *Flank) lower(margin unit.Angle, motion int) {
	if !f.Known || margin < f.Margin {
		*f = Flank{Known: true, Margin: margin, Motion: motion}
	}
}

func (j Joint) outcome(r motion.Requirement, closeness unit.Angle) Outcome {
	if r.Open || len(r.Paths) == 0 {
		return j.asked(r)
	}
	o := Outcome{Standing: Met, Least: j.LeastOf(r.Paths)}
	o.Path = o.Least.Path
	p := r.Paths[o.Path]
	switch {
	case o.Least.Margin <= Touch:
		o.Standing = Short
		o.stop(j.Limit(p), p)
	case o.Least.Margin < closeness:
		o.Standing = Close
		fallthrough
	default:
		o.Reached = true
		o.Contact = j.On(p).contact(o.Least.Posture, p.Zero)
	}
	return o
}

// stop notes where a path stops and what is missing.
func (o *Outcome) stop(l Limit, p motion.Path) {
	o.Limit, o.Contact = l, l.Contact
	o.Reached = p.Legs() == 0 || l.At.Leg == p.Legs()-1 && l.Status != StartsInContact
	if l.Status != Free && p.Legs() > 0 {
		o.Missing = (target(p, l.At.Leg, l.Moving) - l.Angle).Abs()
	}
}

// target returns the value to which a joint angle was to go on from a leg: to
// the end of the last of the legs that go on with it in the same direction.
func target(p motion.Path, leg int, moving hip.JointAngle) unit.Angle {
	start, to := p.Waypoints[leg].Angle(moving), p.Waypoints[leg+1].Angle(moving)
	rising := to > start
	for _, q := range p.Waypoints[leg+2:] {
		next := q.Angle(moving)
		if next != to && next > to != rising {
			break
		}
		to = next
	}
	return to
}

// asked returns how far an open motion goes, on the path on which it goes least
// far. A path that stops before its last leg goes less far than any that enters
// it.
func (j Joint) asked(r motion.Requirement) Outcome {
	o, least := Outcome{Standing: Asked}, unit.Angle(0)
	for i, p := range r.Paths {
		l := j.Limit(p)
		one := Outcome{Standing: Asked, Path: i}
		one.stop(l, p)
		travelled := unit.Angle(-1)
		if one.Reached && p.Legs() > 0 {
			travelled = (l.Angle - p.Waypoints[l.At.Leg].Angle(l.Moving)).Abs()
		}
		if i == 0 || travelled < least {
			o, least = one, travelled
		}
	}
	o.Missing = 0 // there is no target
	return o
}
