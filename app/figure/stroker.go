package figure

import "math"

// stroker turns lines into the rings of their outline. All rings run the same
// way round, so that where they overlap they stay filled.
type stroker struct {
	half        float64 // half the width
	rings       [][]Point
	left, right []Point // sides of the strip that is growing
	room        []Point // of the rings
}

// begun returns k without rings, for lines of half a width; the rings it had
// are overwritten.
func (k *stroker) begun(half float64) *stroker {
	k.half, k.rings, k.room = half, k.rings[:0], k.room[:0]
	return k
}

// keep makes what was put into the room from a place on a ring.
func (k *stroker) keep(from int) []Point {
	ring := k.room[from:len(k.room):len(k.room)]
	k.rings = append(k.rings, ring)
	return ring
}

// line adds a strip per stretch of gentle bends and a wedge at each sharp one.
func (k *stroker) line(pts []Point) {
	pts = distinct(pts)
	if len(pts) < 2 {
		return
	}
	last := len(pts) - 1
	first := direction(pts[0], pts[1])
	d := first
	k.begin(pts[0], d)
	for i := 1; i < last; i++ {
		e := direction(pts[i], pts[i+1])
		if k.gentle(d, e, pts[i-1], pts[i], pts[i+1]) {
			k.bend(pts[i], d, e)
		} else {
			k.end(pts[i], d)
			k.join(pts[i], d, e)
			k.begin(pts[i], e)
		}
		d = e
	}
	k.end(pts[last], d)
	if last > 1 && pts[0] == pts[last] {
		k.join(pts[0], d, first)
	}
}

func direction(a, b Point) Point {
	d := b.Sub(a)
	return d.Scale(1 / d.Norm())
}

// gentle reports whether the sides of the line may simply bend at b: the turn
// is below 25° and the pieces are long enough that the inner side does not fold.
func (k *stroker) gentle(d, e, a, b, c Point) bool {
	return d.X*e.X+d.Y*e.Y > 0.9 && b.Sub(a).Norm() > k.half/2 && c.Sub(b).Norm() > k.half/2
}

func (k *stroker) begin(p, d Point) {
	n := Point{-d.Y * k.half, d.X * k.half}
	k.left = append(k.left[:0], p.Add(n))
	k.right = append(k.right[:0], p.Sub(n))
}

// bend carries both sides to where their neighbours meet.
func (k *stroker) bend(p, d, e Point) {
	n := Point{-d.Y - e.Y, d.X + e.X}
	n = n.Scale(2 * k.half / (n.X*n.X + n.Y*n.Y))
	k.left = append(k.left, p.Add(n))
	k.right = append(k.right, p.Sub(n))
}

func (k *stroker) end(p, d Point) {
	n := Point{-d.Y * k.half, d.X * k.half}
	from := len(k.room)
	k.room = append(k.room, k.left...)
	k.room = append(k.room, p.Add(n), p.Sub(n))
	for i := len(k.right) - 1; i >= 0; i-- {
		k.room = append(k.room, k.right[i])
	}
	k.keep(from)
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
	from := len(k.room)
	k.room = append(k.room, p)
	for i := 0; i <= steps; i++ {
		s, c := math.Sincos(angle * float64(i) / float64(steps))
		v := Point{d.X*c - d.Y*s, d.X*s + d.Y*c}
		k.room = append(k.room, p.Add(Point{-v.Y * k.half * side, v.X * k.half * side}))
	}
	ring := k.keep(from)
	if angle > 0 {
		for i, j := 0, len(ring)-1; i < j; i, j = i+1, j-1 {
			ring[i], ring[j] = ring[j], ring[i]
		}
	}
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
