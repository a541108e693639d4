package chart

import (
	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

func (c *rulerChart) drawStatic(s *figure.Surface) {
	for _, r := range c.rulers {
		c.drawEnds(s, r)
		for i, sp := range r.spans() {
			c.drawBar(s, r, i, sp)
		}
		c.drawNativeEnds(s, r)
		c.drawTicks(s, r)
		for i, sp := range r.spans() {
			c.drawReadings(s, r, i, sp)
		}
	}
	c.drawAround(s, "")
}

// drawEnds names the two directions of a ruler, and the flexion of a rotation.
func (c *rulerChart) drawEnds(s *figure.Surface, r ruler) {
	l := c.look
	lower, upper := l.ends(r.angle)
	y := r.box.Min.Y - (needleHead+0.3)*l.Text
	s.Text(figure.Pt(r.box.Min.X, y), lower, l.ink(1).At(figure.Left, figure.Baseline))
	s.Text(figure.Pt(r.box.Max.X, y), upper, l.ink(1).At(figure.Right, figure.Baseline))
	if r.angle == hip.InternalRotation {
		at := l.Phrase("chart_at", l.reading(hip.Flexion, r.flexion)...)
		s.Text(figure.Pt(r.box.Centre().X, y), at, l.soft(1).At(figure.Centre, figure.Baseline))
	}
}

// drawBar draws the free span of a design on the forbidden ground, and greys
// what bone and soft tissue forbid.
func (c *rulerChart) drawBar(s *figure.Surface, r ruler, i int, sp span) {
	p, bar := c.look.Palette, r.bar(i, len(c.Designs))
	from, to := r.x(-free(sp.lower)), r.x(free(sp.upper))
	n := nativeReach(r.angle, r.flexion)
	low, high := r.x(n.From.Degrees()), r.x(n.To.Degrees())
	part := func(x0, x1 float64, f figure.Fill) {
		if x0 < x1 {
			s.Polygon(figure.Rect{Min: figure.Pt(x0, bar.Min.Y), Max: figure.Pt(x1, bar.Max.Y)}.Ring(), f)
		}
	}
	part(bar.Min.X, bar.Max.X, figure.Solid(p.Beyond.Fill.Colour))
	part(from, to, figure.Solid(beyond(p)))
	part(low, high, forbidden(p))
	part(max(from, low), min(to, high), figure.Solid(tints(p)[2]))
	s.Outline(bar.Ring(), figure.Stroke{Colour: p.Axis, Width: 0.6})
	if len(c.Designs) > 1 {
		look := p.Designs[i%4]
		name := figure.TextStyle{Font: figure.Font{Size: 0.85 * c.look.Text, Bold: true}, Colour: look.Text}
		s.Text(figure.Pt(bar.Min.X-0.3*c.look.Text, bar.Centre().Y), look.Name, name.At(figure.Right, figure.Middle))
	}
	if r.shows(-free(sp.lower)) {
		c.drawStop(s, bar, from, sp.lower)
	}
	if r.shows(free(sp.upper)) {
		c.drawStop(s, bar, to, sp.upper)
	}
}

// free returns up to which reading a movement is free, in degrees: nowhere if
// it was not reached.
func free(a kinematics.Answer) float64 {
	if !a.Reached {
		return 0
	}
	return a.Reading.Degrees()
}

// drawStop marks a contact as an upright bar.
func (c *rulerChart) drawStop(s *figure.Surface, bar figure.Rect, x float64, a kinematics.Answer) {
	if present.StatusKey(a) != "limit" {
		return
	}
	col := c.look.Palette.Contact.Line
	if a.BeyondNative() {
		col = c.look.Palette.Beyond.Line
	}
	s.Line(figure.Pt(x, bar.Min.Y-1), figure.Pt(x, bar.Max.Y+1), figure.Stroke{Colour: col, Width: 3.2})
}

// drawNativeEnds draws the ends of the native passive range through all bars.
func (c *rulerChart) drawNativeEnds(s *figure.Surface, r ruler) {
	n := nativeReach(r.angle, r.flexion)
	bottom := r.bar(max(len(c.Designs)-1, 0), len(c.Designs)).Max.Y
	var lines [][]figure.Point
	for _, v := range []unit.Angle{n.From, n.To} {
		x := r.x(v.Degrees())
		lines = append(lines, []figure.Point{{X: x, Y: r.box.Min.Y}, {X: x, Y: bottom}})
	}
	s.Polylines(lines, figure.Stroke{Colour: c.look.Palette.Beyond.Line, Width: 0.8, Dash: []float64{3, 2}})
}

// drawTicks writes the degrees under the bars.
func (c *rulerChart) drawTicks(s *figure.Surface, r ruler) {
	l := c.look
	y := r.bar(max(len(c.Designs)-1, 0), len(c.Designs)).Max.Y
	var marks [][]figure.Point
	for _, t := range unsigned(r.axis.Min, r.axis.Max, 30) {
		x := r.x(t.At)
		marks = append(marks, []figure.Point{{X: x, Y: y}, {X: x, Y: y + 3}})
		s.Text(figure.Pt(x, y+4), t.Label, l.soft(0.82).At(figure.Centre, figure.Top))
	}
	zero := r.x(0)
	s.Polylines(marks, figure.Stroke{Colour: l.Palette.Axis, Width: 0.8})
	s.Line(figure.Pt(zero, r.box.Min.Y), figure.Pt(zero, y+3), figure.Stroke{Colour: l.Palette.Axis, Width: 1.2})
}

// drawReadings writes both limits and their hours: beyond the end where there
// is room, before it where there is not.
func (c *rulerChart) drawReadings(s *figure.Surface, r ruler, i int, sp span) {
	bar := r.bar(i, len(c.Designs))
	if !sp.lower.Reached && !sp.upper.Reached {
		row := c.look.Words.Row(&kinematics.Case{Hip: c.Hip}, sp.upper)
		t := figure.TextStyle{Font: c.look.font(0.85), Colour: c.look.Palette.Contact.Text, Plate: figure.Fade(c.look.Palette.Paper, 0.85)}
		s.Text(bar.Centre(), row.Note, t.At(figure.Centre, figure.Middle))
		return
	}
	c.drawReading(s, bar, r.x(-free(sp.lower)), sp.lower, -1)
	c.drawReading(s, bar, r.x(free(sp.upper)), sp.upper, 1)
}

func (c *rulerChart) drawReading(s *figure.Surface, bar figure.Rect, x float64, a kinematics.Answer, side float64) {
	l, p := c.look, c.look.Palette
	text := c.reading(a)
	t := figure.TextStyle{Font: l.font(0.85), Colour: p.Ink, Plate: figure.Fade(p.Paper, 0.85)}
	if a.BeyondNative() || present.StatusKey(a) != "limit" {
		t.Colour = p.Soft
	}
	gap := 0.6 * l.Text
	room := bar.Max.X - x
	if side < 0 {
		room = x - bar.Min.X
	}
	out := side
	if room < t.Width(text)+1.5*gap {
		out = -side
	}
	align := figure.Left
	if out < 0 {
		align = figure.Right
	}
	s.Text(figure.Pt(x+out*gap, bar.Centre().Y), text, t.At(align, figure.Middle))
}

// reading returns a limit in words, with its hour where a contact counts.
func (c *rulerChart) reading(a kinematics.Answer) string {
	row := c.look.Words.Row(&kinematics.Case{Hip: c.Hip}, a)
	switch {
	case present.StatusKey(a) == "limit" && !row.Grey:
		return c.look.Phrase("list", "first", row.Reading, "rest", row.Clock)
	case a.Reached:
		return row.Reading
	}
	return row.Status
}

// drawMarker draws the posture as a needle on each ruler. Its head is hollow
// where the posture's other angles are not those of the ruler.
func (c *rulerChart) drawMarker(s *figure.Surface) {
	p, size := c.look.Palette, 0.55*c.look.Text
	for _, r := range c.rulers {
		v := c.Posture.Angle(r.angle)
		x := r.x(v.Degrees())
		bottom := r.bar(max(len(c.Designs)-1, 0), len(c.Designs)).Max.Y + 2
		s.Line(figure.Pt(x, r.box.Min.Y), figure.Pt(x, bottom), figure.Stroke{Colour: p.Paper, Width: 3.4})
		s.Line(figure.Pt(x, r.box.Min.Y-1), figure.Pt(x, bottom), figure.Stroke{Colour: p.Ink, Width: 1.8})
		head := figure.Triangle(figure.Pt(x, r.box.Min.Y-0.6*size), size, -90)
		own := hip.Posture{Flexion: r.flexion}.With(r.angle, v)
		if turn(own, c.Posture) > 0.5*unit.Degree {
			s.Polygon(head, figure.Solid(p.Paper))
			s.Outline(head, figure.Stroke{Colour: p.Ink, Width: 1.2})
			continue
		}
		s.Polygon(head, figure.Solid(p.Ink))
	}
}
