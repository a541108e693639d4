package figure

import "math"

// pattern draws p inside rings: it clips to them and draws lines or dots over
// the rectangle around them, all as one path.
func (s *Surface) pattern(rings [][]Point, p Pattern) {
	box, ok := Bounds(rings...)
	if !ok || !s.patternable(box) {
		return
	}
	pitch, width := p.Pitch, p.Width
	if !(pitch > 0) {
		pitch = 6
	}
	if !(width > 0) {
		width = 0.8
		if p.Kind == Dots {
			width = 1.6
		}
	}
	st := Stroke{Colour: p.Colour, Width: width}
	if h, ok := s.canvas.(hatcher); ok && p.Kind == Hatch && s.now == Identity() && h.Hatch(usableRings(rings), pitch, st) {
		return
	}
	s.PushClip(rings...)
	defer s.PopClip()
	if p.Kind == Dots {
		s.canvas.Fill(s.mapped(dots(box, pitch, width)), p.Colour)
		return
	}
	lines := hatch(box, pitch, false)
	if p.Kind == Crossed {
		lines = append(lines, hatch(box, pitch, true)...)
	}
	s.Polylines(lines, st)
}

// hatcher is a canvas that knows a quicker way to draw the family of lines of
// hatch inside rings, if it can.
type hatcher interface {
	Hatch(rings [][]Point, pitch float64, s Stroke) bool
}

// patternable bounds the work: a rectangle a hundred times the surface holds
// nothing one could see.
func (s *Surface) patternable(box Rect) bool {
	return box.W() < 100*(s.size.X+1) && box.H() < 100*(s.size.Y+1)
}

// hatch returns lines at 45° through box, pitch apart, rising to the right or
// falling; the line x+y = 0 (x-y = 0) is always among the family.
func hatch(box Rect, pitch float64, falling bool) [][]Point {
	sign := 1.0
	if falling {
		sign = -1
	}
	y0, y1 := sign*box.Min.Y, sign*box.Max.Y
	lo, hi := box.Min.X+min(y0, y1), box.Max.X+max(y0, y1)
	step := pitch * math.Sqrt2
	var out [][]Point
	for k := math.Ceil(lo / step); k*step <= hi; k++ {
		c := k * step // x + sign·y = c
		a, b := c-y0, c-y1
		xa, xb := min(max(a, box.Min.X), box.Max.X), min(max(b, box.Min.X), box.Max.X)
		out = append(out, []Point{{xa, sign * (c - xa)}, {xb, sign * (c - xb)}})
	}
	return out
}

// dots returns small octagons in a staggered grid over box.
func dots(box Rect, pitch, width float64) [][]Point {
	row := pitch * math.Sqrt(3) / 2
	var out [][]Point
	for j := math.Floor(box.Min.Y / row); j*row <= box.Max.Y+width; j++ {
		shift := pitch / 2 * math.Abs(math.Mod(j, 2))
		for i := math.Floor((box.Min.X - shift) / pitch); i*pitch+shift <= box.Max.X+width; i++ {
			out = append(out, Disc(Point{i*pitch + shift, j * row}, width/2, 8))
		}
	}
	return out
}
