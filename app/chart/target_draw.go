package chart

import (
	"rimclear/app/figure"
	"rimclear/kinematics"
)

// Shares of placements, in percent, at which the layer's tints begin.
var shareLevels = []float64{10, 50, 80, 95}

// drawGround draws what does not move with the margins: the forbidden side,
// axes and legend.
func (m *targetMap) drawGround(s *figure.Surface) {
	s.Polygon(m.frame.Box.Ring(), forbidden(m.look.Palette))
	m.frame.Draw(s, m.look.Palette)
	if m.explained {
		m.legend().Draw(s, m.foot, m.look.Palette)
	}
}

func (m *targetMap) drawStatic(s *figure.Surface) {
	m.drawGround(s)
	m.drawOver(s)
}

// drawOver draws the free side on the ground, and what lies over it.
func (m *targetMap) drawOver(s *figure.Surface) {
	p, f := m.look.Palette, m.field()
	s.PushClip(m.frame.Box.Ring())
	m.drawAbsent(s)
	if m.Share != nil {
		s.Polygon(m.frame.Box.Ring(), figure.Solid(figure.Fade(p.Paper, 0.55)))
		figure.FillContours(s, m.frame, m.shareField(), shareLevels, tints(p))
	} else if m.Asked {
		figure.FillContours(s, m.frame, f, marginLevels, tints(p))
		figure.DrawContours(s, m.frame, f, marginLevels[1:], figure.Stroke{Colour: p.Free.Line, Width: 0.7})
	}
	m.frame.DrawGrid(s, figure.Palette{Grid: figure.Fade(p.Ink, 0.08)})
	if m.Asked {
		figure.DrawContours(s, m.frame, f, []float64{0}, figure.Stroke{Colour: p.Ink, Width: 1.8})
	}
	m.drawBounds(s)
	b := labels{within: m.frame.Box.Inset(2)}
	m.drawNowhere(s, &b, f)
	zones := m.outlineZones(s)
	b.take(m.place(m.spot(m.Designs[m.Active])), 2*m.look.Text)
	for _, c := range [2]*kinematics.Cup{m.Best, m.Most} {
		if c != nil && m.kind() == kinematics.CupMap {
			b.take(m.place(m.cup(*c, 0)), 1.4*m.look.Text)
		}
	}
	m.nameZones(s, &b, zones)
	m.drawLevels(s, &b, f)
	s.PopClip()
	s.Outline(m.frame.Box.Ring(), figure.Stroke{Colour: p.Axis, Width: 0.8})
}

// drawLevels names the contours.
func (m *targetMap) drawLevels(s *figure.Surface, b *labels, f figure.Field) {
	l, p := m.look, m.look.Palette
	t := figure.TextStyle{Font: l.font(0.85), Colour: p.Free.Text, Plate: figure.Fade(p.Paper, 0.8)}
	switch {
	case m.Share != nil:
		b.named(s, m.frame, m.shareField(), shareLevels, t, func(v float64) string { return figure.Number(v, 0) + " %" })
	case m.Asked:
		b.named(s, m.frame, f, marginLevels, t, func(v float64) string { return figure.Number(v, 0) + "°" })
	}
}

// drawNowhere says so where no position on the map serves.
func (m *targetMap) drawNowhere(s *figure.Surface, b *labels, f figure.Field) {
	l, p := m.look, m.look.Palette
	if lo, hi, _ := f.Range(); m.Asked && hi <= 0 && lo < 0 {
		c, t := m.frame.Box.Centre(), figure.TextStyle{Font: l.font(1), Colour: p.Contact.Text, Plate: p.Paper}
		b.put(s, l.Phrase("chart_nowhere"), t, figure.Pt(c.X, m.frame.Box.Max.Y-2*t.LineHeight()), c)
	}
}

func (m *targetMap) boundStroke() figure.Stroke {
	return figure.Stroke{Colour: m.look.Palette.Contact.Line, Width: 1.1, Dash: []float64{2, 3}}
}

