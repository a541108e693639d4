package chart

import (
	"math"
	"runtime"
	"sync"
	"sync/atomic"

	"rimclear/app/figure"
)

// closeEnough is the margin, in degrees, within which the envelope may cross a
// cell of two values each way: a margin falls by no more than the joint turns,
// and such cells of the slices are 4° wide.
const closeEnough = 4

// sampling fills a field with a margin. It is asked for at every fourth value
// of both axes first. Where no line of a chart can pass between four of these,
// the rest is interpolated; elsewhere the margin is asked for at every second
// value too, and at all of them where the envelope may pass.
type sampling struct {
	figure.Field
	nx, ny int
	margin func(i, j int) float64 // at the values of that number
	fall   func(i, j int) float64 // by how much it may fall or rise, at most, in the cell of four from there
	known  []bool
}

// sampled returns a margin over a grid of odd counts. Interpolation moves the
// lines of margins above zero by less than a line's width, and not the
// envelope.
func sampled(x, y []float64, margin, fall func(i, j int) float64) figure.Field {
	n := len(x) * len(y)
	s := sampling{
		Field: figure.Field{X: x, Y: y, Z: make([]float64, n)}, nx: len(x), ny: len(y),
		margin: margin, fall: fall, known: make([]bool, n),
	}
	s.cells(4, s.coarse)
	s.cells(2, s.middle)
	s.between()
	return s.Field
}

// cells calls each for the corners of all cells of so many values each way; the
// last may be narrower.
func (s *sampling) cells(wide int, each func(i, j, to, up int)) {
	for j := 0; j+1 < s.ny; j += wide {
		for i := 0; i+1 < s.nx; i += wide {
			each(i, j, min(i+wide, s.nx-1), min(j+wide, s.ny-1))
		}
	}
}

func (s *sampling) ask(i, j int) float64 {
	k := j*s.nx + i
	if !s.known[k] {
		s.Z[k], s.known[k] = s.margin(i, j), true
	}
	return s.Z[k]
}

// coarse asks for the corners of a cell of four and, where a line may pass, for
// every second value in it.
func (s *sampling) coarse(i, j, to, up int) {
	a, b, c, d := s.ask(i, j), s.ask(to, j), s.ask(i, up), s.ask(to, up)
	fall := s.fall(i, j)
	clear := min(a, b, c, d) > marginLevels[len(marginLevels)-1]+fall || max(a, b, c, d) < marginLevels[0]-fall
	for v := j; v <= up; v += 2 {
		for u := i; u <= to; u += 2 {
			if !clear {
				s.ask(u, v)
			} else if k := v*s.nx + u; !s.known[k] {
				f, g := float64(u-i)/float64(to-i), float64(v-j)/float64(up-j)
				s.Z[k] = (1-g)*((1-f)*a+f*b) + g*((1-f)*c+f*d)
			}
		}
	}
}

// middle asks for all values in a cell of two where the envelope may pass.
func (s *sampling) middle(i, j, to, up int) {
	n := s.nx
	if crossed(s.Z[j*n+i], s.Z[j*n+to], s.Z[up*n+i], s.Z[up*n+to]) {
		s.ask(i+1, j)
		s.ask(i, j+1)
		s.ask(i+1, j+1)
		s.ask(to, j+1)
		s.ask(i+1, up)
	}
}

// crossed reports whether the envelope may pass between four margins.
func crossed(a, b, c, d float64) bool {
	lo, hi := min(a, b, c, d), max(a, b, c, d)
	return lo <= 0 && hi >= 0 || min(math.Abs(lo), math.Abs(hi)) <= max(closeEnough, 2*(hi-lo))
}

// between fills the values that were not asked for from those beside them.
func (s *sampling) between() {
	n := s.nx
	for j := 0; j < s.ny; j += 2 {
		for i := 1; i < n; i += 2 {
			if k := j*n + i; !s.known[k] {
				s.Z[k] = (s.Z[k-1] + s.Z[k+1]) / 2
			}
		}
	}
	for j := 1; j < s.ny; j += 2 {
		for i := range n {
			if k := j*n + i; !s.known[k] {
				s.Z[k] = (s.Z[k-n] + s.Z[k+n]) / 2
			}
		}
	}
}

// atOnce does so many things on all processors.
func atOnce(n int, do func(i int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	all.Wait()
}
