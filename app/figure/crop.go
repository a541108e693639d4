package figure

// visible returns the parts of a line inside guard; a line that lies in it
// wholly is returned as it is.
func visible(pts []Point, guard Rect) []run {
	if len(pts) < 2 {
		return nil
	}
	if b, ok := Bounds(pts); ok && guard.Contains(b.Min) && guard.Contains(b.Max) {
		return []run{{pts: pts}}
	}
	var out []run
	var now run
	length := 0.0
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		l := b.Sub(a).Norm()
		t0, t1, ok := between(a, b, guard)
		if !ok || t0 > 0 {
			out, now = flushed(out, now)
		}
		if ok {
			if now.pts == nil {
				now = run{pts: []Point{a.Add(b.Sub(a).Scale(t0))}, from: length + t0*l}
			}
			if t1 < 1 {
				now.pts = append(now.pts, a.Add(b.Sub(a).Scale(t1)))
				out, now = flushed(out, now)
			} else {
				now.pts = append(now.pts, b)
			}
		}
		length += l
	}
	out, _ = flushed(out, now)
	return out
}

func flushed(out []run, now run) ([]run, run) {
	if len(now.pts) > 1 {
		out = append(out, now)
	}
	return out, run{}
}

// between returns the part of the segment from a to b inside r, as fractions of
// it (Liang and Barsky, ACM Transactions on Graphics 3:1, 1984).
func between(a, b Point, r Rect) (t0, t1 float64, ok bool) {
	t0, t1 = 0, 1
	d := b.Sub(a)
	for _, e := range [4][2]float64{
		{-d.X, a.X - r.Min.X}, {d.X, r.Max.X - a.X},
		{-d.Y, a.Y - r.Min.Y}, {d.Y, r.Max.Y - a.Y},
	} {
		p, q := e[0], e[1]
		switch {
		case p == 0:
			if q < 0 {
				return 0, 0, false
			}
		case p < 0:
			t0 = max(t0, q/p)
		default:
			t1 = min(t1, q/p)
		}
	}
	return t0, t1, t0 <= t1
}
