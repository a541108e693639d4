package present

import (
	"slices"

	"rimclear/kinematics"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Compared is one design with its answers.
type Compared struct {
	Design  kinematics.Design
	Joint   kinematics.Joint
	Answers []kinematics.Answer
	Verdict kinematics.Verdict
	Share   *kinematics.Share // nil where placements were not simulated
	Doubt   []unit.Angle      // see DoubtOf
}

// Compare returns the answers of a design, its share left out.
func Compare(h kinematics.Hip, d kinematics.Design, required []motion.Requirement, g kinematics.Goal) Compared {
	j := kinematics.NewJoint(h, d)
	return Compared{Design: d, Joint: j, Answers: j.Answers(h), Verdict: j.Judge(required, g.Closeness), Doubt: DoubtOf(h, d, j.Aperture, g.SD)}
}

// Rival returns the design as what sentences on differences are made of, by
// its letter.
func (d Compared) Rival(letter string) Rival {
	r := RivalOf(letter, d.Design, d.Joint, d.Verdict, func(q kinematics.Question) kinematics.Answer {
		return d.Answers[slices.IndexFunc(d.Answers, func(a kinematics.Answer) bool { return a.Question.Key == q.Key })]
	})
	r.Doubt = d.Doubt
	if d.Share != nil {
		r.Share, r.Shared = *d.Share, true
	}
	return r
}

// ComparisonPart is a part of a comparison: the figures of the bearing, limits,
// motions, placements, or how the head is held.
type ComparisonPart struct {
	Key, Title string
	Rows       []ComparisonRow
}

// ComparisonRow is one quantity, side by side.
type ComparisonRow struct {
	Key    string // with its unit: "limit_flexion_deg"
	Name   string
	Note   string // what a published or assumed part of it rests on
	Values []ComparisonValue
	format func(*Words, float64) string // says a number
}

// ComparisonValue is a quantity of one design.
type ComparisonValue struct {
	Text  string  // as a table has it
	Value float64 // in the unit of the row's key, where Known
	Known bool    // there is a number
	// Counted is the value as far as it counts in a difference, where Counts:
	// a limit up to the native passive range, beyond which the hip itself stops.
	Counted float64
	Counts  bool
	State   string // key of a standing or of how a limit ended, "" for others
}

// Difference returns by how much the i-th design differs from a base, in
// numbers and words; ok is false where that says nothing.
func (w *Words) Difference(r ComparisonRow, i, base int) (value float64, text string, ok bool) {
	a, b := r.Values[i], r.Values[base]
	if !a.Counts || !b.Counts {
		return 0, "", false
	}
	value = a.Counted - b.Counted
	text = r.format(w, value)
	if text[0] != '-' && text != r.format(w, 0) {
		text = "+" + text
	}
	return value, minus(text), true
}

// Comparison sets designs of a case side by side.
func (w *Words) Comparison(c *kinematics.Case, required []motion.Requirement, list []Compared) []ComparisonPart {
	parts := []ComparisonPart{
		{"bearing", w.Group(kinematics.BearingGroup), w.comparedFigures(list)},
		{"limits", w.Phrase("calc_limits"), w.comparedLimits(c, list)},
	}
	if len(required) > 0 {
		parts = append(parts, ComparisonPart{"motions", w.Phrase("calc_motions"), w.comparedMotions(required, list)})
		if rows := w.comparedShares(list); len(rows) > 0 {
			parts = append(parts, ComparisonPart{"placement", w.Phrase("calc_placement"), rows})
		}
	}
	return append(parts, ComparisonPart{"stability", w.Phrase("calc_stability"), w.comparedStability(list)},
		ComparisonPart{"arcs", w.Phrase("calc_arcs"), w.comparedTotals(list)})
}

// How numbers are said.
func sayDegrees(w *Words, x float64) string     { return w.Digits(x, 1) + w.Unit(kinematics.Degrees) }
func sayMillimetres(w *Words, x float64) string { return w.Millimetres(x) }
func sayRatio(w *Words, x float64) string       { return w.Digits(x, 2) }
func sayShare(w *Words, x float64) string       { return w.Percent(x, 1) }

// compared makes a row of what each design gives.
func compared(list []Compared, key, name string, say func(*Words, float64) string, of func(Compared) ComparisonValue) ComparisonRow {
	r := ComparisonRow{Key: key, Name: name, format: say, Values: make([]ComparisonValue, len(list))}
	for i, d := range list {
		r.Values[i] = of(d)
	}
	return r
}

// number is a value that is said as its row says it.
func (w *Words) number(say func(*Words, float64) string, x float64) ComparisonValue {
	return ComparisonValue{Text: say(w, x), Value: x, Known: true, Counted: x, Counts: true}
}

func (w *Words) comparedFigures(list []Compared) []ComparisonRow {
	parameter := func(key string, say func(*Words, float64) string) ComparisonRow {
		p := kinematics.ParameterByKey(key)
		return compared(list, key, w.Name(key), say, func(d Compared) ComparisonValue {
			c := kinematics.Case{Designs: [kinematics.MaxDesigns]kinematics.Design{d.Design}, Count: 1}
			return w.number(say, p.Get(&c, 0))
		})
	}
	rows := []ComparisonRow{
		compared(list, "oscillation_deg", w.Phrase("oscillation"), sayDegrees, func(d Compared) ComparisonValue {
			theta, round := d.Joint.Aperture.Theta()
			if !round {
				return ComparisonValue{Text: w.Phrase("not_round")}
			}
			return w.number(sayDegrees, 2*theta.Degrees())
		}),
		compared(list, "head_neck_ratio", w.Phrase("ratio"), sayRatio, func(d Compared) ComparisonValue {
			return w.number(sayRatio, d.Design.HeadNeckRatio())
		}),
	}
	for _, key := range []string{"cup_inclination_deg", "cup_anteversion_deg", "stem_anteversion_deg"} {
		rows = append(rows, parameter(key, sayDegrees))
	}
	return append([]ComparisonRow{parameter("head_diameter_mm", sayMillimetres), parameter("cup_arc_deg", sayDegrees)}, rows...)
}

func (w *Words) comparedLimits(c *kinematics.Case, list []Compared) []ComparisonRow {
	var rows []ComparisonRow
	for k, q := range kinematics.Questions {
		r := compared(list, "limit_"+q.Key+"_deg", w.Question(c, q), sayDegrees, func(d Compared) ComparisonValue {
			a := d.Answers[k]
			state := StatusKey(a)
			v := ComparisonValue{Text: w.reading(a, state), State: state}
			switch state {
			case "limit":
				v.Value, v.Known = a.Reading.Degrees(), true
				v.Counted, v.Counts = v.Value, true
			case "contact_at_start", "not_reached":
				v.Text = w.word(statusSection, state) // a bare dash would read as not asked
			}
			if a.BeyondNative() {
				v.Counted, v.Counts = a.Question.Native.Range.Degrees(), true
			}
			return v
		})
		if q.Native.Known() {
			r.Note = w.Phrase("calc_native", "native", w.shortDegrees(q.Native.Range), "source", w.Source(q.Native.Source))
		}
		rows = append(rows, r)
	}
	return rows
}

func (w *Words) comparedMotions(required []motion.Requirement, list []Compared) []ComparisonRow {
	var rows []ComparisonRow
	flank := func(key, phrase string, of func(kinematics.Verdict) kinematics.Flank) {
		rows = append(rows, compared(list, key, w.Phrase(phrase), sayDegrees, func(d Compared) ComparisonValue {
			f := of(d.Verdict)
			if !f.Known {
				return ComparisonValue{Text: w.Phrase("no_reading")}
			}
			v := w.margin(f.Margin.Degrees())
			v.State = d.Verdict.Outcomes[f.Motion].Standing.Key()
			return v
		}))
	}
	flank("margin_posterior_deg", "posterior_flank", func(v kinematics.Verdict) kinematics.Flank { return v.Posterior })
	flank("margin_anterior_deg", "anterior_flank", func(v kinematics.Verdict) kinematics.Flank { return v.Anterior })
	for k, m := range required {
		key := "margin_" + RequirementKey(m) + "_deg"
		if m.Open {
			key = "reach_" + RequirementKey(m) + "_deg"
		}
		r := compared(list, key, w.Requirement(m), sayDegrees, func(d Compared) ComparisonValue { return w.comparedMotion(d.Verdict.Outcomes[k]) })
		r.Note = w.RequirementNote(m)
		rows = append(rows, r)
	}
	return rows
}

func (w *Words) comparedMotion(o kinematics.Outcome) ComparisonValue {
	v := ComparisonValue{State: o.Standing.Key()}
	if o.Standing == kinematics.Asked {
		v.Text = w.Phrase("free_throughout")
		if o.Limit.Status != kinematics.Free {
			if o.Reached { // else another angle stopped it on the way
				v = w.number(sayDegrees, o.Limit.Angle.Abs().Degrees())
			}
			v.Text, v.State = w.shaftAngle(o.Limit.Moving, o.Limit.Angle), o.Standing.Key()
		}
		return v
	}
	v = w.margin(o.Least.Margin.Degrees())
	v.State = o.Standing.Key()
	v.Text = w.Phrase("calc_standing", "margin", v.Text, "standing", w.Standing(o.Standing))
	return v
}

// margin is a margin with a true minus sign.
func (w *Words) margin(degrees float64) ComparisonValue {
	v := w.number(sayDegrees, degrees)
	v.Text = minus(v.Text)
	return v
}

func (w *Words) comparedShares(list []Compared) []ComparisonRow {
	for _, d := range list {
		if d.Share == nil {
			return nil
		}
	}
	return []ComparisonRow{compared(list, "placement_share", w.Phrase("share_meets"), sayShare, func(d Compared) ComparisonValue {
		v := w.number(sayShare, d.Share.Share)
		v.Text = w.Phrase("calc_share", "share", v.Text, "error", w.Percent(d.Share.StandardError, 1))
		return v
	})}
}

func (w *Words) comparedStability(list []Compared) []ComparisonRow {
	var rows []ComparisonRow
	for _, l := range kinematics.Loads {
		name := w.word(loadSection, l.Key)
		of := func(d Compared) kinematics.Stability {
			return d.Joint.Stability(d.Design, l, kinematics.CobaltChrome)
		}
		note := w.rests(w.Source(l.Source), w.Basis(l.Basis))
		add := func(key, phrase, unknown string, get func(kinematics.Stability) (float64, bool)) {
			r := compared(list, key+"_"+l.Key+"_mm", w.Phrase(phrase, "load", name), sayMillimetres, func(d Compared) ComparisonValue {
				if x, ok := get(of(d)); ok {
					return w.number(sayMillimetres, x)
				}
				return ComparisonValue{Text: w.Phrase(unknown)}
			})
			r.Note = note
			rows = append(rows, r)
		}
		add("jump_lateral", "jump_lateral", "no_reading", func(s kinematics.Stability) (float64, bool) { return s.LateralJump, true })
		add("jump_least", "jump_least", "no_reading", func(s kinematics.Stability) (float64, bool) { return s.LeastJump, true })
		add("patch", "patch_to_rim", "patch_elsewhere", func(s kinematics.Stability) (float64, bool) { return s.Patch.Centre, s.Patch.Known })
	}
	return rows
}

func (w *Words) comparedTotals(list []Compared) []ComparisonRow {
	totals := make([][]kinematics.Total, len(list))
	for i, d := range list {
		totals[i] = d.Joint.Totals()
	}
	var rows []ComparisonRow
	for k, t := range totals[0] {
		r := ComparisonRow{Key: t.Key + "_deg", Name: w.word(totalSection, t.Key), format: sayDegrees,
			Note: w.Phrase("calc_least", "least", w.shortDegrees(t.Least), "source", w.rests(w.Source(t.Source), w.Basis(t.Basis)))}
		for i := range list {
			t := totals[i][k]
			v := w.number(sayDegrees, t.Arc.Degrees())
			if t.Open {
				v = ComparisonValue{Text: w.Phrase("calc_more", "value", v.Text)}
			}
			r.Values = append(r.Values, v)
		}
		rows = append(rows, r)
	}
	return rows
}
