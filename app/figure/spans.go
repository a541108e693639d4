package figure

import "image"

// spans says how much of each pixel of a box is covered, as runs of equal
// pixels. What lies in no run is bare.
type spans struct {
	box   image.Rectangle
	start []int // of the runs of each row; one more than there are rows
	runs  []span
}

// span is a stretch of a row, from ≤ x < to, counted from the left side of the
// box.
type span struct {
	from, to int
	cover    uint8 // of 255; never 0
}

// reset empties s and gives it a box.
func (s *spans) reset(box image.Rectangle) {
	s.box, s.start, s.runs = box, s.start[:0], s.runs[:0]
}

// row returns the runs of the row at y, which lies in the box.
func (s *spans) row(y int) []span {
	i := y - s.box.Min.Y
	return s.runs[s.start[i]:s.start[i+1]]
}

// put ends a run at x and adds it if it covers anything.
func (s *spans) put(r span, x int) {
	if r.cover > 0 && x > r.from {
		r.to = x
		s.runs = append(s.runs, r)
	}
}

// copy makes s the same as o.
func (s *spans) copy(o *spans) {
	s.box = o.box
	s.start, s.runs = append(s.start[:0], o.start...), append(s.runs[:0], o.runs...)
}

// common makes s what a and b have in common: the product of both.
func (s *spans) common(a, b *spans) {
	s.reset(a.box.Intersect(b.box))
	for y := s.box.Min.Y; y < s.box.Max.Y; y++ {
		s.start = append(s.start, len(s.runs))
		shared(a.row(y), a.box.Min.X, b.row(y), b.box.Min.X, func(from, to int, cover uint8) {
			s.put(span{from: from - s.box.Min.X, cover: cover}, to-s.box.Min.X)
		})
	}
	s.start = append(s.start, len(s.runs))
}

// shared calls each for the stretches that two rows have in common; each row
// begins at its own x.
func shared(a []span, ax int, b []span, bx int, each func(from, to int, cover uint8)) {
	for len(a) > 0 && len(b) > 0 {
		from, to := max(a[0].from+ax, b[0].from+bx), min(a[0].to+ax, b[0].to+bx)
		if from < to {
			if cover := times255(a[0].cover, b[0].cover); cover > 0 {
				each(from, to, cover)
			}
		}
		if a[0].to+ax < b[0].to+bx {
			a = a[1:]
		} else {
			b = b[1:]
		}
	}
}

// times255 returns the product of two shares of 255.
func times255(a, b uint8) uint8 { return uint8((uint32(a)*uint32(b) + 127) / 255) }

// alpha returns s as a picture.
func (s *spans) alpha() *image.Alpha {
	img := image.NewAlpha(s.box)
	for y := s.box.Min.Y; y < s.box.Max.Y; y++ {
		row := img.Pix[img.PixOffset(s.box.Min.X, y):]
		for _, r := range s.row(y) {
			for x := r.from; x < r.to; x++ {
				row[x] = r.cover
			}
		}
	}
	return img
}
