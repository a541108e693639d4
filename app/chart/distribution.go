package chart

import (
	"math"
	"strings"

	"rimclear/app/figure"
)

// Distribution is how angles are spread over the cases of a cohort, one row
// for each angle and in it one bar for each design.
type Distribution struct {
	Title   string
	Designs []string // letters or names; one without a name has no label
	Rows    []DistributionRow
	Ends    [2]float64 // of the axis, degrees
}

// DistributionRow is one angle.
type DistributionRow struct {
	Name string
	End  float64           // of the movement, degrees: as far as one that is free goes
	Bars []DistributionBar // by design
}

// DistributionBar is the angle of one design: its 5, 25, 50, 75 and 95 %
// quantiles in degrees. -Inf is a case that could not begin the movement, +Inf
// one that is free to its end. Note stands behind the bar.
type DistributionBar struct {
	Quantiles [5]float64
	Note      string
}

// Standings is how the cases of a cohort stand to what is required, one row for
// each requirement and in it one bar for each design.
type Standings struct {
	Title   string
	Designs []string
	Rows    []StandingRow
}

// StandingRow is one requirement: for each design the shares of the cases that
// meet it, that nearly do not, and that fall short. Together they are 1, or NaN
// where no case was held to it.
type StandingRow struct {
	Name string
	Bars [][3]float64
}

// bars is what both charts share: rows of bars over an axis.
type bars struct {
	look    Look
	title   string
	designs []string
	names   []string
	frame   figure.Frame
	foot    figure.Point
	row     float64 // height of a row
	left    float64 // where names begin
}

// rowLine and rowGap are, in sizes of the letters, the height of a bar with its
// space and the space between rows.
const (
	rowLine = 1.15
	rowGap  = 0.55
)

func newBars(l Look, title string, designs, names []string, x figure.Axis, legend figure.Legend) *bars {
	b := &bars{look: l, title: title, designs: designs, names: names}
	body := figure.Rect{Max: l.Size}.Inset(0.7 * l.Text)
	b.left = body.Min.X
	b.foot = figure.Pt(body.Min.X, body.Max.Y-legend.Size().Y)
	wide := 0.0
	for _, name := range names {
		wide = max(wide, l.font(1).Width(name))
	}
	box := body.Trim(min(wide, 0.42*body.W())+1.2*l.Text+b.letters(), 1.7*l.Text, 0, legend.Size().Y+0.6*l.Text)
	b.frame = figure.NewFrame(box, x, figure.Axis{Min: 0, Max: 1, Ticks: []figure.Tick{}}, l.font(0.85))
	b.row = min(b.frame.Box.H()/float64(max(len(names), 1)), (rowLine*float64(max(len(designs), 1))+rowGap)*1.6*l.Text)
	bottom := b.frame.Box.Min.Y + b.row*float64(max(len(names), 1))
	b.foot.Y -= b.frame.Box.Max.Y - bottom
	b.frame.Box.Max.Y = bottom
	return b
}

// letters is the room for the designs' letters before their bars.
func (b *bars) letters() float64 {
	if len(b.designs) < 2 {
		return 0
	}
	return 1.2 * b.look.Text
}

// bar returns where the bar of a design lies in a row.
func (b *bars) bar(row, design int) figure.Rect {
	gap := rowGap / (rowLine*float64(len(b.designs)) + rowGap) * b.row
	h := (b.row - gap) / float64(len(b.designs))
	top := b.frame.Box.Min.Y + float64(row)*b.row + gap/2 + float64(design)*h
	return figure.Box(b.frame.Box.Min.X, top+0.12*h, b.frame.Box.W(), 0.76*h)
}

