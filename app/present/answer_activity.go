package present

import (
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// ActivityRow is one line of the list of activities.
type ActivityRow struct {
	Key, Name string
	Angles    string // greatest joint angles
	Together  string // whether they belong to one moment
	Risk      string
	Zero      string // what they are counted from, and how well that is known
	Basis     string
	Doubtful  bool // from memory or assumed
	Source    string
}

// ActivityRow describes an activity.
func (w *Words) ActivityRow(a motion.Activity) ActivityRow {
	r := ActivityRow{
		Key: a.Key, Name: w.Activity(a), Together: w.Together(a.Together), Risk: w.Risk(a.Risk),
		Zero: w.rests(w.Zero(a.Zero), w.Basis(a.Zero.Basis)), Basis: w.Basis(a.Basis()), Doubtful: a.Basis().Doubtful(), Source: a.Source,
	}
	least, most := a.Range()
	var parts []string
	for angle := hip.Flexion; angle <= hip.InternalRotation; angle++ {
		from, to := least[angle], most[angle]
		switch {
		case a.Open && goesOn(a, angle):
			parts = append(parts, w.Phrase("calc_until", "movement", w.Movement(sense(angle, from+to))))
		case from == to && to == 0:
		case from == to, from == 0 && to > 0:
			parts = append(parts, w.plainAngle(angle, to.Degrees()))
		case to == 0:
			parts = append(parts, w.plainAngle(angle, from.Degrees()))
		default:
			parts = append(parts, w.Phrase("range", "min", w.plainAngle(angle, from.Degrees()), "max", w.plainAngle(angle, to.Degrees())))
		}
	}
	r.Angles = w.list(parts)
	return r
}

// goesOn reports whether the last leg of an open activity moves a joint angle.
func goesOn(a motion.Activity, angle hip.JointAngle) bool {
	for _, route := range a.Routes {
		end, before := route[len(route)-1].Posture(), hip.Neutral
		if len(route) > 1 {
			before = route[len(route)-2].Posture()
		}
		if end.Angle(angle) != before.Angle(angle) {
			return true
		}
	}
	return false
}

// sense returns the movement of a joint angle towards a value.
func sense(a hip.JointAngle, v unit.Angle) kinematics.Movement {
	m, _ := Signed(a, v)
	return m
}

// plainAngle says a stated joint angle without needless decimals.
func (w *Words) plainAngle(a hip.JointAngle, degrees float64) string {
	m, v := Signed(a, unit.Angle(degrees)*unit.Degree)
	return w.Phrase("given", "angle", w.shortDegrees(v), "movement", w.Movement(m))
}

// CriteriaRow is one line of the list of criteria sets.
type CriteriaRow struct {
	Key, Name string
	Asks      string // what must be reached
	Zero      string
	Basis     string
	Doubtful  bool
	Source    string
}

// CriteriaRow describes a set of criteria.
func (w *Words) CriteriaRow(s motion.CriteriaSet) CriteriaRow {
	var parts []string
	for _, c := range s.Criteria {
		parts = append(parts, w.Criterion(c))
	}
	return CriteriaRow{Key: s.Key, Name: w.CriteriaSet(s), Asks: w.list(parts), Zero: w.rests(w.Zero(s.Zero), w.Basis(s.Zero.Basis)),
		Basis: w.Basis(s.Basis()), Doubtful: s.Basis().Doubtful(), Source: s.Source}
}
