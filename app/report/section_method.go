package report

import (
	"slices"
	"strings"

	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
)

// methodSection says how the answers were found, what they rest on, and where
// they end.
func methodSection(f *Facts, st *sheet) []block {
	const gap = 18
	width := (st.width - gap) / 2
	var list []block
	paragraph := func(title, text string) {
		t := st.bold(tableSize)
		head := block{height: t.LineHeight(), above: 5, keep: true, draw: func(s *figure.Surface, r figure.Rect) {
			s.Text(figure.Pt(r.Min.X, r.Min.Y+t.Ascent()), title, t)
		}}
		list = append(list, head)
		for i, part := range strings.Split(text, "\n") {
			b := textBlock(part, st.ink(noteSize), width, 1)
			if i == 0 {
				b.above = 0
			}
			list = append(list, b)
		}
	}
	w := f.Words
	paragraph(w.Phrase("report_method_title"), w.Phrase("report_method"))
	paragraph(w.Phrase("report_ends_title"), w.Phrase("report_ends"))
	if warned := w.Warned(&f.Case); len(warned) > 0 {
		paragraph(w.Phrase("report_warnings_title"), strings.Join(warned, "\n"))
	}
	var sources []string
	for _, s := range f.sources() {
		line := w.Phrase("report_source", "of", s.all(w), "text", s.text)
		if !strings.Contains(s.text, s.basis) {
			line = w.Phrase("report_source_line", "source", line, "basis", s.basis)
		}
		sources = append(sources, line)
	}
	paragraph(w.Phrase("report_sources"), strings.Join(sources, "\n"))
	paragraph(w.Phrase("report_inputs_title"), f.inputs())
	return []block{st.heading(w.Phrase("report_about")), balanced(list, st.width, gap, 2)}
}

// inputs says which case and which program the answers are of.
func (f *Facts) inputs() string {
	w := f.Words
	parts := []string{w.Phrase("report_inputs", "program", f.Program, "fingerprint", f.Fingerprint)}
	if slices.ContainsFunc(f.Required, func(r motion.Requirement) bool { return r.Kind == motion.OfActivity && r.Name != "" }) {
		parts = append(parts, w.Phrase("report_own_motions"))
	}
	if len(f.Lost) > 0 {
		parts = append(parts, w.Phrase("report_lost", "keys", strings.Join(f.Lost, ", ")))
	}
	return strings.Join(append(parts, w.Phrase("report_privacy")), "\n")
}

// source is what something in a report rests on.
type source struct {
	of, text, basis string
	also            []string // what rests on it besides
}

// all names all that rests on the source.
func (s source) all(w *present.Words) string {
	of := s.of
	for _, also := range s.also {
		of = w.Phrase("list", "first", of, "rest", also)
	}
	return of
}

// sources are what the published values in a report rest on.
func (f *Facts) sources() []source {
	w := f.Words
	list := []source{
		{of: w.Phrase("report_of_definitions"), text: w.Phrase("report_murray"), basis: w.Basis(motion.Found)},
		{of: w.Phrase("report_of_order"), text: w.Phrase("report_wu"), basis: w.Basis(motion.Memory)},
	}
	for _, text := range f.nativeSources() {
		list = append(list, source{of: w.Phrase("report_of_native"), text: text})
	}
	list = append(list, f.motionSources()...)
	for _, l := range kinematics.Loads {
		list = append(list, source{of: w.Phrase(loadPhrases[l.Key]), text: w.Source(l.Source), basis: w.Basis(l.Basis)})
	}
	if totals := f.Designs[0].Totals; len(totals) > 0 {
		list = append(list, source{of: w.Phrase("report_of_arcs"), text: w.Source(totals[0].Source), basis: w.Basis(totals[0].Basis)})
	}
	if f.asked() {
		for _, z := range boxes() {
			list = append(list, source{of: w.Phrase("report_of_zone", "zone", w.Zone(z)), text: w.Source(z.Source), basis: w.Basis(z.Basis)})
		}
		list = append(list, f.scatterSources()...)
	}
	return merged(list)
}

// merged gives each source once, with all that rests on it.
func merged(list []source) []source {
	var out []source
	for _, s := range list {
		k := slices.IndexFunc(out, func(o source) bool { return o.text == s.text && o.basis == s.basis })
		if k < 0 {
			out = append(out, s)
			continue
		}
		out[k].also = append(out[k].also, s.of)
	}
	return out
}

// motionSources are those of the motions required.
func (f *Facts) motionSources() []source {
	list := make([]source, len(f.Required))
	for i, r := range f.Required {
		list[i] = source{of: f.Words.Requirement(r), text: r.Source, basis: f.Words.Basis(r.Basis)}
	}
	return list
}

// scatterSources say where each deviation comes from: the table's default has a
// source, another value is the user's own.
func (f *Facts) scatterSources() []source {
	var list []source
	for _, key := range []string{"scatter_inclination_deg", "scatter_anteversion_deg", "scatter_stem_deg", "scatter_tilt_deg"} {
		p := kinematics.ParameterByKey(key)
		s := source{of: f.Words.Name(key), text: f.Words.Source(p.Source)}
		if v := p.Get(&f.Case, 0); present.Shortest(v, 5) != present.Shortest(p.Default, 5) {
			s = source{of: f.Words.Name(key), text: f.Words.Basis(motion.Own)}
		}
		list = append(list, s)
	}
	return list
}

// loadPhrases name the directions of load, by their keys.
var loadPhrases = map[string]string{
	"standing": "report_load_standing", "seated": "report_load_seated", "rising": "report_load_rising",
}
