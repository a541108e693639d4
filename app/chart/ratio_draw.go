package chart

import (
	"math"
	"strings"

	"rimclear/app/figure"
)

func (c *swept) drawStatic(s *figure.Surface) {
	list := c.curves()
	for p := range c.panels {
		c.drawPanel(s, list, p)
	}
	l := c.look
	c.designs(c.body.W()).Draw(s, c.head, l.Palette)
	edge := figure.Stroke{Colour: l.Palette.Axis, Width: 0.6}
	legend := figure.Legend{Font: l.font(0.92), Row: true, Entries: []figure.Entry{
		{Label: l.Phrase("chart_beyond"), Fill: figure.Solid(l.Palette.Beyond.Fill.Colour), Line: edge},
		{Label: l.Phrase("chart_as_it_is"), Mark: func(s *figure.Surface, at figure.Point) {
			dot(s, l, at, l.Palette.Ink)
		}},
	}}
	legend.Draw(s, c.foot, l.Palette)
}

// drawPanel draws one quantity over the value that is varied.
func (c *swept) drawPanel(s *figure.Surface, list []curve, p int) {
	l, box := c.look, c.panels[p].box
	line := l.font(1).LineHeight()
	x := figure.Axis{Min: c.sweep.from, Max: c.sweep.to, Step: c.sweep.tick, Unit: c.sweep.unit, Point: c.look.Words.Point(), Grid: true}
	if p >= sweptPanels/2 {
		x.Title = c.sweep.axis(l.Words)
	}
	fr := figure.NewFrame(box.Trim(0, line, 0, 0), x, sweptAxis(list, p), l.font(0.85))
	name := l.fit(c.panelName(p), box.W())
	s.Text(figure.Pt(box.Min.X, box.Min.Y+line/2), name, l.ink(0.95).At(figure.Left, figure.Middle))
	c.drawNative(s, fr, p)
	fr.DrawGrid(s, l.Palette)
	s.PushClip(fr.Box.Ring())
	for i := range list {
		if i != c.Active {
			c.drawCurve(s, fr, list, i, p)
		}
	}
	if c.Active < len(list) {
		c.drawCurve(s, fr, list, c.Active, p)
	}
	s.PopClip()
	fr.Draw(s, l.Palette)
	for i, v := range list {
		if at := fr.At(v.at, v.is[p]); !math.IsNaN(v.is[p]) && fr.Box.Contains(at) {
			dot(s, l, at, l.Palette.Designs[i%4].Line)
		}
	}
	if missing := c.missing(list, p); missing != "" {
		t := l.soft(0.85)
		t.Plate = figure.Fade(l.Palette.Paper, 0.85)
		s.Text(figure.Pt(fr.Box.Max.X-3, fr.Box.Max.Y-0.8*line), l.fit(missing, fr.Box.W()-6), t.At(figure.Right, figure.Middle))
	}
}

// panelName names the quantity of a panel.
func (c *swept) panelName(p int) string {
	l := c.look
	if p == 0 {
		return l.Phrase("chart_oscillation")
	}
	q := c.panels[p].question
	if q.Flexion == 0 {
		return l.Phrase("chart_limit_of", "movement", l.Words.Movement(q.Movement))
	}
	return l.Phrase("chart_limit_at", "movement", l.Words.Movement(q.Movement), "flexion", unsignedLabel(q.Flexion.Degrees()))
}

// missing names the designs that have no oscillation angle.
func (c *swept) missing(list []curve, p int) string {
	if p > 0 {
		return ""
	}
	var names []string
	for i, v := range list {
		if math.IsNaN(v.is[0]) {
			names = append(names, c.look.Palette.Designs[i%4].Name)
		}
	}
	switch len(names) {
	case 0:
		return ""
	case 1:
		return c.look.Phrase("chart_not_round", "design", names[0])
	}
	return c.look.Phrase("chart_not_round_many", "designs", strings.Join(names, ", "))
}

// drawNative greys what lies beyond the native passive range.
func (c *swept) drawNative(s *figure.Surface, fr figure.Frame, p int) {
	q := c.panels[p].question
	end := q.Native.Range.Degrees()
	if p == 0 || !q.Native.Known() || end >= fr.Y.Max {
		return
	}
	pal := c.look.Palette
	y := fr.At(fr.X.Min, max(end, fr.Y.Min)).Y
	s.Polygon(figure.Rect{Min: fr.Box.Min, Max: figure.Pt(fr.Box.Max.X, y)}.Ring(), figure.Solid(pal.Beyond.Fill.Colour))
	if end > fr.Y.Min {
		s.Line(figure.Pt(fr.Box.Min.X, y), figure.Pt(fr.Box.Max.X, y), figure.Stroke{Colour: pal.Beyond.Line, Width: 0.8, Dash: []float64{3, 2}})
	}
}

// drawCurve draws a design's curve, in pieces where there is none between.
func (c *swept) drawCurve(s *figure.Surface, fr figure.Frame, list []curve, i, p int) {
	var lines [][]figure.Point
	var line []figure.Point
	for k, x := range list[i].x {
		y := list[i].y[p][k]
		if math.IsNaN(y) {
			lines, line = append(lines, line), nil
			continue
		}
		line = append(line, fr.At(x, y))
	}
	s.Polylines(append(lines, line), c.stroke(i))
}

// dot marks a design as it is.
func dot(s *figure.Surface, l Look, at figure.Point, c figure.Colour) {
	s.Polygon(figure.Disc(at, 0.48*l.Text, 0), figure.Solid(l.Palette.Paper))
	s.Polygon(figure.Disc(at, 0.34*l.Text, 0), figure.Solid(c))
}

// fit shortens a text to a width.
func (l Look) fit(text string, wide float64) string {
	f := l.font(0.95)
	if f.Width(text) <= wide {
		return text
	}
	runes := []rune(text)
	for len(runes) > 1 && f.Width(string(runes)+"…") > wide {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ,") + "…"
}
