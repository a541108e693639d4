package figure

import "math"

// Field holds values on a grid: Z[j*len(X)+i] belongs to (X[i], Y[j]). X and Y
// rise or fall strictly. A value that is not a number is a hole, as far as the
// nearest values around it.
type Field struct {
	X, Y []float64
	Z    []float64
}

// Sample returns the field of f on the grid of x and y.
func Sample(x, y []float64, f func(x, y float64) float64) Field {
	z := make([]float64, 0, len(x)*len(y))
	for _, v := range y {
		for _, u := range x {
			z = append(z, f(u, v))
		}
	}
	return Field{x, y, z}
}

// Span returns n values from lo to hi, both included.
func Span(lo, hi float64, n int) []float64 {
	v := make([]float64, n)
	for i := range v {
		v[i] = lo + (hi-lo)*float64(i)/float64(max(n-1, 1))
	}
	return v
}

// Range returns the least and the greatest finite value, and whether there is
// any.
func (f Field) Range() (lo, hi float64, ok bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, z := range f.Z {
		if !math.IsNaN(z) && !math.IsInf(z, 0) {
			lo, hi = min(lo, z), max(hi, z)
		}
	}
	return lo, hi, lo <= hi
}

// Above returns the rings around the area where the field is at least level,
// in data values. Holes run against their rings, so that the rings can be
// filled together.
func (f Field) Above(level float64) [][]Point {
	t := newTracer(f)
	defer t.release()
	return t.above(level)
}

// Between returns the rings around the area from lo to below hi.
func (f Field) Between(lo, hi float64) [][]Point {
	t := newTracer(f)
	defer t.release()
	rings := t.above(lo)
	for _, r := range t.above(hi) {
		rings = append(rings, Reversed(r))
	}
	return rings
}

// Lines returns the lines on which the field equals level, in data values;
// closed lines end where they begin. The border of the grid and of holes is not
// part of them.
func (f Field) Lines(level float64) [][]Point {
	t := newTracer(f)
	defer t.release()
	return t.lines(level)
}

// FillContours draws the areas from each level up in the colour of the same
// index, each over the one before; levels must rise. What lies below the first
// level is not drawn.
func FillContours(s *Surface, fr Frame, f Field, levels []float64, colours []Colour) {
	t := newTracer(f)
	defer t.release()
	for i, l := range levels {
		s.Polygons(fr.Map(t.above(l)), Solid(colours[i]))
	}
}

// DrawContours draws the lines of each level.
func DrawContours(s *Surface, fr Frame, f Field, levels []float64, st Stroke) {
	t := newTracer(f)
	defer t.release()
	var all [][]Point
	for _, l := range levels {
		all = append(all, fr.Map(t.lines(l))...)
	}
	s.Polylines(all, st)
}

// LabelContours writes each level, in the words of name, on the longest of its
// lines, where that line is half over. Lines shorter than the label stay bare.
func LabelContours(s *Surface, fr Frame, f Field, levels []float64, style TextStyle, name func(float64) string) {
	t := newTracer(f)
	defer t.release()
	style.H, style.V = Centre, Middle
	for _, l := range levels {
		label := name(l)
		at, length := longest(fr.Map(t.lines(l)))
		if length > 1.5*style.Width(label) {
			s.Text(at, label, style)
		}
	}
}

// longest returns the middle of the longest line and its length.
func longest(lines [][]Point) (middle Point, length float64) {
	for _, line := range lines {
		if l := lengthOf(line); l > length {
			middle, length = along(line, l/2), l
		}
	}
	return middle, length
}

func lengthOf(line []Point) float64 {
	l := 0.0
	for i := 1; i < len(line); i++ {
		l += line[i].Sub(line[i-1]).Norm()
	}
	return l
}

// along returns the point of line at the length l from its start.
func along(line []Point, l float64) Point {
	for i := 1; i < len(line); i++ {
		d := line[i].Sub(line[i-1])
		n := d.Norm()
		if l <= n && n > 0 {
			return line[i-1].Add(d.Scale(l / n))
		}
		l -= n
	}
	return line[len(line)-1]
}
