package figure

import "math"

// hatching is how much lines at 45° that rise to the right cover of pixels, by
// the sum of a pixel's coordinates; it returns after so many pixels.
type hatching []uint8

// longestPeriod is the longest period that is worth a table, in pixels.
const longestPeriod = 64

// hatchingOf returns the cover of lines a distance and a width in pixels, if
// all of them fall alike on pixels.
func hatchingOf(pitch, width float64) (hatching, bool) {
	period := pitch * math.Sqrt2
	n := math.Round(period)
	if n < 2 || n > longestPeriod || math.Abs(period-n) > 1e-6 || width > pitch {
		return nil, false
	}
	half := width / math.Sqrt2 // of a line, along the axes
	list := make(hatching, int(n))
	for i := range list {
		area := 0.0
		for _, line := range [3]float64{0, n, 2 * n} { // the pixel reaches from i to i+2
			at := line - float64(i)
			area += below45(at+half) - below45(at-half)
		}
		list[i] = uint8(math.Round(255 * min(area, 1)))
	}
	return list, true
}

// below45 returns how much of the unit square lies where x+y is less than u.
func below45(u float64) float64 {
	switch {
	case u <= 0:
		return 0
	case u <= 1:
		return u * u / 2
	case u <= 2:
		return 1 - (2-u)*(2-u)/2
	}
	return 1
}

// Hatch draws a hatch inside rings, and reports whether it could: only lines
// that all fall alike on pixels are drawn here, at the cost of their pixels
// instead of their edges.
func (r *Raster) Hatch(rings [][]Point, pitch float64, s Stroke) bool {
	lines, ok := hatchingOf(pitch*r.scale, s.Width*r.scale)
	if !ok {
		return false
	}
	k, origin := brushOf(s.Colour), r.img.Rect.Min
	r.each(r.covered(r.pixels(rings)), func(row []uint8, x, y int, cover uint8) {
		lines.lay(k, row, x+y-origin.X-origin.Y, cover)
	})
	return true
}

// lay lays the lines over a row of pixels, the first of which has so great a
// sum of coordinates, times a share of 255.
func (h hatching) lay(k brush, row []uint8, sum int, share uint8) {
	for i, cover := range h {
		if cover = times255(cover, share); cover == 0 {
			continue
		}
		first := (i - sum%len(h) + len(h)) % len(h)
		for at := 4 * first; at < len(row); at += 4 * len(h) {
			k.lay(row[at:at+4:at+4], cover)
		}
	}
}
