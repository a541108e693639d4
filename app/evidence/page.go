package evidence

import (
	"fmt"
	"strconv"
	"strings"

	"rimclear/app/present"
	"rimclear/kinematics/motion"
)

// Markdown returns the evidence as a page. Computed values have two digits more
// than those published, so that the page is the same on every machine.
func (r Report) Markdown(w *present.Words) string {
	p := &page{words: w}
	p.line("# " + w.Phrase("evidence_title"))
	p.text(w.Phrase("evidence_origin"), w.Caution(), r.Summary(w), w.Phrase("evidence_symbols"))
	p.heading(w.Phrase("evidence_relations"))
	p.table(r.relationTable(w))
	p.heading(w.Phrase("evidence_golden"))
	p.text(w.Phrase("evidence_golden_about"))
	p.table(r.goldenTable(w))
	p.heading(w.Phrase("evidence_doubts"))
	p.text(w.Phrase("evidence_doubts_about"))
	p.table(r.doubtTable(w))
	p.heading(w.Phrase("evidence_values"))
	for _, x := range r.Relations {
		p.line("")
		p.line("### " + w.Phrase(x.Key))
		p.text(w.Phrase(x.Key+"_source") + " " + w.Phrase("evidence_status_"+x.Status.Key()) + ".")
		p.table(x.valueTable(w))
	}
	return p.String()
}

// Summary says how many values hold.
func (r Report) Summary(w *present.Words) string {
	values, rows := 0, 0
	for _, x := range r.Relations {
		values += len(x.Values)
	}
	for _, c := range r.Golden {
		rows += c.Rows
	}
	return w.Phrase("evidence_summary", "relations", strconv.Itoa(len(r.Relations)), "values", strconv.Itoa(values),
		"rows", strconv.Itoa(rows), "failed", strconv.Itoa(r.Failed()))
}

func (r Report) relationTable(w *present.Words) [][]string {
	rows := [][]string{columns(w, "relation", "source", "status", "count", "worst", "tolerance", "verdict")}
	for _, x := range r.Relations {
		tolerance := 0.0
		for _, v := range x.Values {
			tolerance = max(tolerance, v.Tolerance)
		}
		rows = append(rows, []string{
			w.Phrase(x.Key), w.Phrase(x.Key + "_source"), w.Phrase("evidence_status_" + x.Status.Key()), strconv.Itoa(len(x.Values)),
			present.Digits(x.Worst(), x.Decimals+2), number(tolerance), verdict(w, x.Failed() == 0),
		})
	}
	return rows
}

func (r Report) goldenTable(w *present.Words) [][]string {
	rows := [][]string{columns(w, "set", "category", "rows", "worst", "verdict")}
	for _, c := range r.Golden {
		rows = append(rows, []string{
			w.Phrase("evidence_set_" + c.Set), c.Name, strconv.Itoa(c.Rows), present.Digits(c.Worst, goldenDecimals), verdict(w, c.Failed == 0),
		})
	}
	return rows
}

// goldenDecimals are one more than the first golden set is written to.
const goldenDecimals = 6

func (r Report) doubtTable(w *present.Words) [][]string {
	rows := [][]string{columns(w, "kind", "key", "basis", "zero", "source")}
	for _, d := range r.Doubts {
		rows = append(rows, []string{
			w.Phrase("evidence_kind_" + d.Kind.Key()), d.Key, doubtful(w, d.Basis), doubtful(w, d.Zero), d.From(w),
		})
	}
	return rows
}

// From returns the source of a doubt in words, "" where it has none.
func (d Doubt) From(w *present.Words) string {
	if d.SourceKey != "" {
		return w.Source(d.SourceKey)
	}
	return d.Source
}

// doubtful names a basis that is in doubt and no other.
func doubtful(w *present.Words, b motion.Basis) string {
	if !b.Doubtful() {
		return ""
	}
	return w.Basis(b)
}

func (r Relation) valueTable(w *present.Words) [][]string {
	rows := [][]string{columns(w, "of", "published", "computed", "difference", "tolerance", "verdict")}
	for _, v := range r.Values {
		rows = append(rows, append([]string{v.What}, v.cells(w, r.Decimals)...))
	}
	return rows
}

// cells are published, computed, difference, tolerance and verdict.
func (v Value) cells(w *present.Words, decimals int) []string {
	if v.Told != "" {
		return []string{v.Told, v.ComputedAsText, "", "", verdict(w, v.Holds())}
	}
	sign := [...]string{Equal: "", AtLeast: "≥ ", AtMost: "≤ "}[v.Bound]
	return []string{
		sign + present.Shortest(v.Published, decimals), present.Digits(v.Computed, decimals+2),
		present.Digits(v.Difference(), decimals+2), number(v.Tolerance), verdict(w, v.Holds()),
	}
}

func number(x float64) string { return strconv.FormatFloat(x, 'g', 3, 64) }

func verdict(w *present.Words, holds bool) string {
	if holds {
		return w.Phrase("evidence_holds")
	}
	return w.Phrase("evidence_fails")
}

func columns(w *present.Words, keys ...string) []string {
	titles := make([]string, len(keys))
	for i, key := range keys {
		titles[i] = w.Phrase("evidence_column_" + key)
	}
	return titles
}

// page is a text in Markdown.
type page struct {
	strings.Builder
	words *present.Words
}

func (p *page) line(s string) { fmt.Fprintln(p, s) }

func (p *page) heading(s string) {
	p.line("")
	p.line("## " + s)
}

// text writes paragraphs.
func (p *page) text(paragraphs ...string) {
	for _, s := range paragraphs {
		p.line("")
		p.line(s)
	}
}

// table writes rows, the first of which holds the titles.
func (p *page) table(rows [][]string) {
	p.line("")
	for i, row := range rows {
		for k, cell := range row {
			row[k] = strings.ReplaceAll(cell, "|", "\\|")
		}
		p.line("| " + strings.Join(row, " | ") + " |")
		if i == 0 {
			p.line(strings.Repeat("|---", len(row)) + "|")
		}
	}
}
