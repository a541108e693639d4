package main

import (
	"fmt"

	"rimclear/app/present"
	"rimclear/kinematics"
)

// placements are the answers of the placement command.
type placements struct {
	placementAsked
	designs []placed
}

func (a *placements) text(p *printer, w *present.Words) {
	p.label(&a.subject)
	for _, d := range a.designs {
		p.title(w, &a.subject, d.index)
		lines := w.ShareLines(a.required, d.share)
		if a.best {
			lines = append(lines[:1:1], append([]present.Line{w.MostLine(d.share, d.most)}, lines[1:]...)...)
		}
		p.lines(append(lines, present.Line{Name: w.Phrase("calc_margin_here"), Value: w.Margin(d.share.Margin)}))
		p.gap(w.Phrase("calc_failing"))
		p.columns(a.failing(p, w, d))
		p.foot()
	}
	p.gap(w.Phrase("calc_scatter", "scatter", a.scatterText(w), "seed", fmt.Sprint(a.seed)))
	for _, x := range a.presets {
		p.line("  " + w.ScatterPreset(x) + ": " + w.Phrase("calc_basis", "source", w.Source(x.Source), "basis", w.Basis(x.Basis)))
	}
	p.gap(w.Phrase("target_never_success") + ". " + w.Phrase("target_never_success_why"))
	p.end(w, a.warnings(w))
}

// failing lists every motion by how often it fails first.
func (a *placements) failing(p *printer, w *present.Words, d placed) [][]string {
	lines := [][]string{{"  " + w.Phrase("calc_motion"), w.Phrase("calc_first"), w.Phrase("calc_short"), ""}}
	for _, i := range byShare(d.share) {
		if r := a.required[i]; !r.Open {
			lines = append(lines, []string{"  " + w.Requirement(r), w.Percent(d.share.First[i], 1), w.Percent(d.share.Short[i], 1), p.note(w.RequirementNote(r))})
		}
	}
	return lines
}

// byShare returns the indices of the motions, those that fail first most often
// first; of equals the one that is short most often, then the earlier.
func byShare(s kinematics.Share) []int {
	list := make([]int, len(s.First))
	for i := range list {
		list[i] = i
	}
	before := func(a, b int) bool {
		return s.First[a] > s.First[b] || s.First[a] == s.First[b] && s.Short[a] > s.Short[b]
	}
	for i := range list {
		for k := i; k > 0 && before(list[k], list[k-1]); k-- {
			list[k], list[k-1] = list[k-1], list[k]
		}
	}
	return list
}

func (a *placements) scatterText(w *present.Words) string {
	text := ""
	for i, sd := range a.scatter.SD {
		if i > 0 {
			text += ", "
		}
		text += fmt.Sprintf("%s %s", w.Name(scatterKeys[i]), w.Degrees(sd))
	}
	return text
}

// scatterKeys are the parameters of the standard deviations.
var scatterKeys = [kinematics.VariableCount]string{
	"scatter_inclination_deg", "scatter_anteversion_deg", "scatter_stem_deg", "scatter_tilt_deg",
}

func (a *placements) sheet() sheet {
	t := sheet{columns: []string{"design", "name", "motion", "first_to_fail_share", "short_share",
		"share", "share_standard_error", "placements", "below_bounds_share", "margin_deg"}}
	for _, key := range kinematics.VariableKeys {
		t.columns = append(t.columns, key+"_up_deg_per_deg", key+"_down_deg_per_deg")
	}
	t.columns = append(t.columns, "best_inclination_deg", "best_anteversion_deg", "best_share", "best_share_standard_error", "seed")
	for _, d := range a.designs {
		r := a.designRecord(d)
		for _, m := range r.Motions {
			row := []any{r.Design, r.Name, m.Motion, m.First, m.Short,
				r.Share, r.StandardError, r.Placements, r.Uncovered, r.Margin}
			for _, s := range r.Slopes {
				row = append(row, s.Up, s.Down)
			}
			if b := r.Best; b != nil {
				row = append(row, b.Inclination, b.Anteversion, b.Share, b.StandardError)
			} else {
				row = append(row, "", "", "", "")
			}
			t.add(append(row, a.seed)...)
		}
	}
	return t
}

