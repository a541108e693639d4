package scene

// Quality is how many samples a pixel has.
type Quality int

const (
	Fine   Quality = iota // 2×2, for the window
	Coarse                // 1, for large pictures while they are dragged
	Best                  // 2×4, for pictures that are kept
)

// sampling says where a pixel is sampled: rows of samples down the pixel, each
// moved sideways against the others, so that no two samples of a pixel lie
// above each other.
type sampling struct {
	rows    int32   // per pixel
	columns int64   // per pixel
	wide    int64   // columns in a tile
	high    int32   // rows in a tile
	pitch   uint    // log2 of the subpixels between rows
	shown   uint    // shift from the sum of samples to a level
	across  float64 // columns
	aside   [4]aside
}

// aside is how far right of a column's left border a row's samples lie.
type aside struct {
	column  float32
	eighths int64
	ceil    int64 // what rounds a position in 2⁻³² column up to a sample
}

func newSampling(rows, columns int, pitch, shown uint, eighths [4]int64) *sampling {
	s := &sampling{
		rows: int32(rows), columns: int64(columns), across: float64(columns),
		wide: int64(tileWide * columns), high: int32(tileHigh * rows), pitch: pitch, shown: shown,
	}
	for i, k := range eighths {
		s.aside[i] = aside{float32(k) / 8, k, one - 1 - k*(one/8)}
	}
	return s
}

var samplings = [...]*sampling{
	Fine:   newSampling(2, 2, 7, 12, [4]int64{2, 6, 2, 6}),
	Coarse: newSampling(1, 1, 8, 10, [4]int64{4, 4, 4, 4}),
	Best:   newSampling(4, 2, 6, 13, [4]int64{1, 5, 3, 7}),
}

// row returns the first row of samples below the height y, both counted from
// one origin, y in subpixels. Rows lie half a subpixel below the middle of
// their share of the pixel, so that no vertex lies on one.
func (s *sampling) row(y int32) int32 {
	half := int32(1) << ((s.pitch - 1) & 31)
	return (y + half - 1) >> (s.pitch & 31)
}

// meets reports whether a row of samples lies in [y0, y1).
func (s *sampling) meets(y0, y1 int32) bool { return s.row(y0) < s.row(y1) }
