package figure

import "image"

// Surface is what drawings draw on: a canvas with a size and a stack of
// transforms. It is not safe for use by several goroutines.
type Surface struct {
	canvas Canvas
	size   Point
	now    Affine
	saved  []Affine
}

// On returns a surface of the given size, in points, over c.
func On(c Canvas, size Point) *Surface {
	return &Surface{canvas: c, size: size, now: Identity()}
}

// Size returns the width and height of the surface in points.
func (s *Surface) Size() Point { return s.size }

// Bounds returns the whole surface as a rectangle.
func (s *Surface) Bounds() Rect { return Rect{Max: s.size} }

// Push lets m act on all that follows, before the maps already pushed, until
// the Pop that belongs to it. It moves and turns text and scales its size and
// the width of lines by [Affine.Stretch]; letters are never mirrored.
func (s *Surface) Push(m Affine) {
	s.saved = append(s.saved, s.now)
	s.now = s.now.Mul(m)
}

// Pop undoes the last Push.
func (s *Surface) Pop() {
	s.now = s.saved[len(s.saved)-1]
	s.saved = s.saved[:len(s.saved)-1]
}

// PushClip limits what follows to the inside of rings until the PopClip that
// belongs to it.
func (s *Surface) PushClip(rings ...[]Point) {
	s.canvas.Clip(usableRings(s.mapped(rings)))
}

// PopClip undoes the last PushClip.
func (s *Surface) PopClip() { s.canvas.Unclip() }

// Polyline draws a line through pts.
func (s *Surface) Polyline(pts []Point, st Stroke) { s.Polylines([][]Point{pts}, st) }

// Polylines draws several lines as one path, which is quicker than one by one.
func (s *Surface) Polylines(lines [][]Point, st Stroke) {
	st = s.stretched(st)
	if st.Colour.A == 0 || !(st.Width > 0 && st.Width < limit) {
		return
	}
	if lines = usableLines(s.mapped(lines)); len(lines) > 0 {
		s.canvas.Stroke(lines, st)
	}
}

// Line draws the straight line from a to b.
func (s *Surface) Line(a, b Point, st Stroke) { s.Polyline([]Point{a, b}, st) }

// Outline draws the closed line round a ring.
func (s *Surface) Outline(ring []Point, st Stroke) {
	if len(ring) > 0 {
		s.Polyline(append(ring[:len(ring):len(ring)], ring[0]), st)
	}
}

// Polygon fills one ring.
func (s *Surface) Polygon(ring []Point, f Fill) { s.Polygons([][]Point{ring}, f) }

// Polygons fills rings together by the non-zero winding rule.
func (s *Surface) Polygons(rings [][]Point, f Fill) {
	on := usableRings(s.mapped(rings))
	if len(on) == 0 {
		return
	}
	if f.Colour.A > 0 {
		s.canvas.Fill(on, f.Colour)
	}
	if f.Pattern.Kind != Plain && f.Pattern.Colour.A > 0 {
		s.pattern(rings, f.Pattern)
	}
}

// Text draws one line of text at a point.
func (s *Surface) Text(at Point, text string, t TextStyle) {
	at = s.now.Apply(at)
	t.Turn = s.now.turn() + t.mirrored(s.now)
	t.Size *= s.now.Stretch()
	text = printable(text)
	if text == "" || t.Colour.A == 0 || !(t.Size > 0 && t.Size < limit) || !at.usable() || !(abs(t.Turn) < limit) {
		return
	}
	turned := Translate(at.X, at.Y).Mul(Rotation(t.Turn))
	if t.Plate.A > 0 {
		s.canvas.Fill([][]Point{turned.line(plate(text, t).Ring())}, t.Plate)
	}
	at = turned.Apply(Point{0, t.drop()})
	t.V, t.Plate = Baseline, Colour{}
	s.canvas.Text(at, text, t)
}

// plate returns the box behind text, seen from its place.
func plate(text string, t TextStyle) Rect {
	x, y, pad := t.start(text), t.drop(), t.Size*0.15
	return Box(x, y-t.Ascent(), t.Width(text), t.Ascent()+t.Descent()).Trim(-2*pad, 0, -2*pad, 0)
}

// mirrored returns the turn of t as it appears under m: a mirror reverses it.
func (t TextStyle) mirrored(m Affine) float64 {
	if m.A*m.D-m.B*m.C < 0 {
		return -t.Turn
	}
	return t.Turn
}

// Image draws img into r.
func (s *Surface) Image(r Rect, img image.Image) {
	m := s.now.Mul(Affine{A: r.W(), D: r.H(), E: r.Min.X, F: r.Min.Y})
	if img == nil || img.Bounds().Empty() || !allUsable([][]Point{m.line(Box(0, 0, 1, 1).Ring())}, 4) {
		return
	}
	s.canvas.Image(m, img)
}

// Place draws both layers of f into r, as large as they fit, and returns the
// rectangle they fill.
func (s *Surface) Place(f Figure, r Rect) Rect {
	m := Fit(f.Size, r)
	s.Push(m)
	defer s.Pop()
	inner := *s
	inner.size = f.Size
	inner.saved = nil
	f.paint(&inner)
	return Rect{m.Apply(Point{}), m.Apply(f.Size)}
}

func (s *Surface) mapped(lines [][]Point) [][]Point {
	if s.now == Identity() {
		return lines
	}
	return s.now.lines(lines)
}

func (s *Surface) stretched(st Stroke) Stroke {
	k := s.now.Stretch()
	if k == 1 {
		return st
	}
	st.Width *= k
	dash := make([]float64, len(st.Dash))
	for i, d := range st.Dash {
		dash[i] = k * d
	}
	st.Dash = dash
	return st
}

// start returns where the baseline of text starts, to the right of its place.
func (t TextStyle) start(text string) float64 {
	switch t.H {
	case Centre:
		return -t.Width(text) / 2
	case Right:
		return -t.Width(text)
	}
	return 0
}

// drop returns how far the baseline lies below the place of the text.
func (t TextStyle) drop() float64 {
	switch t.V {
	case Middle:
		return t.CapHeight() / 2
	case Top:
		return t.Ascent()
	case Bottom:
		return -t.Descent()
	}
	return 0
}

// limit is the greatest coordinate, width and size that is drawn, in points.
// It is 350 m: what lies beyond is an error of the caller, and would cost time
// and digits.
const limit = 1e6

func (p Point) usable() bool { return abs(p.X) < limit && abs(p.Y) < limit }

// usableLines splits lines where a point cannot be drawn.
func usableLines(lines [][]Point) [][]Point {
	if allUsable(lines, 2) {
		return lines
	}
	var out [][]Point
	for _, l := range lines {
		start := 0
		for i := 0; i <= len(l); i++ {
			if i == len(l) || !l[i].usable() {
				if i-start >= 2 {
					out = append(out, l[start:i])
				}
				start = i + 1
			}
		}
	}
	return out
}

// usableRings leaves out rings that have less than three points or one that
// cannot be drawn.
func usableRings(rings [][]Point) [][]Point {
	if allUsable(rings, 3) {
		return rings
	}
	var out [][]Point
	for _, r := range rings {
		if allUsable([][]Point{r}, 3) {
			out = append(out, r)
		}
	}
	return out
}

func allUsable(lines [][]Point, least int) bool {
	for _, l := range lines {
		if len(l) < least {
			return false
		}
		for _, p := range l {
			if !p.usable() {
				return false
			}
		}
	}
	return true
}
