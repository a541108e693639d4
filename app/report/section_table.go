package report

import (
	"slices"
	"strings"

	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// none stands in a cell that has nothing to say.
const none = "–"

// valueSection has what goes in and what comes out: the designs and their
// limits, side by side where both are narrow.
func valueSection(f *Facts, st *sheet) []block {
	designs := func(st *sheet) []block { return designSection(f, st) }
	limits := func(st *sheet) []block { return limitSection(f, st) }
	w := f.Words
	read := []block{
		st.note(w.Phrase("report_definitions", "plane", f.planeName(f.Case.Hip.CupPlane))), st.note(f.hipLine()),
		st.note(w.Phrase("report_beyond", "sources", strings.Join(f.nativeSources(), "; "))),
	}
	if !f.narrow() {
		return slices.Concat(designs(st), limits(st), append(read, st.note(w.Phrase("report_between"))))
	}
	return append([]block{st.pair(0.5, 11, designs, limits)}, read...)
}

// narrow reports whether tables of all designs take half a page's width.
func (f *Facts) narrow() bool { return len(f.Designs) <= 2 }

// designSection sets the designs and their placement side by side. What is the
// same in all stands in a line below.
func designSection(f *Facts, st *sheet) []block {
	w := f.Words
	g := f.grid(st, w.Phrase("report_column_value"))
	var same []string
	for k := range kinematics.Parameters {
		p := &kinematics.Parameters[k]
		if p.Scope != kinematics.OfDesign || p.Derived || p.Group == kinematics.CupGroup || !f.given(p) {
			continue
		}
		if f.differs(p) {
			g.add(f.valueRow(p)...)
			continue
		}
		same = append(same, w.Phrase("report_named", "name", w.Name(p.Key), "value", w.Value(p, p.Get(&f.Case, 0))))
	}
	var lists [][]present.Line
	for _, d := range f.Designs {
		lists = append(lists, w.Summary(d.Design, d.Joint.Aperture))
	}
	g.lines(lists, none)
	f.cupRows(g)
	list := append([]block{st.heading(w.Phrase("report_designs_short"))}, g.blocks(0)...)
	if len(same) > 0 {
		list = append(list, textBlock(w.Phrase("report_same", "values", strings.Join(same, ", ")), st.ink(tableSize), st.width, 3))
	}
	return list
}

// given reports whether a parameter is to be shown: some design has the
// feature.
func (f *Facts) given(p *kinematics.Parameter) bool {
	for _, d := range f.Designs {
		v := p.Get(&f.Case, d.Index)
		if p.Kind == kinematics.Choice || v != 0 || !p.Optional && len(f.Designs) > 0 && p.Default != 0 {
			return true
		}
	}
	return false
}

// differs reports whether a parameter is to have a row: it is not the same in
// all designs, or there is only one.
func (f *Facts) differs(p *kinematics.Parameter) bool {
	for _, d := range f.Designs[1:] {
		if p.Get(&f.Case, d.Index) != p.Get(&f.Case, 0) {
			return true
		}
	}
	return len(f.Designs) == 1
}

// valueRow has one parameter of all designs.
func (f *Facts) valueRow(p *kinematics.Parameter) []entry {
	row := []entry{{text: f.Words.Name(p.Key)}}
	for _, d := range f.Designs {
		v := p.Get(&f.Case, d.Index)
		c := entry{text: f.Words.Value(p, v)}
		if v == 0 && (p.Optional || p.Default == 0 && p.Kind == kinematics.Number && p.Group < kinematics.CupGroup) {
			c = entry{text: none, tone: softTone}
		}
		row = append(row, c)
	}
	return row
}

// cupRows has each cup in the three definitions of Murray, in the plane in
// which it is stated; the one in which it was stated is bold.
func (f *Facts) cupRows(g *grid) {
	definition := kinematics.ParameterByKey("cup_definition")
	for k, key := range definition.Choices {
		row := []entry{{text: f.Words.Phrase("report_cup", "definition", f.Words.Choice(definition.Key, key))}}
		for _, d := range f.Designs {
			c := f.Case.Hip.Restated(d.Design.Cup, hip.Definition(k), f.Case.Hip.CupPlane)
			row = append(row, entry{
				text: f.Words.Phrase("cup_short", "inclination", f.Words.Degrees(c.Inclination), "anteversion", f.Words.Margin(c.Anteversion)),
				bold: hip.Definition(k) == d.Design.Cup.Definition,
			})
		}
		g.add(row...)
	}
}

// hipLine says what the designs share: the pelvis, and where joint angles have
// their zero.
func (f *Facts) hipLine() string {
	w, parts := f.Words, []string{}
	for _, key := range []string{"tilt_supine_deg", "tilt_standing_deg", "tilt_relaxed_sitting_deg", "tilt_flexed_sitting_deg"} {
		p := kinematics.ParameterByKey(key)
		parts = append(parts, w.Phrase("report_named", "name", w.Name(key), "value", w.Value(p, p.Get(&f.Case, 0))))
	}
	plane := kinematics.ParameterByKey("posture_plane")
	return w.Phrase("report_hip", "tilts", strings.Join(parts, ", "), "plane", w.Choice(plane.Key, plane.Choices[f.Case.Hip.PosturePlane]))
}

// between are flexions at which rotation is left out where the page is full of
// designs; the tables as data have all.
var between = map[unit.Angle]bool{-10 * unit.Degree: true, 30 * unit.Degree: true, 60 * unit.Degree: true, 110 * unit.Degree: true}

// limitSection is the table of limits.
func limitSection(f *Facts, st *sheet) []block {
	w := f.Words
	g := f.grid(st, w.Phrase("column_question"))
	for k, a := range f.Designs[0].Answers {
		if !f.narrow() && between[a.Question.Flexion] && a.Question.Movement >= kinematics.Internal {
			continue
		}
		row := []entry{{text: w.Question(&f.Case, f.Designs[0].Answers[k].Question)}}
		for _, d := range f.Designs {
			row = append(row, limitCell(w, &f.Case, d.Answers[k]))
		}
		g.add(row...)
	}
	list := append([]block{st.heading(w.Phrase("report_limits"))}, g.blocks(0)...)
	for _, text := range f.stops() {
		list = append(list, textBlock(text, st.ink(noteSize), st.width, 2))
	}
	return list
}

// stops says of each design at which movements on the way it stops.
func (f *Facts) stops() []string {
	var list []string
	for i, d := range f.Designs {
		for _, a := range d.Answers {
			if present.StatusKey(a) != "not_reached" {
				continue
			}
			text := f.Words.Phrase("report_line", "name", present.Letter(i), "value", f.Words.Row(&f.Case, a).Note)
			if !slices.Contains(list, text) {
				list = append(list, text)
			}
		}
	}
	return list
}

func limitCell(w *present.Words, c *kinematics.Case, a kinematics.Answer) entry {
	row := w.Row(c, a)
	switch status := present.StatusKey(a); {
	case status == "not_reached":
		return entry{text: row.Status, tone: contactTone}
	case status == "contact_at_start":
		return entry{text: w.Phrase("list", "first", row.Status, "rest", row.Clock), tone: contactTone}
	case row.Grey, status == "none":
		return entry{text: row.Reading, tone: softTone}
	}
	return entry{text: w.Phrase("list", "first", row.Reading, "rest", row.Clock)}
}

// nativeSources lists the sources of the native passive ranges, each once.
func (f *Facts) nativeSources() []string {
	var list []string
	for _, q := range kinematics.Questions {
		if s := f.Words.Source(q.Native.Source); q.Native.Known() && !slices.Contains(list, s) {
			list = append(list, s)
		}
	}
	return list
}

// mostMotions is how many motions a printed table has; the tables as data have
// all.
const mostMotions = 24

// motionSection is the verdict on the motions required.
func motionSection(f *Facts, st *sheet) []block {
	w := f.Words
	head := st.heading(w.Phrase("report_motions"))
	if len(f.Required) == 0 {
		return []block{head, st.note(w.Phrase("serves_nothing_asked"))}
	}
	g := f.grid(st, w.Phrase("report_column_motion"))
	order := f.tightestFirst()
	for _, k := range order[:min(len(order), mostMotions)] {
		g.add(f.motionRow(k)...)
	}
	list := append([]block{head}, g.blocks(0)...)
	if more := len(order) - mostMotions; more > 0 {
		list = append(list, st.note(w.Phrase("report_more_motions", "count", present.Digits(float64(more), 0))))
	}
	return append(list, st.note(w.Phrase("report_motion_note", "closeness", w.Degrees(f.Case.Goal.Closeness))))
}

// tightestFirst returns the indices of the motions: as they are required, but
// with the least margins first where there are more than are printed.
func (f *Facts) tightestFirst() []int {
	order := make([]int, len(f.Required))
	for i := range order {
		order[i] = i
	}
	if len(order) > mostMotions {
		least := func(k int) float64 {
			m := 360.0
			for _, d := range f.Designs {
				if o := d.Verdict.Outcomes[k]; o.Standing != kinematics.Asked {
					m = min(m, o.Least.Margin.Degrees())
				}
			}
			return m
		}
		slices.SortStableFunc(order, func(a, b int) int {
			switch x, y := least(a), least(b); {
			case x < y:
				return -1
			case x > y:
				return 1
			}
			return 0
		})
	}
	return order
}

// motionRow has one motion of all designs, and what its values rest on where
// they are weak.
func (f *Facts) motionRow(k int) []entry {
	w, r := f.Words, f.Required[k]
	name := w.Requirement(r)
	if r.Basis.Doubtful() {
		name = w.Phrase("report_marked", "name", name, "basis", w.Basis(r.Basis))
	}
	row := []entry{{text: name}}
	for _, d := range f.Designs {
		o := d.Verdict.Outcomes[k]
		out := w.OutcomeRows(f.Required[k:k+1], kinematics.Verdict{Outcomes: d.Verdict.Outcomes[k : k+1], First: -1})[0]
		c := entry{text: w.Phrase("report_margin", "margin", out.Margin, "state", out.State), bold: k == d.Verdict.First}
		if o.Standing == kinematics.Asked {
			c.text = out.Margin // how far it goes; there is nothing to be met
		}
		if out.Clock != "" {
			c.text = w.Phrase("list", "first", c.text, "rest", out.Clock)
		}
		c.tone = map[kinematics.Standing]tone{kinematics.Met: freeTone, kinematics.Close: closeTone, kinematics.Short: contactTone}[o.Standing]
		row = append(row, c)
	}
	return row
}
