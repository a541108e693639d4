package present

import (
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
)

// OutcomeRow is one line of the table of motions.
type OutcomeRow struct {
	Key      string
	Name     string
	Standing kinematics.Standing
	Margin   string // "3.2°"; for a motion only asked about, how far it goes
	State    string // "met", "close", "short", "how far"
	Clock    string // where on the rim, "" without contact
	Escape   string // which way the head would be levered, "" without contact
	Detail   string // where it stops, or where it comes closest
	Basis    string // what its values rest on
	Doubtful bool   // they are assumed or from memory
	First    bool   // the first to fail
}

// OutcomeRows returns the table of motions of one design.
func (w *Words) OutcomeRows(required []motion.Requirement, v kinematics.Verdict) []OutcomeRow {
	rows := make([]OutcomeRow, len(v.Outcomes))
	for i, o := range v.Outcomes {
		rows[i] = w.outcome(required[i], o)
		rows[i].First = i == v.First
	}
	return rows
}

func (w *Words) outcome(r motion.Requirement, o kinematics.Outcome) OutcomeRow {
	row := OutcomeRow{
		Key: r.Key, Name: w.Requirement(r), Standing: o.Standing, State: w.Standing(o.Standing),
		Margin: w.Margin(o.Least.Margin), Basis: w.Basis(r.Basis), Doubtful: r.Basis.Doubtful(),
	}
	contact := o.Standing == kinematics.Short || o.Standing == kinematics.Asked && o.Limit.Status != kinematics.Free
	if contact {
		row.Clock, row.Escape = w.Clock(o.Contact.Azimuth), w.Direction(o.Contact.Escape)
	}
	switch o.Standing {
	case kinematics.Short:
		row.Detail = w.stopped(r, o)
	case kinematics.Asked:
		row.Margin = w.shaftAngle(o.Limit.Moving, o.Limit.Angle)
		row.Detail = w.stopped(r, o)
		if o.Limit.Status == kinematics.Free {
			row.Detail = w.Phrase("free_throughout")
		}
	default:
		row.Detail = w.Phrase("closest_at", "clock", w.Clock(o.Contact.Azimuth), "clearance", w.Millimetres(o.Contact.Clearance))
	}
	if !r.Converted {
		row.Basis = w.Phrase("list", "first", row.Basis, "rest", w.Phrase("not_converted"))
	}
	return row
}

// stopped says where a motion stops.
func (w *Words) stopped(r motion.Requirement, o kinematics.Outcome) string {
	if o.Limit.Status == kinematics.StartsInContact {
		return w.Phrase("stops_at_start", w.contactParts(o.Contact)...)
	}
	parts := w.contactParts(o.Contact, "angle", w.shaftAngle(o.Limit.Moving, o.Limit.Angle), "missing", w.Degrees(o.Missing))
	switch {
	case o.Standing == kinematics.Asked && o.Reached:
		return w.Phrase("stops_asked", parts...)
	case !o.Reached:
		return w.Phrase("stops_before", parts...)
	}
	return w.Phrase("stops_short", parts...)
}

// ShareLines returns what a simulation of placements found.
func (w *Words) ShareLines(required []motion.Requirement, s kinematics.Share) []Line {
	lines := []Line{
		{"share", w.Phrase("share_meets"), w.Phrase("share_error", "share", w.Percent(s.Share, 1), "error", w.Percent(s.StandardError, 1),
			"count", Digits(float64(s.Placements), 0))},
	}
	for _, i := range mostOften(s.First, 3) {
		lines = append(lines, Line{"first_" + required[i].Key, w.Phrase("share_first", "motion", w.Requirement(required[i])), w.Percent(s.First[i], 1)})
	}
	if s.Uncovered > 0 {
		lines = append(lines, Line{"uncovered", w.Phrase("share_uncovered"), w.Percent(s.Uncovered, 1)})
	}
	for i, slope := range s.Slope {
		lines = append(lines, Line{"slope_" + kinematics.VariableKeys[i], w.word(variesSection, kinematics.VariableKeys[i]),
			w.Phrase("slope", "up", w.signed(slope.Up, 2), "down", w.signed(-slope.Down, 2))})
	}
	return lines
}

// mostOften returns the indices of the greatest shares above zero, greatest
// first, at most so many.
func mostOften(shares []float64, most int) []int {
	var list []int
	for len(list) < most {
		best := -1
		for i, x := range shares {
			taken := false
			for _, k := range list {
				taken = taken || k == i
			}
			if x > 0.0005 && !taken && (best < 0 || x > shares[best]) {
				best = i
			}
		}
		if best < 0 {
			break
		}
		list = append(list, best)
	}
	return list
}

