package scene

import "encoding/binary"

// buffer holds the samples of one tile: inverse depth and packed colour, row
// of samples after row of samples.
type buffer struct {
	w      [tileSide * tileSide * 4]float32
	colour [tileSide * tileSide * 4]int64
}

// fill draws tile i and writes its pixels.
func (r *Renderer) fill(b *buffer, i int) {
	s := r.sampling()
	tx, ty := i%r.tiles.nx, i/r.tiles.nx
	list := r.tiles.list[r.tiles.starts[i]:r.tiles.starts[i+1]]
	if len(list) == 0 {
		r.blank(tx, ty)
		return
	}
	b.clear(s, r.sky.packed[ty*tileSide:])
	for from := 0; from < len(list); {
		instance := r.triangles[list[from]].instance
		to := from + 1
		for to < len(list) && r.triangles[list[to]].instance == instance {
			to++
		}
		if at := &r.places[instance]; at.clear {
			r.layer(b, s, tx, ty, list[from:to], depthOnly, 0)
			r.layer(b, s, tx, ty, list[from:to], blend, at.alpha)
		} else {
			r.layer(b, s, tx, ty, list[from:to], opaque, 0)
		}
		from = to
	}
	r.resolve(b, s, tx, ty)
}

func (r *Renderer) layer(b *buffer, s *sampling, tx, ty int, list []int32, how mode, alpha uint32) {
	for _, k := range list {
		t := &r.triangles[k]
		var c slope
		if c.set(&r.vertices[t.v[0]], &r.vertices[t.v[1]], &r.vertices[t.v[2]], tx, ty, s) {
			c.draw(b, s, how, uint64(alpha))
		}
	}
}

// clear sets all samples to the background, row by row of the picture, and
// infinitely far.
func (b *buffer) clear(s *sampling, background []int64) {
	clear(b.w[:tileSide*tileSide*s.rows])
	per := tileSide * int(s.rows)
	for y, c := range background[:tileSide] {
		row := b.colour[y*per : (y+1)*per]
		for k := range row {
			row[k] = c
		}
	}
}

// bounds returns the pixels of a tile.
func (r *Renderer) bounds(tx, ty int) (x0, y0, x1, y1 int) {
	x0, y0 = tx*tileSide, ty*tileSide
	return x0, y0, min(x0+tileSide, r.tiles.w), min(y0+tileSide, r.tiles.h)
}

// blank writes a tile of background.
func (r *Renderer) blank(tx, ty int) {
	x0, y0, x1, y1 := r.bounds(tx, ty)
	for y := y0; y < y1; y++ {
		copy(r.row(x0, x1, y), r.sky.pixels[y][:])
	}
}

// row returns the bytes of the pixels x0 to x1 of picture row y.
func (r *Renderer) row(x0, x1, y int) []uint8 {
	at := y * r.target.Stride
	return r.target.Pix[at+4*x0 : at+4*x1]
}

// resolve averages the samples of each pixel into the picture.
func (r *Renderer) resolve(b *buffer, s *sampling, tx, ty int) {
	x0, y0, x1, y1 := r.bounds(tx, ty)
	for y := y0; y < y1; y++ {
		row := r.row(x0, x1, y)
		bias := &dither[y&1]
		if s.rows == 1 {
			c := b.colour[(y-y0)*tileSide:][:tileSide]
			for x := range x1 - x0 {
				binary.LittleEndian.PutUint32(row[4*x:], pixel(uint64(c[x]), 10, bias[x&1]))
			}
			continue
		}
		c := b.colour[(y-y0)*4*tileSide:][:4*tileSide]
		c0, c1, c2, c3 := c[:tileSide], c[tileSide:2*tileSide], c[2*tileSide:3*tileSide], c[3*tileSide:]
		for x := range x1 - x0 {
			sum := uint64(c0[x] + c1[x] + c2[x] + c3[x])
			binary.LittleEndian.PutUint32(row[4*x:], pixel(sum, 12, bias[x&1]<<2))
		}
	}
}
