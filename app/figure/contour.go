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
func (f Field) Above(level float64) [][]Point { return newTracer(f).above(level) }

// Between returns the rings around the area from lo to below hi.
func (f Field) Between(lo, hi float64) [][]Point {
	t := newTracer(f)
	rings := t.above(lo)
	for _, r := range t.above(hi) {
		for i, j := 0, len(r)-1; i < j; i, j = i+1, j-1 {
			r[i], r[j] = r[j], r[i]
		}
		rings = append(rings, r)
	}
	return rings
}

// Lines returns the lines on which the field equals level, in data values;
// closed lines end where they begin. The border of the grid and of holes is not
// part of them.
func (f Field) Lines(level float64) [][]Point { return newTracer(f).lines(level) }

// FillContours draws the areas from each level up in the colour of the same
// index, each over the one before; levels must rise. What lies below the first
// level is not drawn.
func FillContours(s *Surface, fr Frame, f Field, levels []float64, colours []Colour) {
	t := newTracer(f)
	for i, l := range levels {
		s.Polygons(fr.Map(t.above(l)), Solid(colours[i]))
	}
}

// DrawContours draws the lines of each level.
func DrawContours(s *Surface, fr Frame, f Field, levels []float64, st Stroke) {
	t := newTracer(f)
	var all [][]Point
	for _, l := range levels {
		all = append(all, fr.Map(t.lines(l))...)
	}
	s.Polylines(all, st)
}
