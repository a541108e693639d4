package chart

import (
	"rimclear/app/figure"
)

func (c *placementChart) drawStatic(s *figure.Surface) {
	p := c.look.Palette
	c.frame.DrawGrid(s, p)
	for i := range c.Designs {
		c.drawDesign(s, i)
	}
	c.drawAxis(s)
	c.legend().Draw(s, c.foot, p)
}

// drawAxis draws the axis alone, without the outline of a plane.
func (c *placementChart) drawAxis(s *figure.Surface) {
	l, box := c.look, c.frame.Box
	label := l.soft(0.85).At(figure.Centre, figure.Top)
	for _, t := range figure.Ticks(0, 100, 20, " %") {
		s.Text(figure.Pt(c.frame.At(t.At, 0).X, box.Max.Y+3), t.Label, label)
	}
	s.Text(figure.Pt(box.Centre().X, box.Max.Y+3+label.LineHeight()), c.frame.X.Title, label)
	s.Line(figure.Pt(box.Min.X, box.Max.Y), box.Max, figure.Stroke{Colour: l.Palette.Axis, Width: 0.8})
}

// drawDesign draws a design's name and reading, its bar, and in words what
// fails first.
func (c *placementChart) drawDesign(s *figure.Surface, i int) {
	l, p, box := c.look, c.look.Palette, c.frame.Box
	top := box.Min.Y + float64(i)*c.pitch
	name := figure.TextStyle{Font: l.font(1), Colour: p.Designs[i%4].Text, Plate: p.Paper}
	name.Bold = true
	base := top + 0.3*l.Text + name.Ascent()
	reading := l.ink(1)
	reading.Plate = p.Paper
	room := box.W() - reading.Width(c.reading(i)) - l.Text
	s.Text(figure.Pt(box.Min.X, base), shortened(name.Font, c.name(i), room), name)
	s.Text(figure.Pt(box.Max.X, base), c.reading(i), reading.At(figure.Right, figure.Baseline))
	bar := figure.Box(box.Min.X, base+0.45*l.Text, box.W(), shareBar*l.Text)
	c.drawBar(s, i, bar)
	if c.pitch >= (sharePitch-0.9)*l.Text {
		c.drawFailures(s, i, bar.Max.Y+0.25*l.Text)
	}
}

// drawBar fills the share that meets every criterion, and divides the rest by
// what fails first.
func (c *placementChart) drawBar(s *figure.Surface, i int, bar figure.Rect) {
	p, share := c.look.Palette, c.Shares[i].Share
	at := bar.Min.X + share*bar.W()
	s.Polygon(bar.Ring(), forbidden(p))
	s.Polygon(figure.Rect{Min: bar.Min, Max: figure.Pt(at, bar.Max.Y)}.Ring(), figure.Solid(tints(p)[2]))
	x, divides := at, [][]figure.Point{}
	for _, f := range c.failures(i, len(c.Motions)) {
		divides = append(divides, []figure.Point{{X: x, Y: bar.Min.Y}, {X: x, Y: bar.Max.Y}})
		x += f.share * bar.W()
	}
	s.Polylines(divides, figure.Stroke{Colour: p.Ink, Width: 0.9})
	s.Outline(bar.Ring(), figure.Stroke{Colour: p.Axis, Width: 0.8})
	c.drawWhisker(s, i, bar, at)
}

func (c *placementChart) drawWhisker(s *figure.Surface, i int, bar figure.Rect, at float64) {
	half := 2 * c.Shares[i].StandardError * bar.W()
	lo, hi := max(at-half, bar.Min.X), min(at+half, bar.Max.X)
	y, cap := bar.Centre().Y, 0.35*c.look.Text
	lines := [][]figure.Point{{{X: lo, Y: y}, {X: hi, Y: y}}, {{X: lo, Y: y - cap}, {X: lo, Y: y + cap}}, {{X: hi, Y: y - cap}, {X: hi, Y: y + cap}}}
	s.Polylines(lines, figure.Stroke{Colour: c.look.Palette.Paper, Width: 3})
	s.Polylines(lines, figure.Stroke{Colour: c.look.Palette.Ink, Width: 1.2})
}

// drawFailures names what fails first, as many as there is room for.
func (c *placementChart) drawFailures(s *figure.Surface, i int, top float64) {
	l, box := c.look, c.frame.Box
	t := l.soft(0.85)
	t.Plate = l.Palette.Paper
	text := ""
	for _, f := range c.failures(i, 3) {
		if f.name == "" {
			continue
		}
		part := l.Phrase("chart_fails_first", "motion", f.name, "share", l.Words.Percent(f.share, 0))
		if text != "" {
			part = l.Phrase("list", "first", text, "rest", part)
		}
		whole := l.Phrase("chart_first_to_fail", "motions", part)
		if text != "" && t.Width(whole) > box.W() {
			break
		}
		text = part
	}
	if text == "" {
		return
	}
	whole := l.Phrase("chart_first_to_fail", "motions", text)
	s.Text(figure.Pt(box.Min.X, top+t.Ascent()), shortened(t.Font, whole, box.W()), t)
}

// shortened returns text with an ellipsis where it is longer than room.
func shortened(f figure.Font, text string, room float64) string {
	if f.Width(text) <= room {
		return text
	}
	letters := []rune(text)
	for n := len(letters) - 1; n > 0; n-- {
		if short := string(letters[:n]) + "…"; f.Width(short) <= room {
			return short
		}
	}
	return ""
}
