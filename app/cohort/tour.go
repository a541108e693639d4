package cohort

import (
	"math"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// leg is one movement of one joint angle from a posture. Questions share legs:
// rotation at 30° of flexion begins as flexion does.
type leg struct {
	start  hip.Posture
	moving hip.JointAngle
	sign   unit.Angle
	far    unit.Angle // the greatest travel any question asks of it
}

// end returns the posture at the leg's end.
func (l leg) end() hip.Posture { return l.start.With(l.moving, l.start.Angle(l.moving)+l.sign*l.far) }

// step is how far a question goes along a leg.
type step struct {
	leg    int
	travel unit.Angle
}

// tour is all legs of the questions and how each question goes along them. It
// depends on the adduction given and on the plane of the postures' zero.
type tour struct {
	legs   []leg
	steps  [][]step // by question
	sign   []unit.Angle
	demand *kinematics.Demand // of the legs, one motion each
}

func newTour(h kinematics.Hip, stem hip.Stem) *tour {
	t := &tour{}
	for _, q := range kinematics.Questions {
		p := q.Path(h)
		var steps []step
		for i := range p.Legs() {
			steps = append(steps, t.along(p, i))
		}
		_, sign := q.Movement.Joint()
		t.steps, t.sign = append(t.steps, steps), append(t.sign, sign)
	}
	list := make([]motion.Requirement, len(t.legs))
	for i, l := range t.legs {
		list[i].Paths = []motion.Path{{Zero: h.PosturePlane, Waypoints: []hip.Posture{l.start, l.end()}}}
	}
	t.demand = kinematics.NewDemand(h, stem, list)
	return t
}

// along finds or adds the leg of a path.
func (t *tour) along(p motion.Path, i int) step {
	from, to := p.Waypoints[i], p.Waypoints[i+1]
	moving, _ := p.Moving(i)
	travel, sign := to.Angle(moving)-from.Angle(moving), unit.Angle(1)
	if travel < 0 {
		travel, sign = -travel, -1
	}
	for k := range t.legs {
		if l := &t.legs[k]; l.start == from && l.moving == moving && l.sign == sign {
			l.far = max(l.far, travel)
			return step{k, travel}
		}
	}
	t.legs = append(t.legs, leg{from, moving, sign, travel})
	return step{len(t.legs) - 1, travel}
}

// ending is how a question ends, in the words of results.
type ending uint8

const (
	limited ending = iota
	free
	atStart
	notReached
)

// EndingKeys are the words for how a question ends, in their order.
var EndingKeys = []string{"limit", "none", "contact_at_start", "not_reached"}

// reading is the answer to one question. The angle is counted in the
// movement's direction.
type reading struct {
	ending ending
	angle  unit.Angle
}

// read returns the answer to a question, where stop tells the travel along a
// leg at which contact is first made, infinite for none.
func (t *tour) read(question int, stop func(leg int) unit.Angle) reading {
	steps := t.steps[question]
	for k, s := range steps {
		at := stop(s.leg)
		switch {
		case at > s.travel:
			continue
		case k == 0 && at == 0:
			return reading{ending: atStart}
		case k < len(steps)-1:
			return reading{ending: notReached}
		}
		l := &t.legs[s.leg]
		return reading{limited, t.sign[question] * (l.start.Angle(l.moving) + l.sign*at)}
	}
	return reading{free, kinematics.Questions[question].End}
}

var never = unit.Angle(math.Inf(1))