// draw draws title, grid, names and axis, and bar by bar what each holds.
func (b *bars) draw(s *figure.Surface, legend figure.Legend, each func(row, design int, at figure.Rect)) {
	l, p := b.look, b.look.Palette
	title := l.ink(1.1).At(figure.Left, figure.Top)
	title.Bold = true
	s.Text(figure.Pt(b.left, 0.6*l.Text), b.title, title)
	b.frame.DrawGrid(s, p)
	for row, name := range b.names {
		box := b.bar(row, 0)
		middle := (box.Min.Y + b.bar(row, len(b.designs)-1).Max.Y) / 2
		room := box.Min.X - b.left - b.letters() - 0.8*l.Text
		s.Text(figure.Pt(b.left, middle), shortened(l.font(1), name, room), l.ink(1).At(figure.Left, figure.Middle))
		for d := range b.designs {
			at := b.bar(row, d)
			if len(b.designs) > 1 {
				letter := figure.TextStyle{Font: figure.Font{Size: min(0.85*l.Text, 1.1*at.H()), Bold: true}, Colour: p.Designs[d%4].Text}
				s.Text(figure.Pt(at.Min.X-0.5*l.Text, at.Centre().Y), b.designs[d], letter.At(figure.Right, figure.Middle))
			}
			each(row, d, at)
		}
	}
	b.frame.Draw(s, p)
	legend.Draw(s, b.foot, p)
}

// Draw draws the distribution.
func (d Distribution) Draw(l Look) figure.Figure {
	l = l.complete()
	legend := d.legend(l)
	var names []string
	for _, r := range d.Rows {
		names = append(names, r.Name)
	}
	axis := figure.Axis{Min: d.Ends[0], Max: d.Ends[1], Unit: "°", Grid: true, Title: l.Phrase("chart_distribution_axis")}
	b := newBars(l, d.Title, d.Designs, names, axis, legend)
	return figure.Figure{
		Title: d.Title, Alt: d.alt(l), Size: l.Size, Paper: l.Palette.Paper,
		Static: func(s *figure.Surface) {
			b.draw(s, legend, func(row, design int, at figure.Rect) {
				if row < len(d.Rows) && design < len(d.Rows[row].Bars) {
					b.drawSpread(s, design, at, d.Rows[row].End, d.Rows[row].Bars[design])
				}
			})
		},
	}
}

func (d Distribution) legend(l Look) figure.Legend {
	p := l.Palette
	return figure.Legend{Font: l.font(0.9), Row: true, Width: l.Size.X - 1.4*l.Text, Entries: []figure.Entry{
		{Label: l.Phrase("chart_distribution_half"), Fill: figure.Solid(p.Designs[0].Line)},
		{Label: l.Phrase("chart_distribution_most"), Line: figure.Stroke{Colour: p.Designs[0].Line, Width: 1.4}},
		{Label: l.Phrase("chart_distribution_free"), Mark: func(s *figure.Surface, at figure.Point) {
			s.Polygon(figure.Triangle(at, 4, 0), figure.Solid(p.Ink))
		}},
	}}
}

// drawSpread draws a bar from quantile to quantile.
func (b *bars) drawSpread(s *figure.Surface, design int, at figure.Rect, end float64, q DistributionBar) {
	if math.IsNaN(q.Quantiles[2]) {
		return
	}
	p := b.look.Palette
	look := p.Designs[design%4]
	x := func(i int) float64 {
		return min(max(b.frame.At(min(q.Quantiles[i], end), 0).X, at.Min.X), at.Max.X)
	}
	y := at.Centre().Y
	s.Line(figure.Pt(x(0), y), figure.Pt(x(4), y), figure.Stroke{Colour: look.Line, Width: 1.4})
	box := figure.Rect{Min: figure.Pt(x(1), at.Min.Y), Max: figure.Pt(x(3), at.Max.Y)}
	s.Polygon(box.Ring(), figure.Solid(look.Line))
	s.Line(figure.Pt(x(2), at.Min.Y), figure.Pt(x(2), at.Max.Y), figure.Stroke{Colour: p.Paper, Width: 1.8})
	if math.IsInf(q.Quantiles[4], 1) {
		s.Polygon(figure.Triangle(figure.Pt(x(4)-2, y), 4, 0), figure.Solid(p.Ink))
	}
	if q.Note != "" {
		b.note(s, at, x(0), x(4), q.Note)
	}
}

// note writes beside a bar, on the side where there is room.
func (b *bars) note(s *figure.Surface, at figure.Rect, from, to float64, text string) {
	t := b.look.soft(0.8)
	t.Size = min(t.Size, 1.15*at.H())
	gap := 0.5 * b.look.Text
	if t.Width(text)+2*gap < at.Max.X-to {
		s.Text(figure.Pt(to+gap, at.Centre().Y), text, t.At(figure.Left, figure.Middle))
	} else if t.Width(text)+2*gap < from-at.Min.X {
		s.Text(figure.Pt(from-gap, at.Centre().Y), text, t.At(figure.Right, figure.Middle))
	}
}

