package figure

import "math"

// Affine is the map (x, y) → (A·x + C·y + E, B·x + D·y + F), the letters being
// those of SVG and PDF.
type Affine struct{ A, B, C, D, E, F float64 }

// Identity returns the map that moves nothing.
func Identity() Affine { return Affine{A: 1, D: 1} }

// Translate returns the map that adds (x, y).
func Translate(x, y float64) Affine { return Affine{A: 1, D: 1, E: x, F: y} }

// Scaling returns the map that multiplies x by kx and y by ky.
func Scaling(kx, ky float64) Affine { return Affine{A: kx, D: ky} }

// Rotation returns the turn about the origin by deg, counter-clockwise as the
// reader sees it.
func Rotation(deg float64) Affine {
	s, c := math.Sincos(deg * math.Pi / 180)
	return Affine{A: c, B: -s, C: s, D: c}
}

// Fit returns the map that brings a drawing of the given size into the middle
// of r, as large as it fits with its proportions kept. A drawing without a size
// goes to the corner of r as it is.
func Fit(size Point, r Rect) Affine {
	if !(size.X > 0 && size.Y > 0) {
		return Translate(r.Min.X, r.Min.Y)
	}
	k := min(r.W()/size.X, r.H()/size.Y)
	m := r.Centre()
	return Affine{A: k, D: k, E: m.X - k*size.X/2, F: m.Y - k*size.Y/2}
}

// Mul returns the map that does n first and m after it.
func (m Affine) Mul(n Affine) Affine {
	return Affine{
		A: m.A*n.A + m.C*n.B, B: m.B*n.A + m.D*n.B,
		C: m.A*n.C + m.C*n.D, D: m.B*n.C + m.D*n.D,
		E: m.A*n.E + m.C*n.F + m.E, F: m.B*n.E + m.D*n.F + m.F,
	}
}

// Apply returns the image of p.
func (m Affine) Apply(p Point) Point {
	return Point{m.A*p.X + m.C*p.Y + m.E, m.B*p.X + m.D*p.Y + m.F}
}

// Inverse returns the map that undoes m; of a map that flattens it returns the
// identity.
func (m Affine) Inverse() Affine {
	det := m.A*m.D - m.B*m.C
	if det == 0 {
		return Identity()
	}
	return Affine{
		A: m.D / det, B: -m.B / det, C: -m.C / det, D: m.A / det,
		E: (m.C*m.F - m.D*m.E) / det, F: (m.B*m.E - m.A*m.F) / det,
	}
}

// Stretch returns the factor by which m changes lengths on average, the square
// root of the factor by which it changes areas.
func (m Affine) Stretch() float64 { return math.Sqrt(math.Abs(m.A*m.D - m.B*m.C)) }

// turn returns by how many degrees m turns the direction of reading,
// counter-clockwise. A mirror image does not turn letters.
func (m Affine) turn() float64 {
	a, b := m.A, m.B
	if m.A*m.D-m.B*m.C < 0 && a < 0 {
		a, b = -a, -b
	}
	if b == 0 && a >= 0 {
		return 0
	}
	return math.Atan2(-b, a) * 180 / math.Pi
}

func (m Affine) line(pts []Point) []Point {
	out := make([]Point, len(pts))
	for i, p := range pts {
		out[i] = m.Apply(p)
	}
	return out
}

func (m Affine) lines(pts [][]Point) [][]Point {
	out := make([][]Point, len(pts))
	for i, l := range pts {
		out[i] = m.line(l)
	}
	return out
}
