package chart

import (
	"math"

	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

// near is the margin under which a posture counts as close to contact; our own
// choice, no source.
const near = 5 * unit.Degree

// drawMarker draws the posture with a hair line to each axis. Beyond the ends
// of the axes it becomes an arrow at the edge.
func (e *sliceChart) drawMarker(s *figure.Surface) {
	box, p := e.frame.Box, e.look.Palette
	at := e.frame.At(e.Posture.Angle(e.slice.Across.Angle).Degrees(), e.Posture.Angle(e.slice.Up.Angle).Degrees())
	in := figure.Pt(min(max(at.X, box.Min.X), box.Max.X), min(max(at.Y, box.Min.Y), box.Max.Y))
	hair := figure.Stroke{Colour: figure.Fade(p.Ink, 0.45), Width: 0.8}
	s.Line(figure.Pt(in.X, box.Min.Y), figure.Pt(in.X, box.Max.Y), hair)
	s.Line(figure.Pt(box.Min.X, in.Y), figure.Pt(box.Max.X, in.Y), hair)
	if in != at {
		s.Polygon(figure.Triangle(in, 0.6*e.look.Text, heading(in, at)), figure.Solid(p.Ink))
		return
	}
	j, ok := e.active()
	if !ok {
		return
	}
	drawState(s, e.look, in, j.Margin(e.Posture))
}

// heading returns the direction from a to b in degrees as the reader sees it.
func heading(a, b figure.Point) float64 { return math.Atan2(a.Y-b.Y, b.X-a.X) * 180 / math.Pi }

// drawState draws a posture as its state's shape: a disc where free, a ring
// with a point where close, a cross in contact.
func drawState(s *figure.Surface, l Look, at figure.Point, margin unit.Angle) {
	p, r := l.Palette, 0.52*l.Text
	disc := figure.Disc(at, r, 0)
	s.Polygon(figure.Disc(at, r+1.6, 0), figure.Solid(p.Paper))
	switch {
	case margin <= kinematics.Touch:
		s.Polygon(disc, figure.Solid(p.Contact.Line))
		s.Polylines(figure.Cross(at, 0.5*r), figure.Stroke{Colour: p.Paper, Width: 1.8})
	case margin < near:
		s.Outline(disc, figure.Stroke{Colour: p.Close.Line, Width: 2})
		s.Polygon(figure.Disc(at, 0.4*r, 0), figure.Solid(p.Close.Line))
	default:
		s.Polygon(disc, figure.Solid(p.Ink))
	}
}
