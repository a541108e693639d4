package chart

import (
	"math"

	"rimclear/app/figure"
)

// closeEnough is the margin, in degrees, within which the envelope may cross a
// cell of sampled: a margin falls by no more than the joint turns, and the
// cells of the slices are twice 2° wide.
const closeEnough = 4

// sampled returns a margin over a grid of odd counts. It is asked for at every
// second value of both axes, and at the values between them where the envelope
// may pass; elsewhere these are interpolated, which moves the lines of greater
// margins by less than a line's width.
func sampled(x, y []float64, margin func(x, y float64) float64) figure.Field {
	f := figure.Field{X: x, Y: y, Z: make([]float64, len(x)*len(y))}
	n := len(x)
	for j := 0; j < len(y); j += 2 {
		for i := 0; i < n; i += 2 {
			f.Z[j*n+i] = margin(x[i], y[j])
		}
	}
	fine := make([]bool, len(f.Z)) // asked for exactly
	for j := 0; j+2 < len(y); j += 2 {
		for i := 0; i+2 < n; i += 2 {
			if crossed(f.Z[j*n+i], f.Z[j*n+i+2], f.Z[(j+2)*n+i], f.Z[(j+2)*n+i+2]) {
				for _, k := range [5]int{j*n + i + 1, (j+1)*n + i, (j+1)*n + i + 1, (j+1)*n + i + 2, (j+2)*n + i + 1} {
					if !fine[k] {
						fine[k] = true
						f.Z[k] = margin(x[k%n], y[k/n])
					}
				}
			}
		}
	}
	interpolate(f, fine)
	return f
}

// crossed reports whether the envelope may pass between four margins.
func crossed(a, b, c, d float64) bool {
	lo, hi := min(a, b, c, d), max(a, b, c, d)
	return lo <= 0 && hi >= 0 || min(math.Abs(lo), math.Abs(hi)) <= max(closeEnough, 2*(hi-lo))
}

// interpolate fills the values that were not asked for from those beside them.
func interpolate(f figure.Field, fine []bool) {
	n := len(f.X)
	for j := 0; j < len(f.Y); j += 2 {
		for i := 1; i < n; i += 2 {
			if k := j*n + i; !fine[k] {
				f.Z[k] = (f.Z[k-1] + f.Z[k+1]) / 2
			}
		}
	}
	for j := 1; j < len(f.Y); j += 2 {
		for i := range n {
			if k := j*n + i; !fine[k] {
				f.Z[k] = (f.Z[k-n] + f.Z[k+n]) / 2
			}
		}
	}
}
