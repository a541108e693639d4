package figure

import "math"

// Disc returns a ring of n corners (at least 8) on the circle of radius r about
// c, counter-clockwise. n = 0 takes as many as the eye needs at 4 pixels a point.
func Disc(c Point, r float64, n int) []Point {
	if n == 0 {
		n = int(8 + 6*math.Sqrt(math.Abs(r)))
	}
	n = max(n, 8)
	ring := make([]Point, n)
	for i := range ring {
		ring[i] = c.Polar(r, 360*float64(i)/float64(n))
	}
	return ring
}

// Arc returns the line on the circle of radius r about c from the direction
// from to the direction to, degrees counter-clockwise from the right.
func Arc(c Point, r, from, to float64) []Point {
	n := max(2, int(math.Ceil(math.Abs(to-from)/360*(8+6*math.Sqrt(math.Abs(r))))))
	out := make([]Point, n+1)
	for i := range out {
		out[i] = c.Polar(r, from+(to-from)*float64(i)/float64(n))
	}
	return out
}

// Diamond returns the square of half-diagonal r that stands on its corner.
func Diamond(c Point, r float64) []Point {
	return []Point{{c.X, c.Y - r}, {c.X + r, c.Y}, {c.X, c.Y + r}, {c.X - r, c.Y}}
}

// Triangle returns the triangle of radius r that points in the direction deg.
func Triangle(c Point, r, deg float64) []Point {
	return []Point{c.Polar(r, deg), c.Polar(r, deg+120), c.Polar(r, deg+240)}
}

// Cross returns the two strokes of a diagonal cross of half-width r.
func Cross(c Point, r float64) [][]Point {
	return [][]Point{
		{{c.X - r, c.Y - r}, {c.X + r, c.Y + r}},
		{{c.X - r, c.Y + r}, {c.X + r, c.Y - r}},
	}
}

// Ellipse returns a ring on the ellipse with the half-axes a and b about c, a
// lying in the direction deg.
func Ellipse(c Point, a, b, deg float64) []Point {
	m := Translate(c.X, c.Y).Mul(Rotation(deg)).Mul(Scaling(a, b))
	n := int(16 + 6*math.Sqrt(math.Abs(a)+math.Abs(b)))
	return m.line(Disc(Point{}, 1, n))
}
