package figure

import "math"

// stroker turns lines into the rings of their outline. All rings run the same
// way round, so that where they overlap they stay filled.
type stroker struct {
	half  float64 // half the width
	rings [][]Point
}

// line adds one quadrangle per segment and a wedge at each bend.
func (k *stroker) line(pts []Point) {
	pts = distinct(pts)
	if len(pts) < 2 {
		return
	}
	closed := len(pts) > 2 && pts[0] == pts[len(pts)-1]
	var first, before Point
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		d := b.Sub(a)
		d = d.Scale(1 / d.Norm())
		n := Point{-d.Y * k.half, d.X * k.half}
		k.rings = append(k.rings, []Point{a.Add(n), b.Add(n), b.Sub(n), a.Sub(n)})
		if i == 1 {
			first = d
		} else {
			k.join(a, before, d)
		}
		before = d
	}
	if closed {
		k.join(pts[0], before, first)
	}
}

// join fills the gap on the outer side of a bend at p from the direction d to
// the direction e.
func (k *stroker) join(p, d, e Point) {
	cross, dot := d.X*e.Y-d.Y*e.X, d.X*e.X+d.Y*e.Y
	angle := math.Atan2(cross, dot)
	if math.Abs(angle)*k.half < 0.05 {
		return
	}
	steps := max(1, int(math.Abs(angle)*math.Sqrt(k.half)*1.5))
	side := -1.0 // the outer side
	if angle < 0 {
		side = 1
	}
	ring := []Point{p}
	for i := 0; i <= steps; i++ {
		s, c := math.Sincos(angle * float64(i) / float64(steps))
		v := Point{d.X*c - d.Y*s, d.X*s + d.Y*c}
		ring = append(ring, p.Add(Point{-v.Y * k.half * side, v.X * k.half * side}))
	}
	if angle > 0 {
		for i, j := 0, len(ring)-1; i < j; i, j = i+1, j-1 {
			ring[i], ring[j] = ring[j], ring[i]
		}
	}
	k.rings = append(k.rings, ring)
}

// distinct leaves out points that repeat the one before them.
func distinct(pts []Point) []Point {
	for i := 1; i < len(pts); i++ {
		if pts[i] == pts[i-1] {
			out := append([]Point(nil), pts[:i]...)
			for _, p := range pts[i+1:] {
				if p != out[len(out)-1] {
					out = append(out, p)
				}
			}
			return out
		}
	}
	return pts
}
