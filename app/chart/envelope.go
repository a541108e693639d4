package chart

import (
	"sync"

	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

// Contours of the margin, degrees. The zero contour is the envelope.
var marginLevels = []float64{0, 5, 10, 20}

// slice returns the chart of a slice: margin over two joint angles, the third
// held at the posture's value.
func slice(key string, k kinematics.SliceKind) Chart {
	return Chart{Key: key, Still: heldIn(k), Draw: func(s Subject, l Look) figure.Figure {
		l = l.complete()
		e := sliceChart{Subject: s, look: l, slice: kinematics.StandardSlice(k, s.Posture)}
		e.layout()
		e.fields = sync.OnceValue(e.sample)
		title := l.Words("chart_" + key)
		return figure.Figure{
			Title: title, Alt: e.alt(title), Size: l.Size, Paper: l.Palette.Paper,
			Static: e.drawStatic, Marker: e.drawMarker, Plot: e.frame,
		}
	}}
}

// heldIn returns the posture without the two angles that a slice varies.
func heldIn(k kinematics.SliceKind) func(Subject) hip.Posture {
	return func(s Subject) hip.Posture {
		sl := kinematics.StandardSlice(k, s.Posture)
		return sl.Held.With(sl.Across.Angle, 0).With(sl.Up.Angle, 0)
	}
}

// sliceChart is one drawing of a slice.
type sliceChart struct {
	Subject
	look   Look
	slice  kinematics.Slice
	frame  figure.Frame
	head   figure.Point // where the legend of the designs begins
	foot   figure.Point // where the legend of the areas begins
	fields func() []figure.Field
}

func (e *sliceChart) layout() {
	l, f := e.look, e.look.font(1)
	axis := func(a kinematics.Axis) figure.Axis {
		lo, hi := a.From.Degrees(), a.To.Degrees()
		return figure.Axis{Min: lo, Max: hi, Ticks: unsigned(lo, hi, tickStep(a)), Grid: true}
	}
	pad := 0.6 * f.Size
	outer := figure.Rect{Max: l.Size}.Inset(pad)
	e.head = outer.Min
	e.foot = figure.Pt(outer.Min.X, outer.Max.Y-e.areas().Size().Y)
	line := f.LineHeight()
	outer = outer.Trim(line, line+0.3*f.Size, 0, line+outer.Max.Y-e.foot.Y+0.2*f.Size)
	e.frame = figure.NewFrame(outer, axis(e.slice.Across), axis(e.slice.Up), l.font(0.92))
}

// tickStep leaves about five marks on an axis.
func tickStep(a kinematics.Axis) float64 {
	if (a.To - a.From).Degrees() > 180 {
		return 40
	}
	return 20
}

// sample returns the margin of each design over the slice, in degrees.
func (e *sliceChart) sample() []figure.Field {
	fields := make([]figure.Field, len(e.Designs))
	for i, d := range e.Designs {
		fields[i] = fieldOf(d.Joint.Region(e.slice))
	}
	return fields
}

// fieldOf returns a region in degrees.
func fieldOf(r kinematics.Region) figure.Field {
	f := figure.Field{X: values(r.Slice.Across), Y: values(r.Slice.Up), Z: make([]float64, len(r.Margin))}
	for i, m := range r.Margin {
		f.Z[i] = m.Degrees()
	}
	return f
}

func values(a kinematics.Axis) []float64 {
	v := make([]float64, a.Count)
	for i := range v {
		v[i] = a.At(i).Degrees()
	}
	return v
}

func (e *sliceChart) drawStatic(s *figure.Surface) {
	p, box := e.look.Palette, e.frame.Box.Ring()
	s.PushClip(box)
	e.drawAreas(s)
	e.frame.DrawGrid(s, figure.Palette{Grid: figure.Fade(p.Ink, 0.08)})
	e.drawNative(s)
	e.drawLines(s)
	s.PopClip()
	e.frame.Draw(s, p)
	e.drawWords(s)
}

// drawAreas fills the free side, the more the farther from contact, and
// hatches the other.
func (e *sliceChart) drawAreas(s *figure.Surface) {
	p := e.look.Palette
	s.Polygon(e.frame.Box.Ring(), p.Forbidden())
	if _, ok := e.active(); ok {
		figure.FillContours(s, e.frame, e.fields()[e.Active], marginLevels, tints(p))
	}
}
