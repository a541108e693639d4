package main

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// The iliac wing is a bent sheet. Seen from the side it has an outline; over
// each point of it the sheet has a height in Z and a thickness.

// edgeOf is the outline, walked from the anterior inferior spine over the crest
// to the posterior spines and along the greater sciatic notch.
var edgeOf = smooth([][2]float64{
	{30, 14}, {39, 26}, {43, 37}, {36, 47}, {37, 58}, {47, 71}, {51, 79}, {46, 92}, {33, 109}, {13, 123},
	{-12, 131}, {-38, 131}, {-62, 125}, {-84, 114}, {-101, 101}, {-104, 92}, {-95, 82}, {-95, 68}, {-90, 57},
	{-76, 54}, {-62, 52}, {-50, 46}, {-43, 36}, {-38, 22}, {-30, 4}, {0, 0},
})

// knots are heights and half thicknesses of the sheet: x, y, z, t.
var knots = [][4]float64{
	{36, 30, 10, 10}, {41, 37, 13, 8}, {37, 52, 20, 7}, {49, 76, 34, 6.5}, {44, 92, 42, 6},
	{24, 114, 51, 7.5}, {0, 127, 50, 6}, {-30, 131, 36, 6}, {-60, 124, 8, 6.5}, {-85, 112, -18, 8}, {-100, 98, -38, 8},
	{-96, 82, -44, 9}, {-92, 60, -50, 8}, {-75, 60, -48, 11}, {-70, 85, -34, 12}, {-55, 60, -40, 11}, {-45, 42, -36, 9},
	{0, 25, -6, 18}, {20, 30, 2, 12}, {-30, 25, -22, 13}, {15, 60, 13, 6.5}, {25, 85, 30, 4.2}, {0, 85, 22, 4.2},
	{0, 60, 6, 7.5}, {-25, 60, -10, 6}, {-25, 90, 6, 4.2}, {-50, 95, -10, 5.5}, {5, 108, 40, 5}, {-30, 112, 20, 4.5},
	{-50, 78, -24, 8}, {0, 0, -10, 16}, {-30, 0, -24, 12},
}

// ilium returns the wing with its thickened crest.
func ilium() field {
	s := newSheet()
	return func(p r3.Vec) float64 {
		z, zx, zy := s.height.at(p.X, p.Y)
		t, _, _ := s.thick.at(p.X, p.Y)
		e, _, _ := s.edge.at(p.X, p.Y)
		lean := 1 / math.Sqrt(1+zx*zx+zy*zy)
		// The crest and the notch keep a thick, round lip.
		t += 2.2 * math.Exp(-(e+5)*(e+5)/30)
		round := math.Min(t, 5.5)
		u, v := e+round, math.Abs(p.Z-z)*lean-t+round
		return math.Min(math.Max(u, v), 0) + math.Hypot(math.Max(u, 0), math.Max(v, 0)) - round
	}
}

// sheet is the wing tabulated over the x, y plane.
type sheet struct{ height, thick, edge relief }

func newSheet() sheet {
	z, t := newPlate(2), newPlate(3)
	return sheet{tabulate(z.at), tabulate(t.at), tabulate(edge)}
}

// relief holds a function every mm over the box of the wing, and beyond it as
// at its border.
type relief struct{ v [][]float64 }

const (
	westmost, southmost = -120, -40
	reliefWide          = 190
	reliefHigh          = 195
)

func tabulate(f func(x, y float64) float64) (r relief) {
	for j := range reliefHigh + 1 {
		row := make([]float64, reliefWide+1)
		for i := range row {
			row[i] = f(float64(westmost+i), float64(southmost+j))
		}
		r.v = append(r.v, row)
	}
	return r
}

// at returns the value and its slopes along x and y.
func (r relief) at(x, y float64) (v, vx, vy float64) {
	x = math.Min(math.Max(x-westmost, 0), reliefWide-1e-6)
	y = math.Min(math.Max(y-southmost, 0), reliefHigh-1e-6)
	i, j := int(x), int(y)
	u, w := x-float64(i), y-float64(j)
	a, b, c, d := r.v[j][i], r.v[j][i+1], r.v[j+1][i], r.v[j+1][i+1]
	v = (a*(1-u)+b*u)*(1-w) + (c*(1-u)+d*u)*w
	return v, (b-a)*(1-w) + (d-c)*w, (c-a)*(1-u) + (d-b)*u
}

// plate is a thin plate bent over the knots (Duchon 1977), slightly eased so
// that close knots make no ripples.
type plate struct{ weight []float64 }

// newPlate bends a plate through column k of the knots.
func newPlate(k int) plate {
	n := len(knots)
	m := make([][]float64, n+3)
	for i := range m {
		m[i] = make([]float64, n+4)
	}
	for i, a := range knots {
		for j, b := range knots {
			m[i][j] = bend(a[0]-b[0], a[1]-b[1])
		}
		m[i][i] += 60
		for c, v := range [3]float64{1, a[0], a[1]} {
			m[i][n+c], m[n+c][i] = v, v
		}
		m[i][n+3] = a[k]
	}
	return plate{eliminate(m)}
}

func bend(dx, dy float64) float64 {
	r2 := dx*dx + dy*dy
	if r2 == 0 {
		return 0
	}
	return r2 * math.Log(r2) / 2
}

func (p plate) at(x, y float64) float64 {
	n := len(knots)
	v := p.weight[n] + p.weight[n+1]*x + p.weight[n+2]*y
	for i, k := range knots {
		v += p.weight[i] * bend(x-k[0], y-k[1])
	}
	return v
}

// eliminate solves the linear system whose last column is the right side, by
// Gauss-Jordan with row pivots.
func eliminate(m [][]float64) []float64 {
	n := len(m)
	for c := range n {
		best := c
		for r := c; r < n; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[best][c]) {
				best = r
			}
		}
		m[c], m[best] = m[best], m[c]
		for r := range n {
			if r == c {
				continue
			}
			k := m[r][c] / m[c][c]
			for j := c; j <= n; j++ {
				m[r][j] -= k * m[c][j]
			}
		}
	}
	x := make([]float64, n)
	for i := range x {
		x[i] = m[i][n] / m[i][i]
	}
	return x
}

// edge is the distance in the x, y plane to the outline, negative inside.
func edge(x, y float64) float64 {
	best, inside := math.Inf(1), false
	for i, a := range edgeOf {
		b := edgeOf[(i+1)%len(edgeOf)]
		ex, ey := b[0]-a[0], b[1]-a[1]
		t := math.Min(1, math.Max(0, ((x-a[0])*ex+(y-a[1])*ey)/(ex*ex+ey*ey)))
		best = math.Min(best, math.Hypot(x-a[0]-t*ex, y-a[1]-t*ey))
		if (a[1] > y) != (b[1] > y) && x < a[0]+(y-a[1])/(b[1]-a[1])*ex {
			inside = !inside
		}
	}
	if inside {
		return -best
	}
	return best
}

// smooth returns a closed Catmull-Rom curve through the points, four steps to
// each.
func smooth(pts [][2]float64) (out [][2]float64) {
	n := len(pts)
	for i := range pts {
		a, b, c, d := pts[(i+n-1)%n], pts[i], pts[(i+1)%n], pts[(i+2)%n]
		for s := range 4 {
			u := float64(s) / 4
			var p [2]float64
			for k := range p {
				p[k] = b[k] + u/2*(c[k]-a[k]+u*(2*a[k]-5*b[k]+4*c[k]-d[k]+u*(3*(b[k]-c[k])+d[k]-a[k])))
			}
			out = append(out, p)
		}
	}
	return out
}
