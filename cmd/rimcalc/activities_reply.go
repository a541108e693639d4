package main

import (
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
)

func (a *library) text(p *printer, w *present.Words) {
	if a.judged {
		p.label(&a.subject)
		for _, i := range a.designs {
			p.line(present.Letter(i) + "  " + w.DesignName(&a.c, i))
		}
	}
	for c := range motion.CategoryCount {
		if lines := a.category(p, w, c); len(lines) > 1 {
			p.gap(w.Category(c))
			p.columns(lines)
		}
	}
	for _, set := range a.motions.Library.Criteria {
		r := w.CriteriaRow(set)
		p.gap(w.Phrase("calc_set", "key", r.Key, "name", r.Name, "basis", r.Basis) + "  " + p.note(w.Phrase("calc_basis", "source", r.Source, "basis", r.Zero)))
		p.columns(a.criteria(w, set.Key))
	}
	p.gap("")
	p.foot()
	warnings := a.warnings(w)
	if !a.judged {
		warnings = nil
	}
	p.end(w, warnings)
}

// category are the activities of a category as lines of a table.
func (a *library) category(p *printer, w *present.Words, c motion.Category) [][]string {
	lines := [][]string{append(append([]string{"  " + w.Phrase("calc_key"), w.Phrase("calc_motion")}, a.letters()...),
		w.Phrase("calc_angles"), w.Phrase("calc_rests"), "", w.Phrase("calc_risk"), w.Phrase("calc_together"))}
	for i := range a.entries {
		e := &a.entries[i]
		if e.isCriterion() || e.activity.Category != c {
			continue
		}
		r := w.ActivityRow(e.activity)
		line := append(append([]string{"  " + r.Key, r.Name}, a.standings(w, e)...),
			r.Angles, r.Basis, p.note(w.Phrase("calc_basis", "source", r.Source, "basis", r.Zero)), r.Risk, r.Together)
		lines = append(lines, line)
	}
	return lines
}

// criteria are the criteria of a set as lines of a table.
func (a *library) criteria(w *present.Words, set string) [][]string {
	lines := [][]string{append([]string{"  " + w.Phrase("calc_key"), w.Phrase("calc_motion")}, a.letters()...)}
	for i := range a.entries {
		if e := &a.entries[i]; e.set.Key == set {
			lines = append(lines, append([]string{"  " + e.requirement.Key, w.Requirement(e.requirement)}, a.standings(w, e)...))
		}
	}
	return lines
}

func (a *library) letters() []string {
	var list []string
	for _, i := range a.designs {
		if a.judged {
			list = append(list, present.Letter(i))
		}
	}
	return list
}

// standings say how each design stands to an entry.
func (a *library) standings(w *present.Words, e *entry) []string {
	var list []string
	for _, o := range e.outcomes {
		row := w.OutcomeRows([]motion.Requirement{e.requirement}, kinematics.Verdict{Outcomes: []kinematics.Outcome{o}, First: -1})[0]
		text := row.State + " " + row.Margin
		if o.Standing == kinematics.Asked && o.Limit.Status == kinematics.Free {
			text = row.Detail
		}
		list = append(list, text)
	}
	return list
}

// libraryRecord is the JSON form.
type libraryRecord struct {
	head
	Entries []entryRecord `json:"entries"`
}

type entryRecord struct {
	Kind      string          `json:"kind"` // activity, criterion
	Key       string          `json:"key"`
	Name      string          `json:"name"`
	Set       string          `json:"set,omitempty"` // of a criterion
	SetName   string          `json:"set_name,omitempty"`
	Category  string          `json:"category,omitempty"`
	Together  string          `json:"simultaneous,omitempty"`
	Risk      string          `json:"risk"`
	ZeroFrom  string          `json:"zero_from"`
	ZeroPlane string          `json:"zero_plane,omitempty"`
	ZeroBasis string          `json:"zero_basis"`
	Least     [3]*float64     `json:"least_deg"` // flexion, adduction, internal rotation
	Most      [3]*float64     `json:"most_deg"`
	Open      bool            `json:"open"` // only asked how far it goes
	Basis     string          `json:"basis"`
	Doubtful  bool            `json:"doubtful"` // from memory or assumed
	Source    string          `json:"source"`
	Verdicts  []verdictRecord `json:"verdicts,omitempty"`
}

