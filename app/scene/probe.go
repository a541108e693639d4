package scene

import "gonum.org/v1/gonum/spatial/r3"

// Probe is a point of which a picture tells whether it can be seen.
type Probe struct {
	At     r3.Vec // mm, pelvis frame
	Wanted bool
}

// hiddenBy is how far before a point a surface must lie to hide it, in mm: what
// the point itself lies on does not.
const hiddenBy = 2.0

// probing is where a picture has its probe.
type probing struct {
	tile, sample int
	w            float32 // a surface with a greater inverse depth hides it
	hidden       bool
}

// Hidden reports whether, in the picture last drawn, an opaque part hid the
// probe.
func (r *Renderer) Hidden() bool { return r.probing.hidden }

// aim finds the tile and the sample of the probe.
func (r *Renderer) aim() {
	r.probing = probing{tile: -1}
	if !r.Probe.Wanted {
		return
	}
	x, y, depth, ok := r.lens.Project(r.Probe.At)
	if !ok || x < 0 || y < 0 || int(x) >= r.tiles.w || int(y) >= r.tiles.h {
		return
	}
	s := samplings[r.Quality]
	column, row := int(x)%tileWide*int(s.columns), int(y)%tileHigh*int(s.rows)
	r.probing.tile = int(y)/tileHigh*r.tiles.nx + int(x)/tileWide
	r.probing.sample = row*int(s.wide) + column
	r.probing.w = float32(1 / max(depth-hiddenBy, nearest))
}

// probe looks, once the opaque parts of a tile are drawn, whether they hide the
// probe.
func (r *Renderer) probe(b *buffer, tile int) {
	if tile == r.probing.tile {
		r.probing.hidden = b.w[r.probing.sample] > r.probing.w
	}
}
