package report

import (
	"context"
	"fmt"

	"rimclear/app/chart"
	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

// Drawing is a figure that can be kept by itself, at any size.
type Drawing struct {
	Key     string // names it in files
	Title   string
	Size    figure.Point // the usual one, points
	Motions bool         // it shows what the motions required ask for
	Draw    func(size figure.Point) figure.Figure
}

// Usual sizes of drawings, points.
var (
	squareSize = figure.Pt(420, 420)
	wideSize   = figure.Pt(480, 400)
	shareSize  = figure.Pt(480, 300)
)

// Drawings returns every figure there is of the case: the charts of all
// designs, and of each its maps and pictures.
func (f *Facts) Drawings() []Drawing {
	var list []Drawing
	for _, c := range chart.All {
		list = append(list, Drawing{Key: c.Key, Title: c.Title(f.Words), Size: squareSize, Draw: func(size figure.Point) figure.Figure {
			return c.Draw(f.subject(), f.chartLook(size))
		}})
	}
	if f.asked() || len(f.Required) == 0 {
		list = append(list, Drawing{Key: "placement_share", Title: f.Words.Phrase("chart_placement_share"), Size: shareSize, Motions: true,
			Draw: func(size figure.Point) figure.Figure { return chart.PlacementShare(f.placements(), f.chartLook(size)) }})
	}
	for i := range f.Designs {
		list = append(list, f.ofDesign(i)...)
	}
	return list
}

// Index returns the drawings there are of a case, without what draws them.
func Index(q Question) []Drawing {
	if q.Words == nil {
		q.Words = present.English()
	}
	f := &Facts{Question: q, Designs: make([]DesignFacts, q.Case.Count)}
	list := f.Drawings()
	for i := range list {
		list[i].Draw = nil
	}
	return list
}

// FindDrawing returns the drawing of a key.
func (f *Facts) FindDrawing(key string) (Drawing, bool) {
	for _, d := range f.Drawings() {
		if d.Key == key {
			return d, true
		}
	}
	return Drawing{}, false
}

func (f *Facts) chartLook(size figure.Point) chart.Look {
	return chart.Look{Size: size, Palette: figure.Light(), Words: f.Words}
}

// ofDesign are the drawings of one design.
func (f *Facts) ofDesign(i int) []Drawing {
	letter := present.Letter(i)
	titled := func(key string) string {
		return f.Words.Phrase("report_line", "name", letter, "value", f.Words.Phrase(key))
	}
	return []Drawing{
		{Key: "target_map-" + letter, Title: titled("chart_target_map"), Size: squareSize, Motions: true,
			Draw: func(size figure.Point) figure.Figure { return chart.TargetMap(f.target(i), f.chartLook(size)) }},
		{Key: "version_map-" + letter, Title: titled("chart_version_map"), Size: squareSize, Motions: true,
			Draw: func(size figure.Point) figure.Figure { return chart.TargetMap(f.versions(i), f.chartLook(size)) }},
		{Key: "joint-" + letter, Title: titled("report_whole"), Size: wideSize,
			Draw: func(size figure.Point) figure.Figure { return f.whole(i, size) }},
		{Key: "contact-" + letter, Title: titled("report_contact"), Size: wideSize,
			Draw: func(size figure.Point) figure.Figure { return f.contact(i, size) }},
	}
}

// versions is the map over the versions of cup and stem.
func (f *Facts) versions(i int) chart.Target {
	t := f.target(i)
	m := new(kinematics.Map)
	grid := kinematics.VersionGrid(f.Designs[i].Design.Cup.Definition, f.Case.Hip.CupPlane)
	if err := kinematics.Survey(context.Background(), f.Case, i, f.Required, grid, 0, m); err != nil {
		panic(fmt.Sprintf("report: a survey that nobody ends: %v", err)) // its only error is the context's
	}
	t.Map, t.Best = m, nil
	return t
}

func (f *Facts) whole(i int, size figure.Point) figure.Figure {
	v := Whole(size, figure.Light())
	v.Words, v.Scale = f.Words, printScale
	caption := f.Words.DesignName(&f.Case, i) + ". " + f.Words.Headline(&f.Case, f.Designs[i].Answers)
	return Joint(f.placed(i, hip.Neutral), caption, v)
}

// contact is a design where its tightest limit stops it; the whole of one that
// has none to compare.
func (f *Facts) contact(i int, size figure.Point) figure.Figure {
	k := present.Tightest(f.Designs[i].Answers)
	if k < 0 {
		return f.whole(i, size)
	}
	p := f.placed(i, f.Designs[i].Answers[k].Limit.Posture)
	v := Close(p, size, figure.Light())
	v.Words, v.Scale = f.Words, printScale
	return Joint(p, f.Words.DesignName(&f.Case, i)+". "+f.Words.Limit(&f.Case, f.Designs[i].Answers[k]), v)
}
