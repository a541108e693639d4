package scene

// A tile's four samples per pixel, with their depths, take 96 KB. That is for
// the second-level cache; tiles that fit the first (32×16) were measured a tenth
// slower, since more triangles then lie in two or more of them.
const (
	tileWide, tileHigh   = 64, 32
	tileAcross, tileDown = 14, 13 // log2 of the sides in subpixels
)

// triangle is a kept triangle: picture vertices in drawing order, so that its
// area is positive, and the tiles it may touch.
type triangle struct {
	v              [3]int32
	instance       int32
	back           bool // its inside faces the eye
	x0, y0, x1, y1 int16
}

// tiling sorts triangles into tiles. Each batch counts apart, so that the list
// of a tile keeps the triangles' order however the batches were shared out.
type tiling struct {
	nx, ny, w, h int
	batches      int
	counts       []int32 // batch-major: counts[batch*tiles+tile]
	starts       []int32 // of each tile's list, one more than tiles
	list         []int32
}

func (t *tiling) reset(w, h, batches int) {
	t.w, t.h, t.batches = w, h, batches
	t.nx, t.ny = (w+tileWide-1)/tileWide, (h+tileHigh-1)/tileHigh
	t.counts = sized(t.counts, batches*t.nx*t.ny)
	clear(t.counts)
	t.starts = sized(t.starts, t.nx*t.ny+1)
}

// prefix turns the counts into positions in the list.
func (t *tiling) prefix() {
	n := t.nx * t.ny
	sum := int32(0)
	for k := range n {
		t.starts[k] = sum
		for b := range t.batches {
			c := &t.counts[b*n+k]
			*c, sum = sum, sum+*c
		}
	}
	t.starts[n] = sum
	t.list = sized(t.list, int(sum))
}

// sort keeps the triangles of batch i that can be seen and counts their tiles.
func (r *Renderer) sort(_ *buffer, i int) {
	b := &r.batches[i]
	in, at := &r.order[b.instance], &r.places[b.instance]
	counts := r.tiles.counts[i*r.tiles.nx*r.tiles.ny:]
	kept := r.triangles[b.keptFrom:b.keptFrom:cap(r.triangles)]
	if at.cut {
		kept = r.sortCut(b, kept, counts)
	} else {
		vertices := r.vertices[at.first : int(at.first)+len(in.Mesh.points)]
		for _, c := range in.Mesh.corners[b.tFrom:b.tTo] {
			t := triangle{instance: b.instance, v: c}
			if r.keep(&t, vertices, at) {
				kept = append(kept, t)
				r.tiles.count(&t, counts)
			}
		}
	}
	b.kept = int32(len(kept))
}

// sortCut is sort for a part that is cut.
func (r *Renderer) sortCut(b *batch, kept []triangle, counts []int32) []triangle {
	at, mesh := &r.places[b.instance], r.order[b.instance].Mesh
	vertices := r.vertices[at.first : int(at.first)+len(mesh.points)+2*len(mesh.corners)]
	c := r.carving(b, vertices)
	for i := b.tFrom; i < b.tTo; i++ {
		rest, n := c.left(i)
		for k := range n {
			t := triangle{instance: b.instance, v: rest[k]}
			if r.keep(&t, vertices, at) {
				kept = append(kept, t)
				r.tiles.count(&t, counts)
			}
		}
	}
	return kept
}

// count counts a triangle in its tiles.
func (t *tiling) count(of *triangle, counts []int32) {
	for y := int(of.y0); y <= int(of.y1); y++ {
		for x := int(of.x0); x <= int(of.x1); x++ {
			counts[y*t.nx+x]++
		}
	}
}

// keep orders the corners of t, finds its tiles, and reports whether it faces
// the eye (or shows both sides) and touches the picture.
func (r *Renderer) keep(t *triangle, vertices []vertex, at *place) bool {
	p, q, s := &vertices[t.v[0]], &vertices[t.v[1]], &vertices[t.v[2]]
	if p.x == unseen || q.x == unseen || s.x == unseen {
		return false
	}
	// Positive when the corners run anticlockwise on screen, where y points down.
	area := int64(s.x-p.x)*int64(q.y-p.y) - int64(q.x-p.x)*int64(s.y-p.y)
	if at.flipped {
		area = -area
	}
	if area == 0 || area < 0 && !at.bothSides && !at.cut {
		return false
	}
	x0, x1 := min(p.x, q.x, s.x), max(p.x, q.x, s.x)
	y0, y1 := min(p.y, q.y, s.y), max(p.y, q.y, s.y)
	if x1 < 0 || y1 < 0 || x0 >= int32(r.tiles.w*subpixel) || y0 >= int32(r.tiles.h*subpixel) {
		return false
	}
	if !samplings[r.Quality].meets(y0, y1) {
		return false
	}
	t.x0, t.y0 = int16(max(x0, 0)>>tileAcross), int16(max(y0, 0)>>tileDown)
	t.x1, t.y1 = int16(min(x1>>tileAcross, int32(r.tiles.nx-1))), int16(min(y1>>tileDown, int32(r.tiles.ny-1)))
	t.back = area < 0
	if t.back == at.flipped {
		t.v[1], t.v[2] = t.v[2], t.v[1]
	}
	for k := range t.v {
		t.v[k] += at.first
	}
	return true
}

// file writes the kept triangles of batch i into their tiles' lists.
func (r *Renderer) file(_ *buffer, i int) {
	b := &r.batches[i]
	next := r.tiles.counts[i*r.tiles.nx*r.tiles.ny:]
	for k := b.keptFrom; k < b.keptFrom+b.kept; k++ {
		t := &r.triangles[k]
		for y := int(t.y0); y <= int(t.y1); y++ {
			for x := int(t.x0); x <= int(t.x1); x++ {
				n := &next[y*r.tiles.nx+x]
				r.tiles.list[*n] = k
				*n++
			}
		}
	}
}
