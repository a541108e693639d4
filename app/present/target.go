package present

import (
	"math"
	"strconv"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Sections of the words on targets.
const (
	zoneSection    = "zone"    // published zones, by key
	loadSection    = "load"    // directions of load, by key
	totalSection   = "total"   // total arcs of a standard, by key
	scatterSection = "scatter" // published scatter, by key
	variesSection  = "varies"  // what varies between placements, by key
)

// Zone returns the name of a published zone.
func (w *Words) Zone(z kinematics.Zone) string { return w.word(zoneSection, z.Key) }

// ZoneNote says where a zone comes from, how firm it is, and what speaks
// against it.
func (w *Words) ZoneNote(z kinematics.Zone) string {
	note := w.Phrase("zone_note", "source", w.Source(z.Source), "basis", w.Basis(z.Basis), "stated", w.Basis(z.Stated))
	if z.Doubt != "" {
		note = w.Phrase("two_sentences", "first", note, "second", w.Source(z.Doubt))
	}
	return note
}

// ScatterPreset returns the name of a published scatter.
func (w *Words) ScatterPreset(p kinematics.ScatterPreset) string {
	return w.word(scatterSection, p.Key)
}

// Percent returns a share as a percentage.
func (w *Words) Percent(share float64, decimals int) string {
	return w.Phrase("percent", "value", w.Digits(100*share, decimals))
}

// Cup says a cup position: "inclination 43.5°, anteversion 22.0°".
func (w *Words) Cup(c kinematics.Cup) string {
	return w.Phrase("cup_at", "inclination", minus(w.Degrees(c.Inclination)), "anteversion", minus(w.Degrees(c.Anteversion)))
}

// tenth rounds an angle as it is said.
func tenth(a unit.Angle) unit.Angle { return unit.Angle(math.Round(a.Degrees()*10)/10) * unit.Degree }

// Serve is what the sentences on a target are made of.
type Serve struct {
	Required []motion.Requirement
	Lost     int // keys of motions of which nothing is known here
	Verdict  kinematics.Verdict
	Cup      kinematics.Cup // as placed, in the design's definition and the hip's plane

	Known  bool // Target and AtBest are those of this question
	Target kinematics.Target
	AtBest kinematics.Verdict // with the cup at Target.Constrained
	SD     [kinematics.VariableCount]unit.Angle
}

// Serves says how many motions a design serves where it is placed, and what is
// short and by how much.
func (w *Words) Serves(s Serve) string {
	v := s.Verdict
	asked := len(s.Required) - v.Count[kinematics.Asked]
	short := v.Count[kinematics.Short]
	text := ""
	switch {
	case asked <= 0:
		text = w.Phrase("serves_nothing_asked")
	case short == 0 && asked == 1:
		text = w.Phrase("serves_the_one", "motion", w.motion(s.Required[v.First]), "margin", w.Margin(v.Outcomes[v.First].Least.Margin))
	case short == 0:
		text = w.Phrase("serves_all", "count", strconv.Itoa(asked), "motion", w.motion(s.Required[v.First]),
			"margin", w.Margin(v.Outcomes[v.First].Least.Margin))
	case asked == 1:
		text = w.Phrase("serves_not", "short", w.short(s.Required[v.First], v.Outcomes[v.First]))
	case short == 1:
		text = w.Phrase("serves_but_one", "served", strconv.Itoa(asked-1), "count", strconv.Itoa(asked),
			"short", w.short(s.Required[v.First], v.Outcomes[v.First]))
	default:
		key := "serves_some"
		if short == 2 {
			key = "serves_but_two"
		}
		text = w.Phrase(key, "served", strconv.Itoa(asked-short), "count", strconv.Itoa(asked), "others", strconv.Itoa(short-1),
			"short", w.short(s.Required[v.First], v.Outcomes[v.First]))
	}
	switch {
	case s.Lost == 1:
		text = w.Phrase("two_sentences", "first", text, "second", w.Phrase("lost_one"))
	case s.Lost > 1:
		text = w.Phrase("two_sentences", "first", text, "second", w.Phrase("lost_many", "count", strconv.Itoa(s.Lost)))
	}
	return text
}

// motion returns a requirement's name inside a sentence, where it is quoted so
// that it is read as a name.
func (w *Words) motion(r motion.Requirement) string {
	return w.Phrase("motion_named", "name", w.Requirement(r))
}

// short says that a motion is short, and by how much of which movement.
func (w *Words) short(r motion.Requirement, o kinematics.Outcome) string {
	name := w.motion(r)
	if !o.Reached || o.Missing == 0 {
		return w.Phrase("short_by_margin", "motion", name, "margin", w.Degrees(o.Least.Margin.Abs()))
	}
	return w.Phrase("short_by", "motion", name, "missing", w.Degrees(o.Missing), "movement", w.Movement(towards(r, o)))
}

// towards returns the movement in which a motion was stopped.
func towards(r motion.Requirement, o kinematics.Outcome) kinematics.Movement {
	m := kinematics.Movement(2 * o.Limit.Moving)
	p := r.Paths[o.Path]
	if p.Legs() == 0 {
		return m
	}
	leg := o.Limit.At.Leg
	if p.Waypoints[leg+1].Angle(o.Limit.Moving) < p.Waypoints[leg].Angle(o.Limit.Moving) {
		m++
	}
	return m
}

// Aim says where the cup would have to be, what that buys and what it costs; or
// that no position serves, and why.
func (w *Words) Aim(s Serve) string {
	t := s.Target
	switch {
	case !s.Known || !t.Asked || s.Verdict.First < 0:
		return ""
	case !t.Fits:
		return w.Phrase("aim_no_hemisphere", "motions", w.binding(s, t.Best))
	case !t.Reachable:
		return w.Phrase("aim_out_of_bounds")
	case t.Best.Margin <= kinematics.Touch && t.Round:
		return w.Phrase("aim_too_little", "demanded", w.Degrees(t.Demanded), "offered", w.Degrees(t.Offered), "motions", w.binding(s, t.Best))
	case t.Best.Margin <= kinematics.Touch:
		return w.Phrase("aim_nowhere", "short", w.Degrees(t.Best.Margin.Abs()), "cup", w.Cup(t.Best.Cup), "motions", w.binding(s, t.Best))
	case t.Constrained.Margin <= kinematics.Touch:
		return w.Phrase("aim_bounds_forbid", "short", w.Degrees(t.Constrained.Margin.Abs()),
			"cup", w.Cup(t.Best.Cup), "margin", w.Degrees(t.Best.Margin))
	}
	text := w.change(s)
	if cost := t.Cost(); t.Bounded && cost.Degrees() >= 0.1 {
		cost = tenth(t.Best.Margin) - tenth(t.Constrained.Margin) // as the two are read
		text = w.Phrase("two_sentences", "first", text, "second", w.Phrase("aim_bounds_cost",
			"cost", w.Degrees(cost), "cup", w.Cup(t.Best.Cup), "margin", w.Degrees(t.Best.Margin)))
	}
	return text
}

// binding lists the motions that leave no more margin, each once.
func (w *Words) binding(s Serve, a kinematics.Aim) string {
	var names []string
	seen := map[int]bool{}
	for _, e := range a.Binding {
		if i := e.Moment.Motion; i >= 0 && i < len(s.Required) && !seen[i] {
			seen[i] = true
			names = append(names, w.motion(s.Required[i]))
		}
	}
	return w.enumerated(names)
}

// enumerated joins words as a sentence does: "a, b and c".
func (w *Words) enumerated(words []string) string {
	if n := len(words); n > 1 {
		return w.Phrase("and", "first", w.list(words[:n-1]), "second", words[n-1])
	}
	return join(words)
}

// noChange is the change of the cup under which it counts as placed at the
// best position: half a step of its sliders.
const noChange = 0.25 * unit.Degree

// change says what moving the cup to the best position buys and costs.
func (w *Words) change(s Serve) string {
	best := s.Target.Constrained
	di, da := best.Cup.Inclination-s.Cup.Inclination, best.Cup.Anteversion-s.Cup.Anteversion
	now := s.Verdict.Outcomes[s.Verdict.First].Least.Margin
	if best.Margin-now < 0.05*unit.Degree || di.Abs() < noChange && da.Abs() < noChange {
		return w.Phrase("aim_there", "margin", w.Margin(now))
	}
	text := w.Phrase("aim_change", "change", w.moved(di, da), "cup", w.Cup(best.Cup), "from", w.Margin(now), "to", w.Margin(best.Margin),
		"cost", w.cost(s))
	if di.Abs() <= s.SD[kinematics.CupInclination] && da.Abs() <= s.SD[kinematics.CupAnteversion] {
		text = w.Phrase("two_sentences", "first", text, "second", w.Phrase("aim_within_error",
			"inclination", w.Degrees(s.SD[kinematics.CupInclination]), "anteversion", w.Degrees(s.SD[kinematics.CupAnteversion])))
	}
	return text
}

// moved says a change of the cup: "2.5° more anteversion".
func (w *Words) moved(di, da unit.Angle) string {
	part := func(d unit.Angle, more, less string) string {
		if d < 0 {
			return w.Phrase(less, "angle", w.Degrees(-d))
		}
		return w.Phrase(more, "angle", w.Degrees(d))
	}
	var parts []string
	if da.Abs() >= noChange {
		parts = append(parts, part(da, "more_anteversion", "less_anteversion"))
	}
	if di.Abs() >= noChange {
		parts = append(parts, part(di, "more_inclination", "less_inclination"))
	}
	return w.enumerated(parts)
}

// cost says which motion loses most by the change.
func (w *Words) cost(s Serve) string {
	worst, at := unit.Angle(0), -1
	for i, o := range s.AtBest.Outcomes {
		if o.Standing == kinematics.Asked || i >= len(s.Verdict.Outcomes) {
			continue
		}
		if fall := s.Verdict.Outcomes[i].Least.Margin - o.Least.Margin; fall > worst {
			worst, at = fall, i
		}
	}
	if at < 0 || worst.Degrees() < 0.05 {
		return w.Phrase("cost_nothing")
	}
	return w.Phrase("cost", "motion", w.motion(s.Required[at]), "fall", w.Degrees(worst), "left", w.Margin(s.AtBest.Outcomes[at].Least.Margin))
}

// FlankRow is the least margin of the motions at risk to one side.
type FlankRow struct {
	Name, Margin string
	Motion       string // "" where none is at risk to this side
	Standing     kinematics.Standing
}

// Flanks says the least margins of the motions at risk to either side.
func (w *Words) Flanks(required []motion.Requirement, v kinematics.Verdict) [2]FlankRow {
	row := func(phrase string, f kinematics.Flank) FlankRow {
		r := FlankRow{Name: w.Phrase(phrase), Margin: w.Phrase("no_reading"), Standing: kinematics.Asked}
		if f.Known {
			r.Margin, r.Motion = w.Margin(f.Margin), w.Requirement(required[f.Motion])
			r.Standing = v.Outcomes[f.Motion].Standing
		}
		return r
	}
	return [2]FlankRow{row("posterior_flank", v.Posterior), row("anterior_flank", v.Anterior)}
}

// Margin returns a margin as it is read: with a true minus sign where the neck
// is in the rim.
func (w *Words) Margin(a unit.Angle) string {
	return minus(w.Degrees(a))
}

// shaftAngle says a joint angle with its movement: "98.3° flexion".
func (w *Words) shaftAngle(a hip.JointAngle, v unit.Angle) string {
	m, v := Signed(a, v)
	return w.Phrase("given", "angle", w.Degrees(v), "movement", w.Movement(m))
}
