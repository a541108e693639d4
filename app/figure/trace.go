package figure

import (
	"math"
	"sync"
)

// tracer walks a field by marching squares (Lorensen and Cline, "Marching
// cubes", Computer Graphics 21:4, 1987, in the plane). The grid is padded by
// one row and column of minus infinity on each side, so that all areas close
// along the border; such crossings lie on the nearest true value.
//
// A crossing of the level with a grid edge has a number: twice that of the
// node at its lower left, and one more if the edge runs along y. In each cell
// the line is directed with the higher values to its left in data, so each
// crossing is left once and reached once.
type tracer struct {
	x, y   []float64 // padded
	z      []float64 // padded
	nx, ny int       // padded
	next   []int32   // the crossing after each; -1 none
	from   []int32   // the crossing before each; -1 none
	starts []int32   // crossings that have a next, in the order found
	way    []Point   // the points of one line
}

// tracers saves the redraws of the screen from making them anew.
var tracers = sync.Pool{New: func() any { return new(tracer) }}

// newTracer returns a tracer of f, to be given back by release.
func newTracer(f Field) *tracer {
	t := tracers.Get().(*tracer)
	t.nx, t.ny = len(f.X)+2, len(f.Y)+2
	t.x, t.y = padded(t.x, f.X), padded(t.y, f.Y)
	t.grow(t.nx * t.ny)
	low := math.Inf(-1)
	for i := range t.nx {
		t.z[i], t.z[len(t.z)-1-i] = low, low
	}
	for j := range f.Y {
		row := t.z[(j+1)*t.nx:][:t.nx]
		row[0], row[t.nx-1] = low, low
		copy(row[1:], f.Z[j*len(f.X):][:len(f.X)])
		for i, z := range row {
			if math.IsNaN(z) {
				row[i] = low
			}
		}
	}
	return t
}

// grow makes room for n nodes. No crossing is linked, as walk leaves it.
func (t *tracer) grow(n int) {
	if cap(t.z) < n {
		t.z, t.next, t.from = make([]float64, n), make([]int32, 2*n), make([]int32, 2*n)
		for i := range t.next {
			t.next[i], t.from[i] = -1, -1
		}
	}
	t.z = t.z[:n]
}

// release gives t back; it must not be used any more.
func (t *tracer) release() { tracers.Put(t) }

// padded returns v with its first and last value twice, in the memory of out.
func padded(out, v []float64) []float64 {
	out = out[:0]
	if len(v) == 0 {
		return append(out, 0, 0)
	}
	out = append(out, v[0])
	out = append(out, v...)
	return append(out, v[len(v)-1])
}

func (t *tracer) above(level float64) [][]Point {
	t.link(level, false)
	var out [][]Point
	for _, s := range t.starts {
		if t.next[s] < 0 {
			continue
		}
		if ring := lean(t.walk(s, level)); len(ring) > 2 {
			out = append(out, ring)
		}
	}
	return out
}

func (t *tracer) lines(level float64) [][]Point {
	t.link(level, true)
	var out [][]Point
	for _, s := range t.starts { // open lines first, from their beginnings
		if t.next[s] >= 0 && t.from[s] < 0 {
			out = appendLine(out, t.walk(s, level))
		}
	}
	for _, s := range t.starts {
		if t.next[s] >= 0 {
			line := t.walk(s, level)
			out = appendLine(out, append(line, line[0]))
		}
	}
	return out
}

func appendLine(out [][]Point, line []Point) [][]Point {
	if line = distinct(line); len(line) > 1 {
		out = append(out, line)
	}
	return out
}

// link finds the pieces of the level in all cells; bare leaves out those that
// run along the border or a hole.
func (t *tracer) link(level float64, bare bool) {
	t.starts = t.starts[:0]
	for j := range t.ny - 1 {
		row, up := t.z[j*t.nx:][:t.nx], t.z[(j+1)*t.nx:][:t.nx]
		sw, nw := row[0] >= level, up[0] >= level
		for i := range t.nx - 1 {
			se, ne := row[i+1] >= level, up[i+1] >= level
			if sw != se || sw != nw || sw != ne {
				t.cell(j*t.nx+i, level, bare, sw, se, ne, nw)
			}
			sw, nw = se, ne
		}
	}
}