// MostLine says at which cup position the share is greatest, or that this
// cannot be told from the position at hand.
func (w *Words) MostLine(here kinematics.Share, best kinematics.BestPlacement) Line {
	value := w.Phrase("most_at", "cup", w.Cup(best.Cup), "share", w.Percent(best.Share.Share, 1), "error", w.Percent(best.Share.StandardError, 1))
	if best.Share.Share == 0 {
		return Line{"most", w.Phrase("most_share"), w.Phrase("most_none")}
	}
	if best.Share.Share-here.Share <= 2*(here.StandardError+best.Share.StandardError) {
		value = w.Phrase("most_here", "cup", w.Cup(best.Cup), "share", w.Percent(best.Share.Share, 1), "error", w.Percent(best.Share.StandardError, 1))
	}
	return Line{"most", w.Phrase("most_share"), value}
}

// Needed says a size that would serve.
func (w *Words) Needed(n kinematics.Needed) string {
	switch {
	case n.Moot:
		return w.Phrase("needed_moot")
	case !n.Found:
		return w.Phrase("needed_none")
	case n.Bound:
		return w.Phrase("needed_bound", "size", w.Millimetres(n.Value))
	}
	return w.Millimetres(n.Value)
}

// SizeLines returns the smallest head and the widest neck that would serve.
func (w *Words) SizeLines(head, neck, headHere, neckHere kinematics.Needed) []Line {
	return []Line{
		{"head_here", w.Phrase("head_here"), w.Needed(headHere)}, {"head_best", w.Phrase("head_best"), w.Needed(head)},
		{"neck_here", w.Phrase("neck_here"), w.Needed(neckHere)}, {"neck_best", w.Phrase("neck_best"), w.Needed(neck)},
	}
}

// StabilityLines returns how the placed cup holds the head: jump distances
// under each load, for a resurfacing the contact patch, and total arcs beside
// those of a standard.
func (w *Words) StabilityLines(j kinematics.Joint, d kinematics.Design) []Line {
	var lines []Line
	for _, l := range kinematics.Loads {
		s := j.Stability(d, l, kinematics.CobaltChrome)
		name := w.word(loadSection, l.Key)
		add := func(key, phrase, value string) {
			lines = append(lines, Line{key + "_" + l.Key, w.Phrase(phrase, "load", name), value})
		}
		add("orientation", "functional_cup", w.Phrase("cup_short", "inclination", w.Degrees(s.Functional.Inclination), "anteversion", w.Degrees(s.Functional.Anteversion)))
		add("jump_lateral", "jump_lateral", w.Millimetres(s.LateralJump))
		add("jump_least", "jump_least", w.Phrase("jump_at", "jump", w.Millimetres(s.LeastJump), "clock", w.Clock(s.LeastAzimuth)))
		if s.Patch.Known {
			add("patch", "patch_to_rim", w.Phrase("patch", "centre", w.Millimetres(s.Patch.Centre), "edge", w.Millimetres(s.Patch.Edge)))
		}
	}
	return append(lines, w.totals(j)...)
}

func (w *Words) totals(j kinematics.Joint) []Line {
	var lines []Line
	for _, t := range j.Totals() {
		phrase := "total_arc"
		if t.Open {
			phrase = "total_at_least"
		}
		lines = append(lines, Line{t.Key, w.word(totalSection, t.Key), w.Phrase(phrase,
			"arc", w.Degrees(t.Arc), "least", w.shortDegrees(t.Least), "basis", w.Basis(t.Basis))})
	}
	return lines
}

// LeverLines says what happens if the first motion to fail is forced past its
// contact, nil where it makes none.
func (w *Words) LeverLines(j kinematics.Joint, h kinematics.Hip, o kinematics.Outcome) []Line {
	if o.Standing != kinematics.Short {
		return nil
	}
	load := kinematics.Loads[0].InAPP(h.Tilts)
	var lines []Line
	for _, l := range j.Levers(o.Contact, load) {
		lines = append(lines, Line{"lever_" + Shortest(l.Turn.Degrees(), 0),
			w.Phrase("lever", "turn", w.shortDegrees(l.Turn)),
			w.Phrase("lever_travel", "travel", w.Millimetres(l.Travel), "barrier", w.Millimetres(l.Barrier))})
	}
	return append(lines, Line{"escape_jump", w.Phrase("escape_jump"), w.Millimetres(j.EscapeJump(o.Contact, load))})
}

// Demand says what the motions demand of any round bearing, and what this one
// has.
func (w *Words) Demand(t kinematics.Target) []Line {
	if !t.Asked || !t.Round || !t.Fits {
		return nil
	}
	return []Line{
		{"demanded", w.Phrase("demanded"), w.Degrees(t.Demanded)},
		{"offered", w.Phrase("offered"), w.Degrees(t.Offered)},
		{"best", w.Phrase("best_cup"), w.Phrase("best_at", "cup", w.Cup(t.Constrained.Cup), "margin", w.Margin(t.Constrained.Margin))},
	}
}
