package scene

import "encoding/binary"

// buffer holds the samples of one tile: inverse depth and packed colour, row
// of samples after row of samples.
type buffer struct {
	w      [samples]float32
	colour [samples]int64
}

// samples is how many a tile has at most: a power of two, so that a masked
// index needs no check.
const samples = tileWide * tileHigh * 8

// fill draws tile i and writes its pixels.
func (r *Renderer) fill(b *buffer, i int) {
	s := samplings[r.Quality]
	tx, ty := i%r.tiles.nx, i/r.tiles.nx
	list := r.tiles.list[r.tiles.starts[i]:r.tiles.starts[i+1]]
	if len(list) == 0 {
		r.blank(tx, ty)
		return
	}
	b.clear(s, r.sky.packed[ty*tileHigh:])
	seen := false // the opaque parts come first
	for from := 0; from < len(list); {
		instance := r.triangles[list[from]].instance
		to := from + 1
		for to < len(list) && r.triangles[list[to]].instance == instance {
			to++
		}
		if at := &r.places[instance]; at.clear {
			if !seen {
				r.probe(b, i)
				seen = true
			}
			r.layer(b, s, tx, ty, list[from:to], depthOnly, 0)
			r.layer(b, s, tx, ty, list[from:to], blend, at.alpha)
		} else {
			r.layer(b, s, tx, ty, list[from:to], opaque, 0)
		}
		from = to
	}
	if !seen {
		r.probe(b, i)
	}
	r.resolve(b, s, tx, ty)
}

func (r *Renderer) layer(b *buffer, s *sampling, tx, ty int, list []int32, how mode, alpha uint32) {
	at := &r.places[r.triangles[list[0]].instance]
	var c slope
	for _, k := range list {
		t := &r.triangles[k]
		if c.set(&r.vertices[t.v[0]], &r.vertices[t.v[1]], &r.vertices[t.v[2]], tx, ty, s) {
			if at.cut && t.back {
				c.flat(at.section)
			}
			c.draw(b, s, how, uint64(alpha))
		}
	}
}

// clear sets all samples to the background, row by row of the picture, and
// infinitely far.
func (b *buffer) clear(s *sampling, background []int64) {
	per := int(s.wide) * int(s.rows)
	clear(b.w[:tileHigh*per])
	for y, c := range background[:tileHigh] {
		row := b.colour[y*per : (y+1)*per]
		first := row[:s.wide]
		for k := range first {
			first[k] = c
		}
		for k := int(s.wide); k < per; k += int(s.wide) {
			copy(row[k:], first)
		}
	}
}

// bounds returns the pixels of a tile.
func (r *Renderer) bounds(tx, ty int) (x0, y0, x1, y1 int) {
	x0, y0 = tx*tileWide, ty*tileHigh
	return x0, y0, min(x0+tileWide, r.tiles.w), min(y0+tileHigh, r.tiles.h)
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
	var line [4 * tileWide]byte
	per := int(s.wide) * int(s.rows)
	for y := y0; y < y1; y++ {
		bias := &dither[y&1]
		samples := b.colour[(y-y0)*per:][:per]
		switch r.Quality {
		case Coarse:
			one := (*[tileWide]int64)(samples)
			for x := 0; x < tileWide; x++ {
				binary.LittleEndian.PutUint32(line[4*x:], pixel(uint64(one[x]), s.shown, bias[x&1]))
			}
		case Fine:
			upper, lower := (*[2 * tileWide]int64)(samples), (*[2 * tileWide]int64)(samples[2*tileWide:])
			even, odd := bias[0]<<2, bias[1]<<2
			for x := 0; x < tileWide; x += 2 {
				p := upper[2*x] + upper[2*x+1] + lower[2*x] + lower[2*x+1]
				q := upper[2*x+2] + upper[2*x+3] + lower[2*x+2] + lower[2*x+3]
				binary.LittleEndian.PutUint32(line[4*x:], pixel(uint64(p), 12, even))
				binary.LittleEndian.PutUint32(line[4*x+4:], pixel(uint64(q), 12, odd))
			}
		default:
			for x := 0; x < tileWide; x++ {
				sum := int64(0)
				for k := 2 * x; k < per; k += 2 * tileWide {
					sum += samples[k] + samples[k+1]
				}
				binary.LittleEndian.PutUint32(line[4*x:], pixel(uint64(sum), s.shown, bias[x&1]<<3))
			}
		}
		copy(r.row(x0, x1, y), line[:])
	}
}
