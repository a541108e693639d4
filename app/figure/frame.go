package figure

import "strings"

// Axis is one axis of a [Frame].
type Axis struct {
	Title    string
	Min, Max float64 // data values at the lower left and the far end; Min > Max runs backwards
	Ticks    []Tick  // nil takes nice ones
	Step     float64 // distance of nice ticks; zero chooses it
	Unit     string  // after each nice label, such as "°"; degrees choose steps of angles
	Point    string  // before the decimals of nice labels; "" for a point
	Grid     bool    // a faint line at each tick
}

func (a Axis) span() float64 { return a.Max - a.Min }

// ticks returns the marks of an axis length points long, gap apart or more.
// Where wide is not zero, labels stand side by side and need that much between
// them.
func (a Axis) ticks(length, gap, wide float64, f Font) []Tick {
	if a.Ticks != nil {
		return a.Ticks
	}
	lo, hi := min(a.Min, a.Max), max(a.Min, a.Max)
	if a.Step > 0 {
		return a.nice(lo, hi, a.Step)
	}
	for n := max(2, int(length/gap)); ; n-- {
		step := TickStep(hi-lo, n, a.Unit == "°")
		ticks := a.nice(lo, hi, step)
		if n <= 1 || wide == 0 || widest(ticks, f)+wide <= length*step/(hi-lo) {
			return ticks
		}
	}
}

// nice returns the multiples of step with their labels as the axis writes them.
func (a Axis) nice(lo, hi, step float64) []Tick {
	ticks := Ticks(lo, hi, step, a.Unit)
	for i := range ticks {
		if a.Point != "" {
			ticks[i].Label = strings.Replace(ticks[i].Label, ".", a.Point, 1)
		}
	}
	return ticks
}

// Frame maps data to a rectangle of a surface and draws its axes: x to the
// right along the bottom, y upwards along the left.
type Frame struct {
	Box  Rect // where the data go
	X, Y Axis
	Font Font // of the tick labels; titles are as large. A size of zero means 9
}

const (
	tickLength = 3.5 // points
	labelGap   = 2.5 // between tick and label
	titleGap   = 4   // between labels and title
	tickPitchX = 48  // least distance of nice ticks
	tickPitchY = 30
	tickSpace  = 5 // least space between labels side by side
)

// NewFrame returns the frame whose axes, labels and titles fill outer.
func NewFrame(outer Rect, x, y Axis, f Font) Frame {
	fr := Frame{X: x, Y: y, Font: f}
	f = fr.font()
	line := f.Ascent() + f.Descent()
	bottom := tickLength + labelGap + line
	if x.Title != "" {
		bottom += titleGap + line
	}
	// The outermost labels hang over the ends of their axes.
	top := f.Ascent() - f.CapHeight()/2
	title := 0.0
	if y.Title != "" {
		title = titleGap + line
	}
	// Which labels there are depends on the space they leave: margins grow
	// until the labels fit.
	var left, right float64
	for range 8 {
		fr.Box = outer.Trim(left, top, right, bottom)
		r := widest(fr.xTicks(), f) / 2
		l := max(r, tickLength+labelGap+widest(fr.yTicks(), f)+title)
		if l <= left && r <= right {
			break
		}
		left, right = max(left, l), max(right, r)
	}
	return fr
}

// Square returns fr with its box made smaller, about its middle, until a step
// in x is drawn as long as the same step in y.
func (fr Frame) Square() Frame {
	kx, ky := fr.Box.W()/abs(fr.X.span()), fr.Box.H()/abs(fr.Y.span())
	k := min(kx, ky)
	dx, dy := (fr.Box.W()-k*abs(fr.X.span()))/2, (fr.Box.H()-k*abs(fr.Y.span()))/2
	fr.Box = fr.Box.Trim(dx, dy, dx, dy)
	return fr
}

func (fr Frame) font() Font {
	if fr.Font.Size == 0 {
		fr.Font.Size = 9
	}
	return fr.Font
}

func (fr Frame) xTicks() []Tick {
	return fr.X.ticks(fr.Box.W(), tickPitchX, tickSpace, fr.font())
}

func (fr Frame) yTicks() []Tick {
	return fr.Y.ticks(fr.Box.H(), tickPitchY, 0, fr.font())
}

func abs(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}

func widest(ticks []Tick, f Font) float64 {
	w := 0.0
	for _, t := range ticks {
		w = max(w, f.Width(t.Label))
	}
	return w
}

// At returns where the data point (x, y) lies on the surface.
func (fr Frame) At(x, y float64) Point { return fr.affine().Apply(Point{x, y}) }

// Data returns the data values at p, the inverse of At.
func (fr Frame) Data(p Point) (x, y float64) {
	q := fr.affine().Inverse().Apply(p)
	return q.X, q.Y
}

// Map returns where data lines or rings lie on the surface.
func (fr Frame) Map(data [][]Point) [][]Point { return fr.affine().lines(data) }

// Line returns where one data line lies on the surface.
func (fr Frame) Line(data []Point) []Point { return fr.affine().line(data) }

func (fr Frame) affine() Affine {
	a, d := fr.Box.W()/fr.X.span(), -fr.Box.H()/fr.Y.span()
	return Affine{A: a, D: d, E: fr.Box.Min.X - a*fr.X.Min, F: fr.Box.Max.Y - d*fr.Y.Min}
}

// DrawGrid draws the grid lines; it belongs under the data.
func (fr Frame) DrawGrid(s *Surface, p Palette) {
	st := Stroke{Colour: p.Grid, Width: 0.6}
	var lines [][]Point
	if fr.X.Grid {
		for _, t := range fr.xTicks() {
			x := fr.At(t.At, fr.Y.Min).X
			lines = append(lines, []Point{{x, fr.Box.Min.Y}, {x, fr.Box.Max.Y}})
		}
	}
	if fr.Y.Grid {
		for _, t := range fr.yTicks() {
			y := fr.At(fr.X.Min, t.At).Y
			lines = append(lines, []Point{{fr.Box.Min.X, y}, {fr.Box.Max.X, y}})
		}
	}
	s.Polylines(lines, st)
}

// Draw draws the outline, the ticks, their labels and the titles; it belongs
// over the data.
func (fr Frame) Draw(s *Surface, p Palette) {
	st := Stroke{Colour: p.Axis, Width: 0.8}
	s.Outline(fr.Box.Ring(), st)
	f := fr.font()
	label := TextStyle{Font: f, Colour: p.Ink}
	title := TextStyle{Font: f, Colour: p.Ink}
	var marks [][]Point
	bottom, left := fr.Box.Max.Y, fr.Box.Min.X
	for _, t := range fr.xTicks() {
		x := fr.At(t.At, fr.Y.Min).X
		marks = append(marks, []Point{{x, bottom}, {x, bottom + tickLength}})
		s.Text(Point{x, bottom + tickLength + labelGap}, t.Label, label.At(Centre, Top))
	}
	yTicks := fr.yTicks()
	for _, t := range yTicks {
		y := fr.At(fr.X.Min, t.At).Y
		marks = append(marks, []Point{{left - tickLength, y}, {left, y}})
		s.Text(Point{left - tickLength - labelGap, y}, t.Label, label.At(Right, Middle))
	}
	s.Polylines(marks, st)
	off := tickLength + labelGap + titleGap
	line := f.Ascent() + f.Descent()
	s.Text(Point{fr.Box.Centre().X, bottom + off + line}, fr.X.Title, title.At(Centre, Top))
	title.Turn = 90
	s.Text(Point{left - off - widest(yTicks, f), fr.Box.Centre().Y}, fr.Y.Title, title.At(Centre, Bottom))
}