func (d Distribution) alt(l Look) string {
	var parts []string
	for _, r := range d.Rows {
		for i, b := range r.Bars {
			if m := b.Quantiles[2]; !math.IsNaN(m) && !math.IsInf(m, 0) {
				parts = append(parts, l.Phrase("chart_distribution_reading",
					"name", strings.TrimSpace(letterOf(d.Designs, i)+" "+r.Name), "median", l.number(m, 1)+"°"))
			}
		}
	}
	return l.Phrase("chart_distribution_alt", "title", d.Title, "medians", strings.Join(parts, "; "))
}

// letterOf returns a design's label where there are several.
func letterOf(designs []string, i int) string {
	if len(designs) < 2 || i >= len(designs) {
		return ""
	}
	return designs[i]
}

// Draw draws how the cases stand.
func (d Standings) Draw(l Look) figure.Figure {
	l = l.complete()
	legend := d.legend(l)
	var names []string
	for _, r := range d.Rows {
		names = append(names, r.Name)
	}
	axis := figure.Axis{Min: 0, Max: 100, Step: 20, Unit: " %", Grid: true, Title: l.Phrase("chart_standings_axis")}
	b := newBars(l, d.Title, d.Designs, names, axis, legend)
	return figure.Figure{
		Title: d.Title, Alt: d.alt(l), Size: l.Size, Paper: l.Palette.Paper,
		Static: func(s *figure.Surface) {
			b.draw(s, legend, func(row, design int, at figure.Rect) {
				if row < len(d.Rows) && design < len(d.Rows[row].Bars) {
					b.drawStanding(s, at, d.Rows[row].Bars[design])
				}
			})
		},
	}
}

func (d Standings) legend(l Look) figure.Legend {
	edge := figure.Stroke{Colour: l.Palette.Axis, Width: 0.6}
	list := []figure.Entry{}
	for i, key := range [3]string{"chart_standings_met", "chart_standings_close", "chart_standings_short"} {
		list = append(list, figure.Entry{Label: l.Phrase(key), Fill: standingFill(l.Palette, i), Line: edge})
	}
	return figure.Legend{Font: l.font(0.9), Row: true, Width: l.Size.X - 1.4*l.Text, Entries: list}
}

func standingFill(p figure.Palette, i int) figure.Fill {
	switch i {
	case 0:
		return figure.Solid(tints(p)[2])
	case 1:
		return p.Close.Fill
	}
	return forbidden(p)
}

// drawStanding divides a bar by shares, and writes the share that is served.
func (b *bars) drawStanding(s *figure.Surface, at figure.Rect, shares [3]float64) {
	if math.IsNaN(shares[0]) {
		return
	}
	p, x := b.look.Palette, at.Min.X
	for i, share := range shares {
		part := figure.Box(x, at.Min.Y, share*at.W(), at.H())
		if x += part.W(); part.W() > 0 {
			s.Polygon(part.Ring(), standingFill(p, i))
		}
	}
	s.Outline(at.Ring(), figure.Stroke{Colour: p.Axis, Width: 0.6})
	t := figure.TextStyle{Font: figure.Font{Size: min(0.85*b.look.Text, 0.95*at.H())}, Colour: p.Ink, Plate: figure.Fade(p.Paper, 0.85)}
	s.Text(figure.Pt(at.Min.X+0.5*b.look.Text, at.Centre().Y), b.look.Words.Percent(shares[0]+shares[1], 1), t.At(figure.Left, figure.Middle))
}

func (d Standings) alt(l Look) string {
	var parts []string
	for _, r := range d.Rows {
		for i, b := range r.Bars {
			if !math.IsNaN(b[0]) {
				parts = append(parts, l.Phrase("chart_distribution_reading",
					"name", strings.TrimSpace(letterOf(d.Designs, i)+" "+r.Name), "median", l.Words.Percent(b[0]+b[1], 1)))
			}
		}
	}
	return l.Phrase("chart_standings_alt", "title", d.Title, "shares", strings.Join(parts, "; "))
}
