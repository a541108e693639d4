package main

import (
	"rimclear/app/present"
	"rimclear/kinematics"
)

func (a *targets) text(p *printer, w *present.Words) {
	p.label(&a.subject)
	for _, d := range a.designs {
		p.title(w, &a.subject, d.index)
		f := a.serve(d)
		p.line("   " + w.Serves(f))
		if text := w.Aim(f); text != "" {
			p.line("   " + text)
		}
		if len(a.required) > 0 {
			p.gap("")
			p.columns(verdictLines(p, w, &a.subject, d.verdict))
			p.foot()
		}
		if d.target.Asked {
			a.answerText(p, w, d)
		}
		if a.mapped && d.target.Asked {
			mapText(p, w, &d.field)
		}
	}
	p.end(w, a.warnings(w))
}

// answerText writes what was found of one design's cup.
func (a *targets) answerText(p *printer, w *present.Words, d aimed) {
	p.gap("")
	var lines []present.Line
	for _, f := range w.Flanks(a.required, d.verdict) {
		value := f.Margin
		if f.Motion != "" {
			value += "  " + f.Motion
		}
		lines = append(lines, present.Line{Name: f.Name, Value: value})
	}
	if demand := w.Demand(d.target); len(demand) > 0 {
		lines = append(lines, demand[:2]...) // the best cup follows
	}
	lines = append(lines, w.AimLines(d.target)...)
	p.lines(append(lines, w.SizeLines(d.sizes.head, d.sizes.neck, d.sizes.headHere, d.sizes.neckHere)...))
	p.gap(w.Phrase("calc_binding"))
	p.columns(bindingLines(w, a.required, d.target))
	p.gap(w.Phrase("target_zones_published"))
	var zones [][]string
	for _, z := range w.ZoneRows(a.c.Hip, a.c.Designs[d.index]) {
		zones = append(zones, []string{"  " + z.Name, z.State, z.Note})
	}
	p.columns(zones)
}

// verdictLines are the motions with their standings, as lines of a table.
func verdictLines(p *printer, w *present.Words, s *subject, v kinematics.Verdict) [][]string {
	lines := [][]string{{"  " + w.Phrase("calc_motion"), w.Phrase("column_status"), w.Phrase("calc_margin"), "", w.Phrase("column_note")}}
	for i, r := range w.OutcomeRows(s.required, v) {
		lines = append(lines, []string{"  " + r.Name, r.State, r.Margin, p.note(w.RequirementNote(s.required[i])), r.Detail})
	}
	return lines
}

func bindingLines(w *present.Words, required requirements, t kinematics.Target) [][]string {
	best := t.Best
	if t.Fits && t.Reachable {
		best = t.Constrained
	}
	var lines [][]string
	for _, b := range w.BindingRows(required, best) {
		lines = append(lines, []string{"  " + b.Name, b.Posture})
	}
	return lines
}

func (a *targets) sheet() sheet {
	if a.mapped {
		return a.mapSheet()
	}
	t := sheet{columns: []string{"design", "name", "serves", "motions_asked", "met", "close", "short",
		"least_margin_deg", "least_margin_motion", "posterior_margin_deg", "anterior_margin_deg",
		"demanded_oscillation_deg", "demanded_gap_deg", "offered_oscillation_deg", "fits_a_hemisphere",
		"best_inclination_deg", "best_anteversion_deg", "best_margin_deg",
		"constrained_inclination_deg", "constrained_anteversion_deg", "constrained_margin_deg", "bounds_cost_deg",
		"smallest_head_here_mm", "smallest_head_best_mm", "widest_neck_here_mm", "widest_neck_best_mm", "verdict"}}
	w := present.English()
	for _, d := range a.designs {
		r := a.designRecord(w, d)
		t.add(r.Design, r.Name, r.Serves, r.Asked, r.Met, r.Close, r.Short, r.Least, r.LeastMotion, r.Posterior, r.Anterior,
			r.Demanded, r.Gap, r.Offered, r.Fits, r.Best.inclination(), r.Best.anteversion(), r.Best.margin(),
			r.Constrained.inclination(), r.Constrained.anteversion(), r.Constrained.margin(), r.Cost,
			r.HeadHere.Size, r.HeadBest.Size, r.NeckHere.Size, r.NeckBest.Size, r.Sentence)
	}
	return t
}

// mapSheet is the map in long form.
func (a *targets) mapSheet() sheet {
	t := sheet{columns: []string{"design", "name", "x_key", "x", "y_key", "y", "margin_deg", "motion"}}
	for n := range a.designs {
		d := &a.designs[n]
		g := d.field.Grid
		for k := range g.Up.Count {
			for i := range g.Across.Count {
				margin, motion := a.mapCell(&d.field, i, k)
				t.add(present.Letter(d.index), a.c.Designs[d.index].Name, g.Across.Key, g.Across.At(i), g.Up.Key, g.Up.At(k), margin, motion)
			}
		}
	}
	return t
}
