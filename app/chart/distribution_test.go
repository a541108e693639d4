package chart

import (
	"math"
	"path/filepath"
	"strings"
	"testing"

	"rimclear/app/figure"
)

// spreads are invented quantiles of two designs.
func spreads() Distribution {
	inf := math.Inf(1)
	return Distribution{Title: "How far the hip goes in 1000 cases", Designs: []string{"A", "B"}, Ends: [2]float64{0, 180}, Rows: []DistributionRow{
		{"Flexion", 180, []DistributionBar{{Quantiles: [5]float64{95, 110, 120, 130, 150}}, {Quantiles: [5]float64{101, 116, 126, 136, 156}}}},
		{"Extension", 90, []DistributionBar{{Quantiles: [5]float64{30, 44, 55, 66, inf}, Note: "free in 7.0 %"}, {Quantiles: [5]float64{36, 50, 61, 72, inf}, Note: "free in 9.0 %"}}},
		{"Internal rotation", 180, []DistributionBar{{Quantiles: [5]float64{-inf, 12, 24, 35, 50}, Note: "not begun in 8.0 %"}, {Quantiles: [5]float64{math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN()}}}},
	}}
}

func standings() Standings {
	return Standings{Title: "Who is served: 1000 cases", Designs: []string{"A", "B"}, Rows: []StandingRow{
		{"everything required", [][3]float64{{0.1, 0.2, 0.7}, {0.5, 0.25, 0.25}}},
		{"flexion to 120°", [][3]float64{{1, 0, 0}, {math.NaN(), math.NaN(), math.NaN()}}},
	}}
}

func TestGoldenDistribution(t *testing.T) {
	look := Look{Size: figure.Pt(460, 300), Palette: figure.Light()}
	folder := filepath.Join("..", "..", "testdata", "chart")
	compareGolden(t, filepath.Join(folder, "distribution.svg"), bareSVG(t, spreads().Draw(look)))
	compareGolden(t, filepath.Join(folder, "standings.svg"), bareSVG(t, standings().Draw(look)))
}

// shapes is a canvas that keeps areas and lines.
type shapes struct {
	writing
	fills, strokes [][][]figure.Point
}

func (p *shapes) Fill(rings [][]figure.Point, _ figure.Colour) { p.fills = append(p.fills, rings) }
func (p *shapes) Stroke(lines [][]figure.Point, _ figure.Stroke) {
	p.strokes = append(p.strokes, lines)
}

func TestABarRunsBetweenItsQuartilesAndNoFurtherThanTheMovement(t *testing.T) {
	l := Look{Size: figure.Pt(460, 300), Palette: figure.Light()}.complete()
	d := spreads()
	b := newBars(l, d.Title, d.Designs, []string{"Flexion", "Extension", "Internal rotation"}, figure.Axis{Min: 0, Max: 180}, d.legend(l))
	var pen shapes
	at := b.bar(1, 0)
	b.drawSpread(figure.On(&pen, l.Size), 0, at, 90, d.Rows[1].Bars[0])
	if len(pen.fills) < 1 || len(pen.strokes) < 1 {
		t.Fatalf("%d areas and %d lines", len(pen.fills), len(pen.strokes))
	}
	box, line := pen.fills[0][0], pen.strokes[0][0]
	for _, tt := range []struct {
		name      string
		got, want float64
	}{
		{"lower quartile", box[0].X, b.frame.At(44, 0).X}, {"upper quartile", box[2].X, b.frame.At(66, 0).X},
		{"5 %", line[0].X, b.frame.At(30, 0).X}, {"the movement's end", line[1].X, b.frame.At(90, 0).X},
	} {
		if math.Abs(tt.got-tt.want) > 1e-9 {
			t.Errorf("%s at %.2f, want %.2f", tt.name, tt.got, tt.want)
		}
	}
}

func TestNoWordOfADistributionLeavesItsChart(t *testing.T) {
	for _, size := range []figure.Point{{X: 420, Y: 260}, {X: 640, Y: 500}} {
		l := Look{Size: size, Palette: figure.Light()}
		for _, f := range []figure.Figure{spreads().Draw(l), standings().Draw(l)} {
			var w writing
			f.Draw(&w)
			page := figure.Rect{Max: size}
			for i, a := range w.texts {
				if !page.Contains(a.box.Min) || !page.Contains(a.box.Max) {
					t.Errorf("%q at %v: %q leaves the chart", f.Title, size, a.text)
				}
				for _, b := range w.texts[:i] {
					if a.overlaps(b) {
						t.Errorf("%q at %v: %q lies on %q", f.Title, size, a.text, b.text)
					}
				}
			}
		}
	}
}

func TestSharesAreSaidInTheSentence(t *testing.T) {
	l := Look{Size: figure.Pt(460, 300), Palette: figure.Dark()}
	for _, tt := range []struct{ alt, want string }{
		{spreads().Draw(l).Alt, "A Flexion 120.0°; B Flexion 126.0°"},
		{standings().Draw(l).Alt, "B everything required 75.0"},
	} {
		if !strings.Contains(tt.alt, tt.want) || strings.Contains(tt.alt, "NaN") {
			t.Errorf("%q does not say %q", tt.alt, tt.want)
		}
	}
}
