package chart

import (
	"math"

	"rimclear/app/figure"
)

// tints are the fills of the free side from each of marginLevels up.
func tints(p figure.Palette) []figure.Colour {
	c := make([]figure.Colour, len(marginLevels))
	for i := range c {
		c[i] = p.Ramp(0.18 * float64(i+1))
	}
	return c
}

// forbidden is the fill where neck and rim would overlap. Its lines are a whole
// number of points apart along the axes, so that all fall alike on pixels.
func forbidden(p figure.Palette) figure.Fill {
	f := p.Forbidden()
	f.Pattern.Pitch = 8 / math.Sqrt2
	return f
}

// beyond is the fill of what is free of contact where bone and soft tissue
// stop first.
func beyond(p figure.Palette) figure.Colour {
	return figure.Mix(tints(p)[1], p.Beyond.Fill.Colour, 0.6)
}

func (e *sliceChart) drawStatic(s *figure.Surface) {
	p := e.look.Palette
	s.PushClip(e.frame.Box.Ring())
	e.drawWithin(s, e.frame, e.fields(), e.nativeOutline())
	e.frame.DrawGrid(s, figure.Palette{Grid: figure.Fade(p.Ink, 0.08)})
	e.drawZeros(s)
	e.drawEnvelopes(s, e.frame, e.fields())
	s.PopClip()
	e.drawLabels(s)
	e.frame.Draw(s, p)
	e.drawEnds(s)
	e.drawAround(s, e.held())
}

// drawZeros draws the lines on which the two angles are neutral.
func (e *sliceChart) drawZeros(s *figure.Surface) {
	box, zero := e.frame.Box, e.frame.At(0, 0)
	s.Polylines([][]figure.Point{
		{{X: zero.X, Y: box.Min.Y}, {X: zero.X, Y: box.Max.Y}},
		{{X: box.Min.X, Y: zero.Y}, {X: box.Max.X, Y: zero.Y}},
	}, figure.Stroke{Colour: figure.Fade(e.look.Palette.Ink, 0.2), Width: 0.8})
}

// nativeOutline returns the native ranges on the surface.
func (e *sliceChart) nativeOutline() []figure.Point {
	var ring []figure.Point
	for _, v := range nativeRing(e.slice) {
		ring = append(ring, e.frame.At(v[0], v[1]))
	}
	return ring
}

// drawLabels names the contours of the margin and the grey area.
func (e *sliceChart) drawLabels(s *figure.Surface) {
	l, p := e.look, e.look.Palette
	b := labels{within: e.frame.Box}
	t := figure.TextStyle{Font: l.font(0.82), Colour: p.Beyond.Text, Plate: figure.Fade(p.Paper, 0.8)}
	b.put(s, l.Phrase("chart_beyond"), t, e.nativePlaces(t)...)
	if _, ok := e.active(); !ok {
		return
	}
	t.Colour = p.Free.Text
	b.contours(s, e.frame, e.fields()[e.Active], marginLevels[1:], t)
}

// nativePlaces returns where the grey area may be named: under or over the
// native ranges, else at the top of the chart.
func (e *sliceChart) nativePlaces(t figure.TextStyle) []figure.Point {
	box := e.frame.Box
	top := figure.Pt(box.Centre().X, box.Min.Y+t.LineHeight())
	ring, ok := figure.Bounds(e.nativeOutline())
	if !ok {
		return []figure.Point{top}
	}
	x := ring.Centre().X
	return []figure.Point{{X: x, Y: ring.Max.Y + t.LineHeight()}, {X: x, Y: ring.Min.Y - t.LineHeight()}, top}
}

// drawEnds names the ends of the axes.
func (e *sliceChart) drawEnds(s *figure.Surface) {
	l, box := e.look, e.frame.Box
	end := l.ink(1)
	left, right := l.ends(e.slice.Across.Angle)
	low, high := l.ends(e.slice.Up.Angle)
	y := e.body.Max.Y - end.Descent()
	flat := beside(end, box.Max.X-box.Min.X, left, right)
	s.Text(figure.Pt(box.Min.X, y), left, flat.At(figure.Left, figure.Baseline))
	s.Text(figure.Pt(box.Max.X, y), right, flat.At(figure.Right, figure.Baseline))
	x := e.body.Min.X + end.Ascent()
	up := beside(end, box.Max.Y-box.Min.Y, low, high)
	up.Turn = 90
	s.Text(figure.Pt(x, box.Max.Y), low, up.At(figure.Left, figure.Baseline))
	s.Text(figure.Pt(x, box.Min.Y), high, up.At(figure.Right, figure.Baseline))
}

// beside returns letters as large as those of t or so much smaller that two
// texts have room side by side.
func beside(t figure.TextStyle, wide float64, a, b string) figure.TextStyle {
	if need := t.Width(a) + t.Width(b) + t.LineHeight()/2; need > wide {
		t.Size *= wide / need
	}
	return t
}
