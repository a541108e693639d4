package chart

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

func (g *globeChart) radius() float64 { return g.frame.Box.W() / 2 }

func (g *globeChart) drawStatic(s *figure.Surface) {
	p := g.look.Palette
	disc := figure.Disc(g.frame.Box.Centre(), g.radius(), 180)
	s.PushClip(disc)
	g.drawWithin(s, g.frame, g.fields(), g.nativeOutline())
	g.drawGraticule(s)
	g.drawEnvelopes(s, g.frame, g.fields())
	s.PopClip()
	s.Outline(disc, figure.Stroke{Colour: p.Axis, Width: 1.2})
	g.drawLabels(s)
	g.drawAround(s, g.held())
}

// nativeOutline returns the native passive ranges on the surface. What is
// hidden lies beyond the edge of the disc, in its own direction.
func (g *globeChart) nativeOutline() []figure.Point {
	const step = 4 // degrees
	ring := nativeRing(kinematics.StandardSlice(kinematics.FlexionByAdduction, g.Posture))
	var out []figure.Point
	for i, from := range ring {
		to := ring[(i+1)%len(ring)]
		n := math.Ceil(math.Hypot(to[0]-from[0], to[1]-from[1]) / step)
		for k := 0.0; k < n; k++ {
			f := k / n
			x, y, depth := g.eye.see(kinematics.ShaftDirection(thigh(from[0]+f*(to[0]-from[0]), from[1]+f*(to[1]-from[1]))))
			if depth < 0 {
				h := math.Hypot(x, y) / 1.1
				x, y = x/h, y/h
			}
			out = append(out, g.frame.At(x, y))
		}
	}
	return out
}

// drawGraticule draws lines of equal flexion and of equal adduction every 30°.
func (g *globeChart) drawGraticule(s *figure.Surface) {
	var lines [][]figure.Point
	line := func(at func(k float64) hip.Posture, from, to float64) {
		var l []figure.Point
		for k := from; k <= to; k += 5 {
			l = append(l, g.place(at(k)))
		}
		lines = append(lines, l)
	}
	for a := -150.0; a <= 180; a += 30 {
		line(func(k float64) hip.Posture { return thigh(a, k) }, -90, 90)
	}
	for a := -60.0; a <= 60; a += 30 {
		line(func(k float64) hip.Posture { return thigh(k, a) }, -180, 180)
	}
	s.Polylines(lines, figure.Stroke{Colour: figure.Fade(g.look.Palette.Ink, 0.16), Width: 0.7})
}

// thigh returns the posture of a flexion and an adduction in degrees.
func thigh(flexion, adduction float64) hip.Posture {
	return hip.Posture{Flexion: unit.Angle(flexion) * unit.Degree, Adduction: unit.Angle(adduction) * unit.Degree}
}

// globeMark is an anatomical direction of a right hip with its name.
type globeMark struct {
	name string
	dir  r3.Vec
}

func (l Look) globeMarks() []globeMark {
	return []globeMark{
		{l.Phrase("chart_anterior"), r3.Vec{X: 1}},
		{l.Phrase("chart_inferior"), r3.Vec{Y: -1}},
		{l.Phrase("chart_lateral"), r3.Vec{Z: 1}},
		{l.Phrase("chart_superior"), r3.Vec{Y: 1}},
		{l.Phrase("chart_medial"), r3.Vec{Z: -1}},
	}
}

// drawLabels writes the anatomical directions, the degrees of the graticule
// and those of the contours.
func (g *globeChart) drawLabels(s *figure.Surface) {
	l, p := g.look, g.look.Palette
	b := labels{within: g.body}
	mark := figure.TextStyle{Font: figure.Font{Size: 0.82 * l.Text, Bold: true}, Colour: p.Ink, Plate: figure.Fade(p.Paper, 0.8)}
	for _, m := range l.globeMarks() {
		x, y, depth := g.eye.see(m.dir)
		at := g.frame.At(x, y)
		if depth > 0 {
			s.Polygon(figure.Diamond(at, 0.4*l.Text), figure.Solid(p.Ink))
			b.take(at, 0.8*l.Text)
			below, above := figure.Pt(at.X, at.Y+1.1*l.Text), figure.Pt(at.X, at.Y-1.1*l.Text)
			b.put(s, m.name, mark, above, below)
			continue
		}
		g.drawBehind(s, &b, m.name, mark, at)
	}
	degree := figure.TextStyle{Font: l.font(0.82), Colour: p.Soft, Plate: figure.Fade(p.Paper, 0.6)}
	named := func(a hip.JointAngle, v float64) string {
		return l.Phrase("chart_angle", l.reading(a, unit.Angle(v)*unit.Degree)...)
	}
	for _, v := range []float64{-30, 30} {
		b.put(s, named(hip.Flexion, v), degree, g.place(thigh(v, 0)))
		b.put(s, named(hip.Adduction, v), degree, g.place(thigh(15, v)), g.place(thigh(45, v)))
	}
	for _, v := range []float64{60, 120} {
		b.put(s, unsignedLabel(v), degree, g.place(thigh(v, 0)))
	}
	if _, ok := g.active(); ok {
		degree.Colour, degree.Plate = p.Free.Text, figure.Fade(p.Paper, 0.8)
		b.contours(s, g.frame, g.fields()[g.Active], marginLevels[1:], degree)
	}
}

// drawBehind names a direction on the far half with an arrow at the edge of
// the globe.
func (g *globeChart) drawBehind(s *figure.Surface, b *labels, text string, t figure.TextStyle, at figure.Point) {
	c, r := g.frame.Box.Centre(), g.radius()
	to := heading(c, at)
	s.Polygon(figure.Triangle(c.Polar(r+0.35*t.Size, to), 0.42*t.Size, to), figure.Solid(t.Colour))
	sin, cos := math.Sincos(to * math.Pi / 180)
	w := t.Width(text) / 2
	beside := c.Polar(r+0.9*t.Size, to).Add(figure.Pt(cos*w, -sin*0.5*t.Size))
	over := c.Polar(r+1.4*t.Size, to)
	step := figure.Pt(0, 1.2*t.Size)
	b.put(s, text, t, beside, over, beside.Add(step), beside.Sub(step))
}

// drawMarker draws the thigh as a rod from the hip centre to its direction; on
// the far half the rod is dashed and ends in a ring.
func (g *globeChart) drawMarker(s *figure.Surface) {
	p := g.look.Palette
	x, y, depth := g.eye.see(kinematics.ShaftDirection(g.Posture))
	from, to := g.frame.Box.Centre(), g.frame.At(x, y)
	rod := figure.Stroke{Colour: figure.Fade(p.Ink, 0.55), Width: 0.3 * g.look.Text}
	if depth < 0 {
		rod.Dash, rod.Width = []float64{4, 3}, 0.15*g.look.Text
	}
	s.Line(from, to, rod)
	j, ok := g.active()
	if !ok {
		return
	}
	if depth < 0 {
		s.Outline(figure.Disc(to, 0.5*g.look.Text, 0), figure.Stroke{Colour: p.Ink, Width: 1.5})
		return
	}
	drawState(s, g.look, to, j.Margin(g.Posture))
}
