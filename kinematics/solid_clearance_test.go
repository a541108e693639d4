package kinematics

import "math"

// section is how far the neck reaches from its axis at an azimuth, before any
// taper and skirt: where a ray from the axis leaves it.
func (s *solidNeck) section(psi float64) float64 {
	sin, cos := math.Sincos(psi)
	lo, hi := 0.0, 200.0
	for range 60 {
		r := (lo + hi) / 2
		g := s.core(r*cos, r*sin, 1)
		if s.n.Bump.Height > 0 {
			g = min(g, s.bumped(r*cos, r*sin, 1))
		}
		if g <= 0 {
			lo = r
		} else {
			hi = r
		}
	}
	return lo
}

// outline is the neck's surface at an azimuth outside a ball: corners of a
// line, each so far along and across the axis, from where it leaves the ball.
func (s *solidNeck) outline(psi, ball float64) []vec2 {
	r := s.section(psi)
	radius := func(x float64) float64 { return r * s.scale(x) }
	far := 10 * ball
	stops := []float64{0, far}
	if s.d0 > 0 {
		stops = []float64{0, s.s0, s.s1, far}
	}
	var line []vec2
	put := func(x, y float64) { line = append(line, vec2{x, y}) }
	if k := s.n.Skirt; k.Diameter > 0 {
		put(0, k.Diameter/2)
		put(k.Length, k.Diameter/2)
		put(k.Length, radius(k.Length))
	} else {
		put(0, radius(0))
	}
	for _, x := range stops {
		if x > line[len(line)-1][0] {
			put(x, radius(x))
		}
	}
	return leaving(line, ball)
}

// leaving cuts a line off at the last place inside a ball.
func leaving(line []vec2, ball float64) []vec2 {
	last := 0
	for i, p := range line {
		if hypot(p[0], p[1]) < ball {
			last = i
		}
	}
	a, b := line[last], line[last+1]
	lo, hi := 0.0, 1.0
	for range 60 {
		if t := (lo + hi) / 2; hypot(a[0]+t*(b[0]-a[0]), a[1]+t*(b[1]-a[1])) < ball {
			lo = t
		} else {
			hi = t
		}
	}
	line[last] = vec2{a[0] + lo*(b[0]-a[0]), a[1] + lo*(b[1]-a[1])}
	return line[last:]
}

// distance is the way from a point outside the neck to its surface outside the
// ball.
func (s *solidNeck) distance(ball, x, up, fore float64) float64 {
	psi, r := math.Atan2(fore, up), hypot(up, fore)
	at := func(turn float64) float64 {
		sin, cos := math.Sincos(turn)
		return hypot(toLine(s.outline(psi+turn, ball), x, r*cos), r*sin)
	}
	if s.a == 0 && s.corners == nil && s.n.Bump.Height == 0 {
		return at(0)
	}
	best, turn := math.Inf(1), 0.0
	for k := -60.0; k <= 60; k++ {
		if d := at(k / 60); d < best {
			best, turn = d, k/60
		}
	}
	for step := 1.0 / 60; step > 1e-9; step /= 2 {
		for moved := true; moved; {
			moved = false
			for _, t := range []float64{turn - step, turn + step} {
				if d := at(t); d < best-1e-13 {
					best, turn, moved = d, t, true
				}
			}
		}
	}
	return best
}

func toLine(line []vec2, x, y float64) float64 {
	best := math.Inf(1)
	for i := range len(line) - 1 {
		a, b := line[i], line[i+1]
		dx, dy := b[0]-a[0], b[1]-a[1]
		t := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			t = max(0, min(1, ((x-a[0])*dx+(y-a[1])*dy)/l))
		}
		best = min(best, hypot(x-a[0]-t*dx, y-a[1]-t*dy))
	}
	return best
}
