package chart

import (
	"math"
	"sync"

	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

// Contours of the margin, degrees. The zero contour is the envelope.
var marginLevels = []float64{0, 5, 10, 20}

// slice returns the chart of a slice: margin over two joint angles, the third
// held at the posture's value.
func slice(key string, k kinematics.SliceKind, title func(*present.Words) string) Chart {
	return Chart{Key: key, Title: title, Still: heldIn(k), Draw: func(s Subject, l Look) figure.Figure {
		l = l.complete()
		e := sliceChart{page: newPage(s, l), slice: kinematics.StandardSlice(k, s.Posture)}
		e.layout()
		e.fields = sync.OnceValue(e.sample)
		name := title(l.Words)
		return figure.Figure{
			Title: name, Alt: e.alt(name, e.held()), Size: l.Size, Paper: l.Palette.Paper,
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
	page
	slice  kinematics.Slice
	frame  figure.Frame
	fields func() []figure.Field
}

func (e *sliceChart) layout() {
	axis := func(a kinematics.Axis) figure.Axis {
		lo, hi := a.From.Degrees(), a.To.Degrees()
		return figure.Axis{Min: lo, Max: hi, Ticks: unsigned(lo, hi, tickStep(a)), Grid: true}
	}
	line := e.look.font(1).LineHeight()
	e.frame = figure.NewFrame(e.body.Trim(line, 0, 0, line), axis(e.slice.Across), axis(e.slice.Up), e.look.font(0.92))
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
	x, y := values(e.slice.Across), values(e.slice.Up)
	fields := make([]figure.Field, len(e.Designs))
	atOnce(len(e.Designs), func(k int) {
		n := neckOf(e.Designs[k].Joint)
		across, up := n.factors(e.slice)
		margin := func(i, j int) float64 { return n.marginOf(&across[i], &up[j]) }
		fields[k] = sampled(x, y, margin, turning(x, y, n.Rate()))
	})
	return fields
}

// turning returns by how much a margin may fall in a cell of sampled if the
// joint turns, in degrees, as far as the values of both axes together and the
// margin falls at a rate. No place is farther from a corner than half the
// widths of the cell.
func turning(x, y []float64, rate float64) func(i, j int) float64 {
	fall := rate * 2 * (math.Abs(x[1]-x[0]) + math.Abs(y[1]-y[0]))
	return func(int, int) float64 { return fall }
}

func values(a kinematics.Axis) []float64 {
	v := make([]float64, a.Count)
	for i := range v {
		v[i] = a.At(i).Degrees()
	}
	return v
}

// held returns the words for the joint angle that the slice holds.
func (e *sliceChart) held() string {
	a := 3 - e.slice.Across.Angle - e.slice.Up.Angle
	return e.look.Phrase("chart_at", e.look.reading(a, e.slice.Held.Angle(a))...)
}
