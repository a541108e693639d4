package chart

import (
	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

// Course is the margin over the time of a motion.
type Course struct {
	Times   []float64 // s
	Margins []unit.Angle
	Stops   bool    // it meets the rim, first at Contact
	Contact float64 // s
	Now     float64 // s, where the needle stands
	Here    unit.Angle
	Close   unit.Angle // a margin below it counts as close
}

// Least and greatest margins that a track always shows, degrees.
const (
	trackLow  = -6
	trackHigh = 20
)

// MarginTrack draws the margin along a motion, as it lies under a scrub bar:
// free above the line, hatched below it, with a cross at the first contact.
func MarginTrack(c Course, l Look) figure.Figure {
	l = l.complete()
	t := marginTrack{c, l, figure.Frame{}}
	t.layout()
	return figure.Figure{
		Title: l.Phrase("chart_margin_track"), Alt: t.alt(), Size: l.Size, Paper: l.Palette.Paper,
		Static: t.drawStatic, Marker: t.drawMarker, Plot: t.frame,
	}
}

type marginTrack struct {
	Course
	look  Look
	frame figure.Frame
}

func (t *marginTrack) layout() {
	end := 1.0
	if n := len(t.Times); n > 0 && t.Times[n-1] > 0 {
		end = t.Times[n-1]
	}
	lo, hi := float64(trackLow), float64(trackHigh)
	for _, m := range t.Margins {
		lo, hi = min(lo, m.Degrees()), max(hi, m.Degrees())
	}
	box := figure.Rect{Max: t.look.Size}.Trim(6, 3, 6, 3)
	t.frame = figure.Frame{Box: box, X: figure.Axis{Min: 0, Max: end}, Y: figure.Axis{Min: lo, Max: min(hi, 60)}}
}

func (t *marginTrack) alt() string {
	if t.Stops {
		return t.look.Phrase("chart_margin_track_stops", "time", t.look.number(t.Contact, 1))
	}
	return t.look.Phrase("chart_margin_track_free")
}

// line is the margin on the surface.
func (t *marginTrack) line() []figure.Point {
	line := make([]figure.Point, len(t.Times))
	for i, s := range t.Times {
		line[i] = t.frame.At(s, min(t.Margins[i].Degrees(), t.frame.Y.Max))
	}
	return line
}

func (t *marginTrack) drawStatic(s *figure.Surface) {
	p, box := t.look.Palette, t.frame.Box
	if len(t.Times) == 0 {
		s.Outline(box.Ring(), figure.Stroke{Colour: p.Grid, Width: 0.8})
		s.Text(box.Centre(), t.look.Phrase("chart_margin_track"), t.look.soft(1).At(figure.Centre, figure.Middle))
		return
	}
	zero := t.frame.At(0, 0).Y
	s.PushClip(box.Ring())
	s.Polygon(figure.Rect{Min: figure.Pt(box.Min.X, zero), Max: box.Max}.Ring(), forbidden(p))
	if line := t.line(); len(line) > 1 {
		ring := append(line[:len(line):len(line)], figure.Pt(line[len(line)-1].X, zero), figure.Pt(line[0].X, zero))
		s.PushClip(figure.Rect{Min: box.Min, Max: figure.Pt(box.Max.X, zero)}.Ring())
		s.Polygon(ring, figure.Solid(tints(p)[1]))
		s.PopClip()
		s.Polyline(line, figure.Stroke{Colour: p.Ink, Width: 1.5})
	}
	edge := t.frame.At(0, t.Close.Degrees()).Y
	s.Line(figure.Pt(box.Min.X, edge), figure.Pt(box.Max.X, edge), figure.Stroke{Colour: p.Close.Line, Width: 1, Dash: []float64{1.5, 3}})
	s.Line(figure.Pt(box.Min.X, zero), figure.Pt(box.Max.X, zero), figure.Stroke{Colour: p.Contact.Line, Width: 1.2})
	if t.Stops {
		s.Polylines(figure.Cross(t.frame.At(t.Contact, 0), 0.4*t.look.Text), figure.Stroke{Colour: p.Contact.Line, Width: 2.2})
	}
	s.PopClip()
	s.Outline(box.Ring(), figure.Stroke{Colour: p.Axis, Width: 0.8})
}

// drawMarker draws the needle where the motion is at.
func (t *marginTrack) drawMarker(s *figure.Surface) {
	if len(t.Times) == 0 {
		return
	}
	p, box := t.look.Palette, t.frame.Box
	x := t.frame.At(t.Now, 0).X
	s.Line(figure.Pt(x, box.Min.Y), figure.Pt(x, box.Max.Y), figure.Stroke{Colour: p.Ink, Width: 1.6})
	y := min(max(t.Here.Degrees(), t.frame.Y.Min), t.frame.Y.Max)
	tone := p.Ink
	if t.Here <= kinematics.Touch {
		tone = p.Contact.Line
	}
	at := t.frame.At(t.Now, y)
	s.Polygon(figure.Disc(at, 5.5, 0), figure.Solid(p.Paper))
	s.Polygon(figure.Disc(at, 4, 0), figure.Solid(tone))
}