func (t *tracer) cell(k int, level float64, bare, sw, se, ne, nw bool) {
	a, b, c, d := t.z[k], t.z[k+1], t.z[k+t.nx+1], t.z[k+t.nx]
	if bare && math.IsInf(min(a, b, c, d), -1) {
		return
	}
	south, west := int32(2*k), int32(2*k+1)
	east, north := int32(2*(k+1)+1), int32(2*(k+t.nx))
	switch mask(sw, se, ne, nw) {
	case 0b0001:
		t.piece(south, west)
	case 0b0010:
		t.piece(east, south)
	case 0b0011:
		t.piece(east, west)
	case 0b0100:
		t.piece(north, east)
	case 0b0110:
		t.piece(north, south)
	case 0b0111:
		t.piece(north, west)
	case 0b1000:
		t.piece(west, north)
	case 0b1001:
		t.piece(south, north)
	case 0b1011:
		t.piece(east, north)
	case 0b1100:
		t.piece(west, east)
	case 0b1101:
		t.piece(south, east)
	case 0b1110:
		t.piece(west, south)
	case 0b0101: // saddle: sw and ne are high
		if a+b+c+d >= 4*level {
			t.piece(south, east)
			t.piece(north, west)
		} else {
			t.piece(south, west)
			t.piece(north, east)
		}
	case 0b1010: // saddle: se and nw are high
		if a+b+c+d >= 4*level {
			t.piece(west, south)
			t.piece(east, north)
		} else {
			t.piece(east, south)
			t.piece(west, north)
		}
	}
}

func mask(sw, se, ne, nw bool) (m uint8) {
	for i, on := range [4]bool{sw, se, ne, nw} {
		if on {
			m |= 1 << i
		}
	}
	return m
}

func (t *tracer) piece(from, to int32) {
	t.next[from], t.from[to] = to, from
	t.starts = append(t.starts, from)
}

// walk follows the pieces from s and takes them out.
func (t *tracer) walk(s int32, level float64) []Point {
	t.way = t.way[:0]
	for k := s; ; {
		t.way = append(t.way, t.crossing(k, level))
		n := t.next[k]
		if n < 0 {
			t.from[k] = -1
			break
		}
		t.next[k], t.from[k] = -1, -1
		if n == s {
			break
		}
		k = n
	}
	return append(make([]Point, 0, len(t.way)+1), t.way...) // one more closes it
}

// crossing returns where the level crosses a grid edge, by linear interpolation.
func (t *tracer) crossing(edge int32, level float64) Point {
	k := int(edge / 2)
	i, j := k%t.nx, k/t.nx
	if edge%2 == 0 {
		f := share(t.z[k], t.z[k+1], level)
		return Point{t.x[i] + f*(t.x[i+1]-t.x[i]), t.y[j]}
	}
	f := share(t.z[k], t.z[k+t.nx], level)
	return Point{t.x[i], t.y[j] + f*(t.y[j+1]-t.y[j])}
}

// share returns at which part of the way from a to b the level lies. Minus
// infinity is no value: the crossing then lies on the other end.
func share(a, b, level float64) float64 {
	switch {
	case math.IsInf(a, 0):
		return 1
	case math.IsInf(b, 0):
		return 0
	}
	return min(max((level-a)/(b-a), 0), 1)
}

// lean leaves out points that repeat their neighbour or lie on an upright or
// level line between their neighbours.
func lean(ring []Point) []Point {
	out := ring[:0]
	for _, p := range ring {
		for len(out) > 0 && out[len(out)-1] == p || len(out) > 1 && onLine(out[len(out)-2], out[len(out)-1], p) {
			out = out[:len(out)-1]
		}
		out = append(out, p)
	}
	for len(out) > 2 && (out[0] == out[len(out)-1] || onLine(out[len(out)-2], out[len(out)-1], out[0])) {
		out = out[:len(out)-1]
	}
	return out
}

func onLine(a, b, c Point) bool { return a.X == b.X && b.X == c.X || a.Y == b.Y && b.Y == c.Y }