// placementRecord is the JSON form.
type placementRecord struct {
	head
	Seed    uint64            `json:"seed"`
	Scatter []variableRecord  `json:"scatter"`
	Presets []sourceRecord    `json:"scatter_sources,omitempty"`
	Designs []placementDesign `json:"designs"`
	Note    string            `json:"note"`
}

type variableRecord struct {
	Variable string   `json:"variable"`
	SD       *float64 `json:"sd_deg"`
}

// sourceRecord is where a published value comes from.
type sourceRecord struct {
	Key    string `json:"key"`
	Name   string `json:"name"`
	Source string `json:"source"`
	Basis  string `json:"basis"`
}

type placementDesign struct {
	Design        string            `json:"design"`
	Name          string            `json:"name"`
	Share         *float64          `json:"share"`
	StandardError *float64          `json:"share_standard_error"`
	Placements    int               `json:"placements"`
	Uncovered     *float64          `json:"below_bounds_share"`
	Margin        *float64          `json:"margin_deg"` // the worst, at the target itself
	Slopes        []slopeRecord     `json:"sensitivities"`
	Motions       []placementMotion `json:"motions"`
	Best          *placementBest    `json:"best"` // null where it was not looked for
}

type slopeRecord struct {
	Variable string   `json:"variable"`
	Up       *float64 `json:"up_deg_per_deg"`
	Down     *float64 `json:"down_deg_per_deg"`
}

type placementMotion struct {
	Motion string   `json:"motion"`
	Name   string   `json:"name"`
	First  *float64 `json:"first_to_fail_share"`
	Short  *float64 `json:"short_share"`
	Basis  string   `json:"basis"`
	Source string   `json:"source"`
}

type placementBest struct {
	Inclination   *float64 `json:"inclination_deg"`
	Anteversion   *float64 `json:"anteversion_deg"`
	Share         *float64 `json:"share"`
	StandardError *float64 `json:"share_standard_error"`
	Placements    int      `json:"placements"`
}

func (a *placements) record(w *present.Words) (any, error) {
	h, err := a.head("placement", w)
	r := placementRecord{head: h, Seed: a.seed,
		Note: w.Phrase("target_never_success") + ". " + w.Phrase("target_never_success_why")}
	for i, sd := range a.scatter.SD {
		r.Scatter = append(r.Scatter, variableRecord{kinematics.VariableKeys[i], rounded(sd.Degrees())})
	}
	for _, x := range a.presets {
		r.Presets = append(r.Presets, sourceRecord{x.Key, w.ScatterPreset(x), w.Source(x.Source), x.Basis.Key()})
	}
	for _, d := range a.designs {
		r.Designs = append(r.Designs, a.designRecord(d))
	}
	return r, err
}

func (a *placements) designRecord(d placed) placementDesign {
	w := present.English()
	r := placementDesign{
		Design: present.Letter(d.index), Name: a.c.Designs[d.index].Name,
		Share: rounded(d.share.Share), StandardError: rounded(d.share.StandardError), Placements: d.share.Placements,
		Uncovered: rounded(d.share.Uncovered), Margin: rounded(d.share.Margin.Degrees()),
	}
	for i, s := range d.share.Slope {
		r.Slopes = append(r.Slopes, slopeRecord{kinematics.VariableKeys[i], rounded(s.Up), rounded(s.Down)})
	}
	for _, i := range byShare(d.share) {
		if m := a.required[i]; !m.Open {
			r.Motions = append(r.Motions, placementMotion{present.RequirementKey(m), w.Requirement(m),
				rounded(d.share.First[i]), rounded(d.share.Short[i]), m.Basis.Key(), m.Source})
		}
	}
	if a.best {
		r.Best = &placementBest{rounded(d.most.Cup.Inclination.Degrees()), rounded(d.most.Cup.Anteversion.Degrees()),
			rounded(d.most.Share.Share), rounded(d.most.Share.StandardError), d.most.Share.Placements}
	}
	return r
}
