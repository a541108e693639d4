package figure

import "math/bits"

// coverage works out how much of each pixel of a box lies inside rings, by the
// non-zero winding rule as far as they run the same way round. Of each pixel it
// keeps by how much it is covered more than the one to its left, exactly but
// for the rounding of corners (Levien's font-rs accumulates areas so), and which
// pixels an edge has touched: what lies between those costs nothing.
type coverage struct {
	w, h  int
	words int      // of touched, per row
	delta []int32  // words·64 per row; zero between uses
	touch []uint64 // a bit for each delta; zero between uses
}

// Corners are rounded to 1/512 pixel, and areas are twice what they measure in
// its squares.
const (
	fineBits = 9
	fine     = 1 << fineBits
	whole    = 2 * fine * fine
)

// begin makes room for a box of w by h pixels. An edge on the right side
// touches two pixels beyond it.
func (c *coverage) begin(w, h int) {
	c.w, c.h, c.words = w, h, (w+2+63)/64
	if n := h * c.words; n > len(c.touch) {
		c.delta, c.touch = make([]int32, n*64), make([]uint64, n)
	}
}

// ring adds a ring; (x, y) is the corner of the box.
func (c *coverage) ring(ring []Point, x, y float64) {
	off := Point{x, y}
	a := ring[len(ring)-1].Sub(off)
	for _, p := range ring {
		b := p.Sub(off)
		if a.Y < b.Y {
			c.edge(a, b, 1)
		} else if a.Y > b.Y {
			c.edge(b, a, -1)
		}
		a = b
	}
}

// edge adds the edge from a down to b as far as it lies beside the box.
func (c *coverage) edge(a, b Point, sign int) {
	h := float64(c.h)
	if b.Y <= 0 || a.Y >= h {
		return
	}
	slope := (b.X - a.X) / (b.Y - a.Y)
	if a.Y < 0 {
		a = Point{a.X - slope*a.Y, 0}
	}
	if b.Y > h {
		b = Point{b.X - slope*(b.Y-h), h}
	}
	c.beside(a, b, sign)
}

// beside adds an edge between the upper and lower side of the box. What lies to
// the left of it covers its whole rows, what lies to the right nothing.
func (c *coverage) beside(a, b Point, sign int) {
	w := float64(c.w)
	passing := func(x float64) Point { return Point{x, a.Y + (b.Y-a.Y)*((x-a.X)/(b.X-a.X))} }
	switch {
	case a.X >= w && b.X >= w:
	case a.X <= 0 && b.X <= 0:
		c.inside(Point{0, a.Y}, Point{0, b.Y}, sign)
	case min(a.X, b.X) < 0:
		m := passing(0)
		c.beside(a, m, sign)
		c.beside(m, b, sign)
	case a.X > w:
		c.inside(passing(w), b, sign)
	case b.X > w:
		c.inside(a, passing(w), sign)
	default:
		c.inside(a, b, sign)
	}
}

// inside adds an edge inside the box, row by row.
func (c *coverage) inside(a, b Point, sign int) {
	x, y := int(a.X*fine+0.5), int(a.Y*fine+0.5)
	x1, y1 := int(b.X*fine+0.5), int(b.Y*fine+0.5)
	if y == y1 {
		return
	}
	x0, y0, slope := x, y, float64(x1-x)/float64(y1-y)
	for y < y1 {
		row := y >> fineBits
		end, to := (row+1)<<fineBits, x1
		if end < y1 {
			to = x0 + int(slope*float64(end-y0))
		} else {
			end = y1
		}
		c.piece(row*c.words*64, min(x, to), max(x, to), sign*(end-y))
		x, y = to, end
	}
}

// piece adds a piece of an edge of height d in the row that begins at the delta
// base; it runs from lo to hi.
func (c *coverage) piece(base, lo, hi, d int) {
	k, last := base+lo>>fineBits, base+hi>>fineBits
	from, to := lo&(fine-1), hi&(fine-1)
	if k == last {
		c.add(k, d, from+to)
		return
	}
	perStep := float64(d) / float64(hi-lo)
	done, wide := 0, fine-from
	for ; k < last; k++ {
		upTo := int(perStep * float64(wide))
		c.add(k, upTo-done, from+fine)
		done, from = upTo, 0
		wide += fine
	}
	c.add(k, d-done, to)
}

// add notes an edge of height d in a pixel, whose ends lie at places that sum to
// at: to its right it covers the pixel itself, and all of the next.
func (c *coverage) add(k, d, at int) {
	c.delta[k] += int32(d * (2*fine - at))
	c.delta[k+1] += int32(d * at)
	c.touch[k>>6] |= 1 << (k & 63)
	c.touch[(k+1)>>6] |= 1 << ((k + 1) & 63)
}

// end appends the covered pixels to s, whose box is the one begun, and clears
// what was kept.
func (c *coverage) end(s *spans) {
	for y := range c.h {
		s.start = append(s.start, len(s.runs))
		c.row(s, y*c.words)
	}
	s.start = append(s.start, len(s.runs))
}

func (c *coverage) row(s *spans, word int) {
	var sum int32
	now := span{from: 0}
	for i, touched := range c.touch[word:][:c.words] {
		if touched == 0 {
			continue
		}
		c.touch[word+i] = 0
		deltas := c.delta[(word+i)*64:][:64]
		for ; touched != 0; touched &= touched - 1 {
			at := bits.TrailingZeros64(touched)
			sum += deltas[at]
			deltas[at] = 0
			if cover := share255(sum); cover != now.cover {
				x := min(i*64+at, c.w)
				s.put(now, x)
				now = span{from: x, cover: cover}
			}
		}
	}
	s.put(now, c.w)
}

// share255 returns a sum of deltas as a share of 255.
func share255(sum int32) uint8 {
	if sum < 0 {
		sum = -sum
	}
	if sum >= whole {
		return 255
	}
	return uint8((sum*255 + whole/2) / whole)
}
