package chart

import "rimclear/app/figure"

// labels places texts so that none lies on another; those without room are
// left out.
type labels struct {
	within figure.Rect
	taken  []figure.Rect
}

// put draws text with its middle at the first of the places that is free, and
// reports whether there was one.
func (b *labels) put(s *figure.Surface, text string, t figure.TextStyle, places ...figure.Point) bool {
	w, h := t.Width(text)+0.5*t.Size, t.Ascent()+t.Descent()
	for _, at := range places {
		r := figure.Box(at.X-w/2, at.Y-h/2, w, h)
		if b.free(r) {
			b.taken = append(b.taken, r)
			s.Text(at, text, t.At(figure.Centre, figure.Middle))
			return true
		}
	}
	return false
}

// take keeps a square of a width about a point free of texts.
func (b *labels) take(at figure.Point, width float64) {
	b.taken = append(b.taken, figure.Box(at.X-width/2, at.Y-width/2, width, width))
}

func (b *labels) free(r figure.Rect) bool {
	if !b.within.Contains(r.Min) || !b.within.Contains(r.Max) {
		return false
	}
	for _, o := range b.taken {
		if r.Min.X < o.Max.X && o.Min.X < r.Max.X && r.Min.Y < o.Max.Y && o.Min.Y < r.Max.Y {
			return false
		}
	}
	return true
}

// contours names the lines of each level, where there is room on the longest.
func (b *labels) contours(s *figure.Surface, fr figure.Frame, f figure.Field, levels []float64, t figure.TextStyle) {
	b.named(s, fr, f, levels, t, func(level float64) string { return figure.Number(level, 0) + "°" })
}

// named is contours in words of its own.
func (b *labels) named(s *figure.Surface, fr figure.Frame, f figure.Field, levels []float64, t figure.TextStyle, name func(float64) string) {
	for i, level := range levels {
		text := name(level)
		line, length := longest(fr.Map(f.Lines(level)))
		if length < 4*t.Width(text) {
			continue
		}
		first := 0.35 + 0.12*float64(i)
		var places []figure.Point
		for k := range 8 {
			at := first + 0.09*float64((k+1)/2)*float64(1-2*(k%2))
			places = append(places, along(line, at*length))
		}
		b.put(s, text, t, places...)
	}
}

func longest(lines [][]figure.Point) (best []figure.Point, length float64) {
	for _, line := range lines {
		l := 0.0
		for i := 1; i < len(line); i++ {
			l += line[i].Sub(line[i-1]).Norm()
		}
		if l > length {
			best, length = line, l
		}
	}
	return best, length
}

// along returns the point of a line at a length from its start.
func along(line []figure.Point, l float64) figure.Point {
	for i := 1; i < len(line); i++ {
		d := line[i].Sub(line[i-1])
		if n := d.Norm(); l <= n && n > 0 {
			return line[i-1].Add(d.Scale(l / n))
		} else {
			l -= n
		}
	}
	return line[len(line)-1]
}
