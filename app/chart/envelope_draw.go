package chart

import (
	"rimclear/app/figure"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// tints are the fills of the free side from each of marginLevels up.
func tints(p figure.Palette) []figure.Colour {
	c := make([]figure.Colour, len(marginLevels))
	for i := range c {
		c[i] = p.Ramp(0.18 * float64(i+1))
	}
	return c
}

// veil is laid over what bone and soft tissue forbid.
func veil(p figure.Palette) figure.Fill {
	return figure.Solid(figure.Fade(p.Beyond.Fill.Colour, 0.72))
}

// drawNative greys what lies beyond the native passive ranges.
func (e *sliceChart) drawNative(s *figure.Surface) {
	p := e.look.Palette
	outside := [][]figure.Point{e.frame.Box.Ring()}
	if ring := e.nativeOutline(); len(ring) > 2 {
		outside = append(outside, figure.Reversed(ring))
		s.Polygons(outside, veil(p))
		s.Outline(ring, figure.Stroke{Colour: p.Beyond.Line, Width: 0.8, Dash: []float64{3, 2}})
		return
	}
	s.Polygons(outside, veil(p))
}

// nativeOutline returns the native ranges on the surface, clockwise as
// figure.Rect.Ring runs.
func (e *sliceChart) nativeOutline() []figure.Point {
	var ring []figure.Point
	for _, v := range nativeRing(e.slice) {
		ring = append(ring, e.frame.At(v[0], v[1]))
	}
	return ring
}

// drawLines draws the margin of the active design as thin lines and the
// envelope of each design in its own look, the active one last and bold.
func (e *sliceChart) drawLines(s *figure.Surface) {
	p := e.look.Palette
	for i, f := range e.fields() {
		if i != e.Active && i < len(p.Designs) {
			figure.DrawContours(s, e.frame, f, []float64{0}, p.Designs[i].Stroke(1.5))
		}
	}
	if _, ok := e.active(); !ok {
		return
	}
	f := e.fields()[e.Active]
	figure.DrawContours(s, e.frame, f, marginLevels[1:], figure.Stroke{Colour: p.Free.Line, Width: 0.7})
	figure.DrawContours(s, e.frame, f, []float64{0}, p.Designs[e.Active%len(p.Designs)].Stroke(2.6))
	label := figure.TextStyle{Font: e.look.font(0.82), Colour: p.Free.Text, Plate: figure.Fade(p.Paper, 0.8)}
	figure.LabelContours(s, e.frame, f, marginLevels[1:], label, func(v float64) string { return degrees(unit.Angle(v) * unit.Degree) })
}

// drawWords names the ends of the axes, the angle held, the designs and the
// areas.
func (e *sliceChart) drawWords(s *figure.Surface) {
	l, box := e.look, e.frame.Box
	end := l.ink(1)
	across, up := directions[e.slice.Across.Angle], directions[e.slice.Up.Angle]
	y := e.foot.Y - 0.2*l.Text - end.Descent()
	s.Text(figure.Pt(box.Min.X, y), "← "+l.Words(across[0]), end.At(figure.Left, figure.Baseline))
	s.Text(figure.Pt(box.Max.X, y), l.Words(across[1])+" →", end.At(figure.Right, figure.Baseline))
	x := e.head.X + end.Ascent()
	end.Turn = 90
	s.Text(figure.Pt(x, box.Max.Y), "← "+l.Words(up[0]), end.At(figure.Left, figure.Baseline))
	s.Text(figure.Pt(x, box.Min.Y), l.Words(up[1])+" →", end.At(figure.Right, figure.Baseline))

	middle := e.head.Y + l.font(1).LineHeight()/2
	s.Text(figure.Pt(box.Max.X, middle), e.heldWords(), l.soft(1).At(figure.Right, figure.Middle))
	e.designs().Draw(s, figure.Pt(box.Min.X, e.head.Y), l.Palette)
	e.areas().Draw(s, e.foot, l.Palette)
}

func (e *sliceChart) heldWords() string {
	a := 3 - e.slice.Across.Angle - e.slice.Up.Angle
	return e.look.angle(a, e.slice.Held.Angle(a))
}

// angle returns the words "at 10° abduction".
func (l Look) angle(a hip.JointAngle, v unit.Angle) string {
	if v.Degrees() > -0.5 && v < 0 {
		v = 0
	}
	return l.say("chart_held", "angle", degrees(v.Abs()), "direction", l.towards(a, v))
}

// designs is the legend of the envelopes.
func (e *sliceChart) designs() figure.Legend {
	g := figure.Legend{Font: e.look.font(1), Row: true}
	for i := range e.Designs {
		d := e.look.Palette.Designs[i%4]
		st := d.Stroke(1.5)
		if i == e.Active {
			st.Width = 2.6
		}
		g.Entries = append(g.Entries, figure.Entry{Label: d.Name, Line: st})
	}
	return g
}

// areas is the legend of the fills.
func (e *sliceChart) areas() figure.Legend {
	p := e.look.Palette
	edge := figure.Stroke{Colour: p.Axis, Width: 0.6}
	return figure.Legend{
		Font: e.look.font(0.92), Row: true, Width: e.look.Size.X - 1.2*e.look.Text,
		Entries: []figure.Entry{
			{Label: e.look.Words("chart_free"), Fill: figure.Solid(tints(p)[2]), Line: edge},
			{Label: e.look.Words("chart_contact"), Fill: p.Forbidden(), Line: edge},
			{Label: e.look.Words("chart_beyond"), Fill: figure.Solid(p.Beyond.Fill.Colour), Line: edge},
		},
	}
}

func (e *sliceChart) alt(title string) string { return title + ", " + e.heldWords() + "." }
