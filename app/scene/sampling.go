package scene

// sampling says where a pixel is sampled: rows of samples down the pixel, one
// sample in each, moved sideways so that upright and level outlines get as many
// steps as there are samples (a rotated grid).
type sampling struct {
	rows  int32 // per pixel
	shift uint  // log2 of the subpixels between rows
	shown uint  // shift from the sum of samples to a level
	aside [4]aside
}

// aside is how far right of a pixel's left border a row's samples lie.
type aside struct {
	pixel   float32
	eighths int64
	ceil    int64 // what rounds a position in 2⁻³² pixel up to a sample
}

func asides(eighths ...int64) (a [4]aside) {
	for i := range a {
		k := eighths[i%len(eighths)]
		a[i] = aside{float32(k) / 8, k, one - 1 - k*(one/8)}
	}
	return a
}

var (
	fine   = sampling{rows: 4, shift: 6, shown: 12, aside: asides(3, 7, 1, 5)}
	coarse = sampling{rows: 1, shift: 8, shown: 10, aside: asides(4)}
)

func (r *Renderer) sampling() *sampling {
	if r.Coarse {
		return &coarse
	}
	return &fine
}

// row returns the first row of samples at or below the height y, both counted
// from one origin, y in subpixels.
func (s *sampling) row(y int32) int32 {
	half := int32(1) << (s.shift - 1)
	return (y + half - 1) >> s.shift
}

// meets reports whether a row of samples lies in [y0, y1).
func (s *sampling) meets(y0, y1 int32) bool { return s.row(y0) < s.row(y1) }
