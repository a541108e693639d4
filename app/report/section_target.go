package report

import (
	"strings"

	"rimclear/app/chart"
	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/kinematics"
)

// targetSection shows where each cup may point for the motions required; of
// more than two designs the one looked at, with the share beside it.
func targetSection(f *Facts, st *sheet) []block {
	if !f.asked() {
		return nil
	}
	if !f.narrow() {
		maps := func(st *sheet) []block {
			return append(f.mapBlocks(st, f.Active, 215), st.note(f.Words.Phrase("report_other_maps")))
		}
		shares := func(st *sheet) []block { return shareBlocks(f, st) }
		return []block{st.pair(0.5, 11, maps, shares)}
	}
	if len(f.Designs) == 1 {
		maps := func(st *sheet) []block { return f.mapBlocks(st, 0, 260) }
		texts := func(st *sheet) []block { return f.targetText(st) }
		return []block{st.pair(0.6, 11, maps, texts)}
	}
	return []block{st.pair(0.5, 11,
		func(st *sheet) []block { return f.mapBlocks(st, 0, 225) },
		func(st *sheet) []block { return f.mapBlocks(st, 1, 225) })}
}

// mapBlocks is the map of a design with what it says in words.
func (f *Facts) mapBlocks(st *sheet, i int, height float64) []block {
	w := f.Words
	fig := chart.TargetMap(f.target(i), st.look(figure.Pt(st.width, height), 7.2, f))
	head := st.heading(w.Phrase("report_map_of", "design", present.Letter(i)))
	list := []block{head, chartBlock(fig, 0)}
	if len(f.Designs) > 1 {
		for _, l := range f.demand(i) {
			list = append(list, textBlock(w.Phrase("report_line", "name", l.Name, "value", l.Value), st.ink(noteSize), st.width, 1))
		}
	}
	return append(list, st.note(w.Phrase("report_zone_note")))
}

// demand says what the motions ask of a bearing, and where its cup would leave
// the most margin.
func (f *Facts) demand(i int) []present.Line {
	w, t := f.Words, f.Designs[i].Target
	if lines := w.Demand(t); len(lines) > 0 {
		return lines
	}
	if !t.Asked || !t.Fits || !t.Reachable {
		return nil
	}
	return []present.Line{{Key: "best", Name: w.Phrase("best_cup"), Value: w.Phrase("report_best",
		"cup", w.Cup(t.Constrained.Cup), "margin", w.Margin(t.Constrained.Margin))}}
}

// targetText says beside the map of a single design what is on it.
func (f *Facts) targetText(st *sheet) []block {
	width := st.width
	list := []block{st.heading(f.Words.Phrase("report_margins"))}
	for _, l := range f.demand(0) {
		list = append(list, textBlock(l.Name, st.soft(tableSize), width, 6), textBlock(l.Value, st.ink(textSize), width, 0))
	}
	for _, row := range f.Words.Flanks(f.Required, f.Designs[0].Verdict) {
		value := row.Margin
		if row.Motion != "" {
			value = f.Words.Phrase("list", "first", row.Margin, "rest", row.Motion)
		}
		list = append(list, textBlock(row.Name, st.soft(tableSize), width, 6), textBlock(value, st.ink(textSize), width, 0))
	}
	return list
}

// placements is what the chart of placements shows.
func (f *Facts) placements() chart.Placements {
	p := chart.Placements{Designs: f.Case.Active(), Motions: f.motions()}
	for _, d := range f.Designs {
		p.Shares = append(p.Shares, d.Share)
	}
	return p
}

// shareBlocks show the share of simulated placements that meet every criterion.
func shareBlocks(f *Facts, st *sheet) []block {
	if !f.asked() {
		return nil
	}
	w := f.Words
	const letters, pitch, around = 7.2, 5.4, 62
	height := around + pitch*letters*float64(len(f.Designs))
	fig := chart.PlacementShare(f.placements(), st.look(figure.Pt(st.width, height), letters, f))
	return []block{
		st.heading(w.Phrase("report_share")), chartBlock(fig, 0), st.note(f.scatterLine()), st.note(w.Phrase("report_share_note")),
	}
}

