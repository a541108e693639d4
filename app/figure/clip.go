package figure

import "image"

// clip is what a raster may draw on: a box of pixels and, unless it is the
// whole box, how much of each pixel.
type clip struct {
	box  image.Rectangle
	mask *spans // nil for the whole box; covers at least the box
}

// Clip limits drawing to the inside of rings. An upright rectangle is rounded
// to whole pixels; any other outline is antialiased.
func (r *Raster) Clip(rings [][]Point) {
	r.saved = append(r.saved, r.clip)
	rings = r.pixels(rings)
	if b, ok := upright(rings); ok {
		r.clip.box = r.clip.box.Intersect(rounded(b, r.clip.box))
		return
	}
	covered, mask := r.covered(rings), new(spans)
	if r.clip.mask != nil {
		mask.common(covered, r.clip.mask)
	} else {
		mask.copy(covered)
	}
	r.clip = clip{box: mask.box, mask: mask}
}

// Unclip undoes the last Clip.
func (r *Raster) Unclip() {
	r.clip = r.saved[len(r.saved)-1]
	r.saved = r.saved[:len(r.saved)-1]
}

// upright returns the rectangle that rings are, if they are one.
func upright(rings [][]Point) (Rect, bool) {
	if len(rings) != 1 {
		return Rect{}, false
	}
	p := rings[0]
	if len(p) == 5 && p[4] == p[0] {
		p = p[:4]
	}
	if len(p) != 4 {
		return Rect{}, false
	}
	across := p[0].Y == p[1].Y && p[1].X == p[2].X && p[2].Y == p[3].Y && p[3].X == p[0].X
	down := p[0].X == p[1].X && p[1].Y == p[2].Y && p[2].X == p[3].X && p[3].Y == p[0].Y
	if !across && !down {
		return Rect{}, false
	}
	b, ok := Bounds(p)
	return b, ok
}

// rounded returns b with its sides on the nearest pixel borders, within limit.
func rounded(b Rect, limit image.Rectangle) image.Rectangle {
	at := func(v float64, lo, hi int) int { return int(min(max(v, float64(lo)), float64(hi)) + 0.5) }
	off := limit.Min // keeps the truncation above on positive numbers
	b = Rect{b.Min.Sub(Point{float64(off.X), float64(off.Y)}), b.Max.Sub(Point{float64(off.X), float64(off.Y)})}
	w, h := limit.Dx(), limit.Dy()
	return image.Rect(at(b.Min.X, 0, w), at(b.Min.Y, 0, h), at(b.Max.X, 0, w), at(b.Max.Y, 0, h)).Add(off)
}
