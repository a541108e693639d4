package figure

import (
	"math"
	"slices"
)

// Point is a place on a surface in points, x to the right and y down, or a pair
// of data values where a function says so.
type Point struct{ X, Y float64 }

// Pt returns the point (x, y).
func Pt(x, y float64) Point { return Point{x, y} }

// Add returns p+q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns p-q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Scale returns k·p.
func (p Point) Scale(k float64) Point { return Point{k * p.X, k * p.Y} }

// Norm returns the length of p as a vector.
func (p Point) Norm() float64 { return math.Hypot(p.X, p.Y) }

// Polar returns the point at the distance r from p in the direction deg,
// degrees counter-clockwise from the right as the reader sees it.
func (p Point) Polar(r, deg float64) Point {
	s, c := math.Sincos(deg * math.Pi / 180)
	return Point{p.X + r*c, p.Y - r*s}
}

func (p Point) finite() bool {
	return !math.IsNaN(p.X-p.X) && !math.IsNaN(p.Y-p.Y)
}

// Rect is an upright rectangle; Min is its upper left corner.
type Rect struct{ Min, Max Point }

// Box returns the rectangle with the upper left corner (x, y), the width w and
// the height h.
func Box(x, y, w, h float64) Rect { return Rect{Point{x, y}, Point{x + w, y + h}} }

// W returns the width.
func (r Rect) W() float64 { return r.Max.X - r.Min.X }

// H returns the height.
func (r Rect) H() float64 { return r.Max.Y - r.Min.Y }

// Centre returns the middle of r.
func (r Rect) Centre() Point { return r.Min.Add(r.Max).Scale(0.5) }

// Inset returns r made smaller by d on each side.
func (r Rect) Inset(d float64) Rect { return r.Trim(d, d, d, d) }

// Trim returns r made smaller by the given lengths at its four sides.
func (r Rect) Trim(left, top, right, bottom float64) Rect {
	return Rect{Point{r.Min.X + left, r.Min.Y + top}, Point{r.Max.X - right, r.Max.Y - bottom}}
}

// Contains reports whether p lies in r, its border included.
func (r Rect) Contains(p Point) bool {
	return p.X >= r.Min.X && p.X <= r.Max.X && p.Y >= r.Min.Y && p.Y <= r.Max.Y
}

// Ring returns the corners of r, from the upper left one clockwise.
func (r Rect) Ring() []Point {
	return []Point{r.Min, {r.Max.X, r.Min.Y}, r.Max, {r.Min.X, r.Max.Y}}
}

// Reversed returns ring running the other way round, as a hole must.
func Reversed(ring []Point) []Point {
	out := append([]Point(nil), ring...)
	slices.Reverse(out)
	return out
}

// Bounds returns the smallest rectangle around the finite points of lines, and
// whether there is any.
func Bounds(lines ...[]Point) (Rect, bool) {
	inf := math.Inf(1)
	r := Rect{Point{inf, inf}, Point{-inf, -inf}}
	for _, line := range lines {
		for _, p := range line {
			if p.finite() {
				r.Min.X, r.Max.X = min(r.Min.X, p.X), max(r.Max.X, p.X)
				r.Min.Y, r.Max.Y = min(r.Min.Y, p.Y), max(r.Max.Y, p.Y)
			}
		}
	}
	return r, r.Min.X <= r.Max.X
}
