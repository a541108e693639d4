package view

import (
	"slices"

	"rimclear/app/control"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// needs are the values that the required motions ask of the rulers. A motion
// has a mark only where the whole of it runs along one ruler: from neutral the
// way on which that ruler's limit is found, and then the ruler's own angle
// alone. Then the limit answers it, and nothing else does.
//
// Where no required motion is that simple, hollow marks on the ruler of flexion
// show how far any of them flexes and extends, whatever its other angles are.
type needs struct {
	key  needsKey
	list []need
	far  bool // the marks are hollow
}

// needsKey is all that the needs depend on.
type needsKey struct {
	hip   kinematics.Hip
	first *motion.Requirement
	count int
}

// need is one mark: which line, in which direction, how far, and for what.
type need struct {
	line *line
	high bool
	at   unit.Angle // in the direction
	of   motion.Requirement
	full hip.Posture // of a hollow mark, with the motion's other angles
}

// require finds the needs of a snapshot, where they are not at hand, and marks
// the rulers.
func (l *limits) require(s *session.Snapshot) {
	if l.Motions == nil {
		return
	}
	list, _ := l.Motions.Required(&s.Case)
	key := needsKey{hip: s.Case.Hip, count: len(list)}
	if len(list) > 0 {
		key.first = &list[0]
	}
	if key == l.needs.key {
		return
	}
	l.needs = needs{key: key, list: l.along(&s.Case, list)}
	if len(l.needs.list) == 0 {
		l.needs.list, l.needs.far = l.farthest(&s.Case, list), true
	}
	for _, n := range l.lines {
		var marks []control.Need
		for _, k := range l.needs.list {
			if k.line != n {
				continue
			}
			at := k.at.Degrees()
			if !k.high {
				at = -at
			}
			if m := (control.Need{At: at, Reached: l.needs.far}); !slices.Contains(marks, m) {
				marks = append(marks, m)
			}
		}
		l.rulers.SetNeeds(n.ruler, marks)
	}
}

// judged reports whether a motion has values at all: an open one only asks how
// far it goes, and one whose zero is not known may lie degrees beside it.
func judged(r motion.Requirement) bool { return !r.Open && r.Converted && r.Kind != motion.OfRecording }

// along returns the needs of motions that run along one ruler.
func (l *limits) along(c *kinematics.Case, list []motion.Requirement) (found []need) {
	for _, r := range list {
		if !judged(r) {
			continue
		}
		var of []need
		for _, p := range r.Paths {
			one := l.alongOne(c, p)
			if one == nil {
				of = nil
				break
			}
			of = append(of, one...)
		}
		for _, n := range of {
			n.of = r
			found = append(found, n)
		}
	}
	return found
}

// alongOne returns how far a path goes each way on the first line that it runs
// along; nil if there is none.
func (l *limits) alongOne(c *kinematics.Case, p motion.Path) []need {
	if p.Mechanical != 0 || p.Legs() == 0 {
		return nil
	}
	way := inZero(c, p)
	for _, n := range l.lines {
		if !n.carries(c, way) {
			continue
		}
		var low, high unit.Angle
		for _, q := range way[1:] { // where it starts is not asked for
			if n.holds(c, q) {
				low, high = min(low, q.Angle(n.joint)), max(high, q.Angle(n.joint))
			}
		}
		const least = 0.5 * unit.Degree
		var found []need
		if n.low >= 0 && -low > least {
			found = append(found, need{line: n, at: -low})
		}
		if n.high >= 0 && high > least {
			found = append(found, need{line: n, high: true, at: high})
		}
		if found != nil {
			return found
		}
	}
	return nil
}

// inZero returns a path's waypoints as the rulers count them: a tilt adds to
// flexion exactly.
func inZero(c *kinematics.Case, p motion.Path) []hip.Posture {
	way := slices.Clone(p.Waypoints)
	tilt := c.Hip.Tilts.Of(p.Zero) - c.Hip.Tilts.Of(c.Hip.PosturePlane)
	for i := range way {
		way[i].Flexion += tilt
	}
	return way
}

// holds reports whether a posture is one of a line's.
func (n *line) holds(c *kinematics.Case, p hip.Posture) bool {
	return same(n.start(c).With(n.joint, p.Angle(n.joint)), p)
}

// carries reports whether a whole way is one of a line: each leg on the way from
// neutral to where the line is asked, or along the line, on which it ends.
func (n *line) carries(c *kinematics.Case, way []hip.Posture) bool {
	for i := 1; i < len(way); i++ {
		a, b := way[i-1], way[i]
		if n.holds(c, a) && n.holds(c, b) {
			continue
		}
		if i == len(way)-1 || !n.leadsTo(c, a, b) {
			return false
		}
	}
	return true
}

// leadsTo reports whether a leg is part of the way from neutral to where a line
// is asked: flexion first, then the given adduction.
func (n *line) leadsTo(c *kinematics.Case, a, b hip.Posture) bool {
	start := n.start(c)
	flexed := hip.Posture{Flexion: start.Flexion}
	within := func(from, to hip.Posture, k hip.JointAngle, p hip.Posture) bool {
		lo, hi := min(from.Angle(k), to.Angle(k)), max(from.Angle(k), to.Angle(k))
		return same(from.With(k, min(max(p.Angle(k), lo), hi)), p)
	}
	on := func(from, to hip.Posture, k hip.JointAngle) bool {
		return within(from, to, k, a) && within(from, to, k, b)
	}
	return on(hip.Neutral, flexed, hip.Flexion) || on(flexed, start, hip.Adduction)
}

// farthest returns how far any motion flexes and extends, on the line of
// flexion.
func (l *limits) farthest(c *kinematics.Case, list []motion.Requirement) []need {
	var found [2]need
	line := l.find(hip.Flexion, kinematics.Question{})
	if line == nil {
		return nil
	}
	for _, r := range list {
		if !judged(r) {
			continue
		}
		for _, p := range r.Paths {
			if p.Mechanical != 0 {
				continue
			}
			for _, q := range inZero(c, p) {
				for i, at := range [2]unit.Angle{-q.Flexion, q.Flexion} {
					if at > found[i].at {
						found[i] = need{line: line, high: i == 1, at: at, of: r, full: q}
					}
				}
			}
		}
	}
	return slices.DeleteFunc(found[:], func(n need) bool { return n.line == nil || n.at < 0.5*unit.Degree })
}

// needed says what is asked of one end of a ruler, after what is said of it
// already.
func (l *limits) needed(n *line, high bool, detail string) string {
	w, list := l.Words, ""
	for _, k := range l.needs.list {
		if k.line != n || k.high != high {
			continue
		}
		angle := w.Shortest(k.at.Degrees(), 1) + w.Unit(kinematics.Degrees)
		if l.needs.far {
			return w.Phrase("window_two", "first", detail, "second", w.Phrase("joint_reached", "angle", angle,
				"motion", l.nameOf(k.of), "adduction", l.angle(hip.Adduction, k.full.Adduction),
				"rotation", l.angle(hip.InternalRotation, k.full.InternalRotation)))
		}
		item := w.Phrase("joint_need", "angle", angle, "motion", l.nameOf(k.of))
		if list != "" {
			item = w.Phrase("joint_need_and", "first", list, "second", item)
		}
		list = item
	}
	if list == "" {
		return detail
	}
	return w.Phrase("window_two", "first", detail, "second", w.Phrase("joint_needs", "list", list))
}

// nameOf names a motion; a criterion by its set.
func (l *limits) nameOf(r motion.Requirement) string {
	if r.Kind == motion.OfCriterion {
		if s, ok := l.Motions.Library.Set(r.Set); ok {
			return l.Words.CriteriaSet(s)
		}
	}
	return l.Words.Requirement(r)
}

// legend explains the marks that are on the rulers.
func (l *limits) legend() control.Legend {
	k := control.Legend{Off: l.Words.Phrase("joint_needle_off")}
	switch {
	case len(l.needs.list) == 0:
	case l.needs.far:
		k.Need, k.Reached = l.Words.Phrase("joint_mark_reached"), true
	default:
		k.Need = l.Words.Phrase("joint_mark_need")
	}
	return k
}