// drawBounds draws the edges of what the best cup is held to.
func (m *targetMap) drawBounds(s *figure.Surface) {
	bounds := m.Goal.Bounds(m.Hip, m.Designs[m.Active])
	g, box := m.grid(), m.frame.Box
	if m.kind() == kinematics.PairMap || bounds.Definition != g.Definition || bounds.Plane != g.Plane {
		return
	}
	var lines [][]figure.Point
	across, up := bounds.Inclination, bounds.Anteversion
	if m.kind() == kinematics.VersionMap {
		across = bounds.Anteversion
	}
	if across.Present() {
		for _, v := range [2]float64{across.Least.Degrees(), across.Most.Degrees()} {
			x := m.frame.At(v, 0).X
			lines = append(lines, []figure.Point{{X: x, Y: box.Min.Y}, {X: x, Y: box.Max.Y}})
		}
	}
	if up.Present() && m.kind() == kinematics.CupMap {
		for _, v := range [2]float64{up.Least.Degrees(), up.Most.Degrees()} {
			y := m.frame.At(0, v).Y
			lines = append(lines, []figure.Point{{X: box.Min.X, Y: y}, {X: box.Max.X, Y: y}})
		}
	}
	s.Polylines(lines, m.boundStroke())
}

func (m *targetMap) scatterStroke() figure.Stroke {
	return figure.Stroke{Colour: m.look.Palette.Designs[m.Active%4].Line, Width: 1.4, Dash: []float64{5, 3}}
}

// drawMarker draws where the cups are placed, the scatter about the active one,
// and the best.
func (m *targetMap) drawMarker(s *figure.Surface) {
	s.PushClip(m.frame.Box.Ring())
	defer s.PopClip()
	active := m.Designs[m.Active]
	at := m.place(m.spot(active))
	if x, y := m.deviations(); x > 0 && y > 0 {
		zero := m.frame.At(0, 0)
		one := m.frame.At(x, y).Sub(zero)
		s.Outline(figure.Ellipse(at, 2*one.X, -2*one.Y, 0), m.scatterStroke())
	}
	if p, ok := m.Peak(); ok {
		m.diamond(s, m.place(p), true)
	}
	if m.Best != nil && m.kind() == kinematics.CupMap {
		m.diamond(s, m.place(m.cup(*m.Best, 0)), true)
	}
	if m.Most != nil && m.kind() == kinematics.CupMap {
		m.diamond(s, m.place(m.cup(*m.Most, 0)), false)
	}
	for i, d := range m.Designs {
		if i != m.Active {
			m.ring(s, m.place(m.spot(d)), i, 0.42*m.look.Text)
		}
	}
	m.ring(s, at, m.Active, 0.75*m.look.Text)
}

func (m *targetMap) place(p figure.Point) figure.Point { return m.frame.At(p.X, p.Y) }

// ring marks a placed cup.
func (m *targetMap) ring(s *figure.Surface, at figure.Point, design int, r float64) {
	p := m.look.Palette
	s.Outline(figure.Disc(at, r, 0), figure.Stroke{Colour: p.Paper, Width: 5.5})
	s.Outline(figure.Disc(at, r, 0), figure.Stroke{Colour: p.Designs[design%4].Line, Width: 2.8})
	if r > 0.6*m.look.Text {
		s.Polygon(figure.Disc(at, 1.8, 0), figure.Solid(p.Designs[design%4].Line))
	}
}

// diamond marks a best cup: filled for the greatest margin, open for the
// greatest share.
func (m *targetMap) diamond(s *figure.Surface, at figure.Point, filled bool) {
	p, r := m.look.Palette, 0.52*m.look.Text
	s.Polygon(figure.Diamond(at, r+2), figure.Solid(p.Paper))
	if filled {
		s.Polygon(figure.Diamond(at, r), figure.Solid(p.Ink))
		return
	}
	s.Outline(figure.Diamond(at, r-0.5), figure.Stroke{Colour: p.Ink, Width: 1.6})
}
