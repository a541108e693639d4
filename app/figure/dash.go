package figure

import "math"

// run is a piece of a line and how far from the start of the line it begins.
type run struct {
	pts  []Point
	from float64
}

// dashes cuts runs into the pieces that pattern leaves: lengths of line and gap
// in turn, beginning with a line at the start of the whole line.
func dashes(runs []run, pattern []float64) [][]Point {
	period := 0.0
	for _, d := range pattern {
		period += max(d, 0)
	}
	var out [][]Point
	for _, r := range runs {
		if !(period > 0.01) || len(pattern) < 2 { // too fine to see
			out = append(out, r.pts)
			continue
		}
		out = r.cut(out, pattern, period)
	}
	return out
}

func (r run) cut(out [][]Point, pattern []float64, period float64) [][]Point {
	at := math.Mod(r.from, period)
	k := 0
	for at >= pattern[k] {
		at -= pattern[k]
		k = (k + 1) % len(pattern)
	}
	left := pattern[k] - at
	var piece []Point
	if k%2 == 0 {
		piece = []Point{r.pts[0]}
	}
	for i := 1; i < len(r.pts); i++ {
		a, b := r.pts[i-1], r.pts[i]
		length := b.Sub(a).Norm()
		for done := 0.0; done < length; {
			if left > length-done {
				left -= length - done
				break
			}
			done += left
			p := a.Add(b.Sub(a).Scale(done / length))
			if piece != nil {
				out = append(out, append(piece, p))
				piece = nil
			}
			k = (k + 1) % len(pattern)
			left = pattern[k]
			for left <= 0 {
				k = (k + 1) % len(pattern)
				left = pattern[k]
			}
			if k%2 == 0 {
				piece = []Point{p}
			}
		}
		if piece != nil {
			piece = append(piece, b)
		}
	}
	if len(piece) > 1 {
		out = append(out, piece)
	}
	return out
}
