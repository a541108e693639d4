package main

import (
	"strings"

	"rimclear/app/present"
)

func (a *comparison) text(p *printer, w *present.Words) {
	p.label(&a.subject)
	for k, i := range a.designs {
		p.gap(present.Letter(i) + "  " + w.DesignName(&a.c, i))
		p.line("   " + a.serves(w, k))
		if text := a.differs(w, k); text != "" {
			p.line("   " + text)
		}
	}
	for _, part := range a.parts {
		p.gap(part.Title)
		p.columns(a.lines(p, w, part))
	}
	p.gap("")
	p.foot()
	p.gap(w.Phrase("calc_compare_note", "base", present.Letter(a.designs[a.base])))
	if a.shared() {
		p.line(w.Phrase("target_never_success") + ". " + w.Phrase("target_never_success_why"))
	}
	p.end(w, a.warnings(w))
}

// serves says how many motions the k-th design compared serves.
func (a *comparison) serves(w *present.Words, k int) string {
	return w.Serves(present.Serve{Required: a.required, Lost: len(a.lost), Verdict: a.compare[k].Verdict})
}

// differs says what the k-th design compared gains and costs against the base,
// "" for the base itself.
func (a *comparison) differs(w *present.Words, k int) string {
	if k == a.base {
		return ""
	}
	var list []present.Rival
	for i, d := range a.compare {
		list = append(list, d.Rival(present.Letter(a.designs[i])))
	}
	return w.Differs(list, a.base, k)
}

func (a *comparison) shared() bool { return len(a.compare) > 0 && a.compare[0].Share != nil }

// lines are a part as lines of a table, differences in brackets.
func (a *comparison) lines(p *printer, w *present.Words, part present.ComparisonPart) [][]string {
	head := []string{""}
	for _, i := range a.designs {
		head = append(head, present.Letter(i))
	}
	lines := [][]string{head}
	for _, r := range part.Rows {
		line := []string{"  " + r.Name}
		for k, v := range r.Values {
			text := v.Text
			if value, difference, _ := w.Difference(r, k, a.base); value != 0 && strings.ContainsAny(difference, "+−") {
				text += " (" + difference + ")"
			}
			line = append(line, text)
		}
		lines = append(lines, append(line, p.note(r.Note)))
	}
	return lines
}

// comparisonRecord is the JSON form.
type comparisonRecord struct {
	head
	Base    string           `json:"base"`
	Seed    uint64           `json:"seed"`
	Designs []rivalRecord    `json:"designs"`
	Rows    []quantityRecord `json:"rows"`
	Note    string           `json:"note"`
}

type rivalRecord struct {
	Design  string `json:"design"`
	Name    string `json:"name"`
	Verdict string `json:"verdict"`
	Differs string `json:"differs"` // from the base, in words
}

type quantityRecord struct {
	Part   string       `json:"part"`
	Key    string       `json:"quantity"` // with its unit
	Name   string       `json:"name"`
	Note   string       `json:"note,omitempty"`
	Values []sideRecord `json:"values"`
}

type sideRecord struct {
	Design     string   `json:"design"`
	Value      *float64 `json:"value"`
	Text       string   `json:"text"`
	State      string   `json:"state,omitempty"`
	Difference *float64 `json:"difference"` // null where it says nothing
}

func (a *comparison) record(w *present.Words) (any, error) {
	h, err := a.head("compare", w)
	r := comparisonRecord{head: h, Base: present.Letter(a.designs[a.base]), Seed: a.seed, Rows: a.rows(w),
		Note: w.Phrase("calc_compare_note", "base", present.Letter(a.designs[a.base]))}
	for k, i := range a.designs {
		r.Designs = append(r.Designs, rivalRecord{present.Letter(i), a.c.Designs[i].Name, a.serves(w, k), a.differs(w, k)})
	}
	return r, err
}

func (a *comparison) rows(w *present.Words) []quantityRecord {
	var list []quantityRecord
	for _, part := range a.parts {
		for _, row := range part.Rows {
			q := quantityRecord{Part: part.Key, Key: row.Key, Name: row.Name, Note: row.Note}
			for k, v := range row.Values {
				one := sideRecord{Design: present.Letter(a.designs[k]), Text: v.Text, State: v.State}
				if v.Known {
					one.Value = rounded(v.Value)
				}
				if d, _, ok := w.Difference(row, k, a.base); ok {
					one.Difference = rounded(d)
				}
				q.Values = append(q.Values, one)
			}
			list = append(list, q)
		}
	}
	return list
}

func (a *comparison) sheet() sheet {
	t := sheet{columns: []string{"part", "quantity", "name", "design", "design_name", "value", "text", "state", "base", "difference", "note"}}
	for _, q := range a.rows(present.English()) {
		for k, v := range q.Values {
			t.add(q.Part, q.Key, q.Name, v.Design, a.c.Designs[a.designs[k]].Name, v.Value, v.Text, v.State,
				present.Letter(a.designs[a.base]), v.Difference, q.Note)
		}
	}
	return t
}