type verdictRecord struct {
	Design string `json:"design"`
	Name   string `json:"design_name"`
	motionRecord
}

func (a *library) record(w *present.Words) (any, error) {
	h, err := a.head("activities", w)
	if !a.judged {
		h.Case, h.Warnings = nil, nil
	}
	r := libraryRecord{head: h}
	for i := range a.entries {
		r.Entries = append(r.Entries, a.entryRecord(w, &a.entries[i]))
	}
	return r, err
}

func (a *library) entryRecord(w *present.Words, e *entry) entryRecord {
	m := e.requirement
	r := entryRecord{Kind: "activity", Key: m.Key, Name: w.Requirement(m), Risk: m.Risk.Key(), Open: m.Open,
		Basis: m.Basis.Key(), Doubtful: m.Basis.Doubtful(), Source: m.Source}
	zero := e.activity.Zero
	if e.isCriterion() {
		r.Kind, r.Set, r.SetName, zero = "criterion", e.set.Key, w.CriteriaSet(e.set), e.set.Zero
		r.limits(m.Paths[0])
	} else {
		r.Category, r.Together = e.activity.Category.Key(), e.activity.Together.Key()
		least, most := e.activity.Range()
		for k := range least {
			r.Least[k], r.Most[k] = degrees(least[k]), degrees(most[k])
		}
	}
	r.ZeroFrom, r.ZeroBasis = zero.Reference.Key(), zero.Basis.Key()
	if zero.Reference == motion.PostureReference || zero.Reference == motion.RoomReference {
		r.ZeroPlane = motion.PlaneKeys[zero.Plane]
	}
	for k, o := range e.outcomes {
		one := subject{required: requirements{m}}
		r.Verdicts = append(r.Verdicts, verdictRecord{present.Letter(a.designs[k]), a.c.Designs[a.designs[k]].Name,
			one.motionRecords(w, kinematics.Verdict{Outcomes: []kinematics.Outcome{o}, First: -1})[0]})
	}
	return r
}

// limits are the angles between which a criterion's path runs.
func (r *entryRecord) limits(p motion.Path) {
	end := p.At(p.End())
	for k, v := range [3]*float64{degrees(end.Flexion), degrees(end.Adduction), degrees(end.InternalRotation)} {
		r.Least[k], r.Most[k] = v, v
	}
}

func (a *library) sheet() sheet {
	t := sheet{columns: []string{"kind", "key", "name", "set", "set_name", "category", "simultaneous", "risk",
		"zero_from", "zero_plane", "zero_basis", "flexion_least_deg", "flexion_most_deg", "adduction_least_deg", "adduction_most_deg",
		"internal_rotation_least_deg", "internal_rotation_most_deg", "open", "basis", "doubtful", "source",
		"design", "design_name", "standing", "margin_deg", "missing_deg", "contact_clock_deg", "detail"}}
	w := present.English()
	for i := range a.entries {
		r := a.entryRecord(w, &a.entries[i])
		row := []any{r.Kind, r.Key, r.Name, r.Set, r.SetName, r.Category, r.Together, r.Risk, r.ZeroFrom, r.ZeroPlane, r.ZeroBasis,
			r.Least[0], r.Most[0], r.Least[1], r.Most[1], r.Least[2], r.Most[2], r.Open, r.Basis, r.Doubtful, r.Source}
		if len(r.Verdicts) == 0 {
			t.add(append(row, "", "", "", "", "", "", "")...)
		}
		for _, v := range r.Verdicts {
			t.add(append(row[:len(row):len(row)], v.Design, v.Name, v.Standing, v.Margin, v.Missing, v.Clock, v.Detail)...)
		}
	}
	return t
}
