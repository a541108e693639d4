package report

import (
	"slices"
	"strings"

	"rimclear/app/chart"
	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

// titleSection says what the report is of, and what it is not.
func titleSection(f *Facts, st *sheet) []block {
	w := f.Words
	side := w.Side(&f.Case)
	if f.Date != "" {
		side = w.Phrase("list", "first", side, "rest", f.Date)
	}
	title, right := st.bold(titleSize), st.soft(textSize)
	list := []block{{height: title.LineHeight(), draw: func(s *figure.Surface, r figure.Rect) {
		base := r.Min.Y + title.Ascent()
		s.Text(figure.Pt(r.Min.X, base), w.Phrase("report_title"), title)
		s.Text(figure.Pt(r.Max.X, base), side, right.At(figure.Right, figure.Baseline))
	}}}
	if f.Case.Label != "" {
		list = append(list, textBlock(f.Case.Label, st.ink(textSize), st.width, 1))
	}
	list = append(list, textBlock(w.Caution(), st.soft(noteSize), st.width, 3))
	return append(list, block{height: 1, above: 5, draw: func(s *figure.Surface, r figure.Rect) {
		s.Line(r.Min, figure.Pt(r.Max.X, r.Min.Y), figure.Stroke{Colour: st.palette.Axis, Width: 0.8})
	}})
}

// answerSection gives the answers in words, the designs two by two.
func answerSection(f *Facts, st *sheet) []block {
	const gap = 18
	count := min(len(f.Designs), 2)
	each := (st.width - gap*float64(count-1)) / float64(count)
	var list []block
	for i := 0; i < len(f.Designs); i += 2 {
		var row []column
		for k := i; k < min(i+2, len(f.Designs)); k++ {
			left := float64(k-i) * (each + gap)
			row = append(row, column{left: left, width: each, blocks: f.answer(st, k, each)})
		}
		list = append(list, beside(9, row...))
	}
	return list
}

// answer says in words how a design does.
func (f *Facts) answer(st *sheet, i int, width float64) []block {
	d := &f.Designs[i]
	serve := f.serve(d)
	strong := st.ink(answerSize)
	strong.Bold = true
	list := []block{
		textBlock(f.name(i), st.design(i, answerSize), width, 0),
		textBlock(f.Words.Serves(serve), strong, width, 2),
	}
	if aim := f.Words.Aim(serve); aim != "" {
		list = append(list, textBlock(aim, st.ink(textSize), width, 2))
	}
	return list
}

// pictureSection shows each design where its tightest limit stops it; a single
// one also as a whole.
func pictureSection(f *Facts, st *sheet) []block {
	const gap = 10
	n := len(f.Designs)
	shown := max(n, 2)
	each := (st.width - gap*float64(shown-1)) / float64(shown)
	high := 140.0
	if n == 1 {
		high = 190
	}
	size := figure.Pt(each, min(0.78*each, high))
	var row []column
	add := func(fig figure.Figure, caption string) {
		row = append(row, column{left: float64(len(row)) * (each + gap), width: each, blocks: []block{
			chartBlock(fig, 0), textBlock(caption, st.ink(noteSize), each, 3),
		}})
	}
	if n == 1 {
		p := f.placed(0, hip.Neutral)
		add(Bare(p, f.Words.Phrase("report_whole"), st.view(Whole(size, st.palette), f)), f.Words.Phrase("report_whole"))
	}
	for i := range f.Designs {
		fig, caption := f.tightest(i, size, st)
		add(fig, caption)
	}
	return []block{beside(10, row...)}
}

// view sets a view's letters and words for a page.
func (st *sheet) view(v View, f *Facts) View {
	v.Scale, v.Text, v.Words = printScale, 8, f.Words
	return v
}

// printScale is the pixels per point of pictures on a page: 216 dots an inch.
const printScale = 3

// tightest is a design where its tightest limit stops it, and the sentence on
// that.
func (f *Facts) tightest(i int, size figure.Point, st *sheet) (figure.Figure, string) {
	d := &f.Designs[i]
	caption := f.Words.Headline(&f.Case, d.Answers)
	k := present.Tightest(d.Answers)
	if k < 0 {
		p := f.placed(i, hip.Neutral)
		return Bare(p, f.name(i), st.view(Whole(size, st.palette), f)), f.name(i)
	}
	p := f.placed(i, d.Answers[k].Limit.Posture)
	caption = strings.Join([]string{present.Letter(i), caption}, "  ")
	return Bare(p, caption, st.view(Close(p, size, st.palette), f)), caption
}

// rulerSection shows the limits of all designs as rulers, which fill the first
// page.
func rulerSection(f *Facts, st *sheet) []block {
	const letters, least, most, between, around = 7.8, 9, 20, 31, 30
	head, n := st.heading(f.Words.Phrase("report_limits_short")), float64(len(f.Designs))
	rest := st.paper.body(true).H() - st.used - head.above - head.height
	bar := min(max(((rest-around)/4-between)/n, least), most)
	look := st.look(figure.Pt(st.width, 4*(n*bar+between)+around), letters, f)
	c, _ := chart.Find("limit_rulers")
	fig := c.Draw(f.subject(), look)
	fig.Marker = nil // no posture is looked at on paper
	return []block{head, chartBlock(fig, 0)}
}

// look is how charts are drawn on a page.
func (st *sheet) look(size figure.Point, letters float64, f *Facts) chart.Look {
	return chart.Look{Size: size, Palette: st.palette, Text: letters, Words: f.Words}
}

// subject is what the charts of limits show.
func (f *Facts) subject() chart.Subject {
	s := chart.Subject{Hip: f.Case.Hip, Posture: f.Case.Posture, Active: f.Active}
	for _, d := range f.Designs {
		s.Designs = append(s.Designs, chart.Design{Name: d.Design.Name, Joint: d.Joint, Of: d.Design})
	}
	return s
}

// target is what a map of a design shows.
func (f *Facts) target(i int) chart.Target {
	d := &f.Designs[i]
	t := chart.Target{Hip: f.Case.Hip, Goal: f.Case.Goal, Designs: f.Case.Active(), Active: i, Map: d.Map, Asked: f.asked(), Zones: boxes()}
	if d.Target.Asked && d.Target.Fits && d.Target.Reachable {
		t.Best = &d.Target.Constrained.Cup
	}
	return t
}

// boxes are the published zones that are drawn on maps: those of inclination
// and anteversion, which are read without a stem.
func boxes() []kinematics.Zone {
	return slices.DeleteFunc(slices.Clone(kinematics.Zones), func(z kinematics.Zone) bool { return z.Kind != kinematics.BoxZone })
}
