package main

import (
	"io"

	"rimclear/app/chart"
	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/app/report"
	"rimclear/kinematics/hip"
)

// Sizes of the demo's pictures, in points, and pixels per point of those that
// are pixels.
var (
	chartSize = figure.Pt(640, 520)
	jointSize = figure.Pt(720, 620)
)

const pixels = 2

// pictures are every design in neutral and at its tightest limit, and every
// chart.
func (a answers) pictures() []product {
	var list []product
	for _, d := range a.designs {
		list = append(list, a.joint(d)...)
	}
	subject := chart.SubjectOf(a.c, 0)
	for _, c := range chart.All {
		f := c.Draw(subject, chart.Look{Size: chartSize, Palette: figure.Light()})
		list = append(list, pngOf(c.Key, f), product{c.Key + ".svg", f.WriteSVG})
	}
	return list
}

func (a answers) joint(d answered) []product {
	w, letter, name := present.English(), present.Letter(d.index), present.English().DesignName(&a.c, d.index)
	neutral := report.PlacedAt(&a.c, d.index, hip.Neutral)
	caption := name + ". " + w.Headline(&a.c, d.answers)
	list := []product{pngOf("joint-"+letter, report.Joint(neutral, caption, report.Whole(jointSize, figure.Light())))}
	if i := present.Tightest(d.answers); i >= 0 {
		stopped := report.PlacedAt(&a.c, d.index, d.answers[i].Limit.Posture)
		caption := name + ". " + w.Limit(&a.c, d.answers[i])
		list = append(list, pngOf("contact-"+letter, report.Joint(stopped, caption, report.Close(stopped, jointSize, figure.Light()))))
	}
	return list
}

func pngOf(name string, f figure.Figure) product {
	return product{name + ".png", func(w io.Writer) error { return f.WritePNG(w, pixels) }}
}