// scatterLine says how placements were let vary, and how many were tried.
func (f *Facts) scatterLine() string {
	w, g := f.Words, f.Case.Goal
	counts := ""
	for i, d := range f.Designs {
		part := w.Phrase("report_count", "design", present.Letter(i), "count", present.Digits(float64(d.Share.Placements), 0))
		if counts != "" {
			part = w.Phrase("list", "first", counts, "rest", part)
		}
		counts = part
	}
	return w.Phrase("report_scatter", "inclination", w.Degrees(g.SD[kinematics.CupInclination]),
		"anteversion", w.Degrees(g.SD[kinematics.CupAnteversion]), "stem", w.Degrees(g.SD[kinematics.StemAnteversion]),
		"tilt", w.Degrees(g.SD[kinematics.PelvicTilt]), "counts", counts)
}

// holdSection says how each cup holds its head, and where there is room beside
// it how often placements serve.
func holdSection(f *Facts, st *sheet) []block {
	if !f.narrow() || !f.asked() {
		return stabilityBlocks(f, st)
	}
	hold := func(st *sheet) []block { return stabilityBlocks(f, st) }
	shares := func(st *sheet) []block { return shareBlocks(f, st) }
	return []block{st.pair(0.58, 11, hold, shares)}
}

// stabilityBlocks say how each cup holds its head, and what happens past the
// first contact.
func stabilityBlocks(f *Facts, st *sheet) []block {
	w := f.Words
	g := f.grid(st, w.Phrase("report_column_hold"))
	lists := make([][]present.Line, len(f.Designs))
	for i, d := range f.Designs {
		lists[i] = d.held
	}
	g.first = [5]float64{1, 0.6, 0.46, 0.34, 0.3}[len(f.Designs)] * st.width
	g.lines(lists, none)
	list := append([]block{st.heading(w.Phrase("report_stability"))}, g.blocks(0)...)
	for i := range f.Designs {
		if text := f.forced(i); text != "" {
			list = append(list, textBlock(text, st.ink(noteSize), st.width, 3))
		}
	}
	return append(list, st.note(w.Phrase("report_stability_note", "standard", f.standard())))
}

// holdLines are those of the table: the cup in space, jump distances, for a
// resurfacing the contact patch, and total arcs.
func (q Question) holdLines(d *DesignFacts) []present.Line {
	w := q.Words
	list := w.StabilityLines(d.Joint, d.Design)
	for i, l := range list {
		for _, load := range kinematics.Loads {
			if l.Key == "patch_"+load.Key {
				p := d.Joint.Stability(d.Design, load, kinematics.CobaltChrome).Patch
				list[i].Value = w.Phrase("report_patch", "centre", w.Digits(p.Centre, 1), "edge", w.Millimetres(p.Edge))
			}
		}
		for _, t := range d.Totals {
			if l.Key == t.Key {
				list[i].Name, list[i].Value = w.Phrase("report_arc", "name", l.Name), w.Degrees(t.Arc)
				if t.Open {
					list[i].Value = w.Phrase("report_more", "value", list[i].Value)
				}
			}
		}
	}
	return list
}

// standard says what a standard asks of the total arcs.
func (f *Facts) standard() string {
	w, d, text := f.Words, &f.Designs[0], ""
	source := ""
	for _, l := range d.held {
		for _, t := range d.Totals {
			if l.Key != t.Key {
				continue
			}
			part := w.Phrase("report_named", "name", l.Name, "value", w.Degrees(t.Least))
			if text != "" {
				part = w.Phrase("list", "first", text, "rest", part)
			}
			text, source = part, w.Source(t.Source)
		}
	}
	return w.Phrase("report_standard", "least", text, "source", source)
}

// forced says what happens if the motion that fails first is forced past its
// contact, "" where none fails.
func (f *Facts) forced(i int) string {
	w, d := f.Words, &f.Designs[i]
	if d.Verdict.First < 0 {
		return ""
	}
	var parts []string
	for _, l := range w.LeverLines(d.Joint, f.Case.Hip, d.Verdict.Outcomes[d.Verdict.First]) {
		parts = append(parts, w.Phrase("report_line", "name", l.Name, "value", l.Value))
	}
	if len(parts) == 0 {
		return ""
	}
	return w.Phrase("report_forced", "design", present.Letter(i), "motion", w.Requirement(f.Required[d.Verdict.First]),
		"levers", strings.Join(parts, "; "))
}
