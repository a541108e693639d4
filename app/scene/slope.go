package scene

// mode is how a triangle meets the samples it covers.
type mode int

const (
	opaque    mode = iota // nearer wins
	depthOnly             // nearer wins, colour kept: first pass of a translucent part
	blend                 // where it is the nearest layer: second pass
)

// slope is a triangle prepared for one tile. Lengths are in columns of samples
// across and rows of samples down, from the tile's corner.
type slope struct {
	top, bottom        int32
	left, right, third edge
	thirdLeft          bool

	w, wx, wy float32
	c, cx, cy int64
	eighth    int64 // of cx, exactly: samples lie at eighths of a column
}

// edge is where a side of a triangle meets the rows of samples: at x in the
// first row and step further in each next one, in 2⁻³² column. It is always
// reckoned from the upper corner, so that two triangles that share a side
// agree on it to the last bit: no sample is drawn twice and none is missed.
type edge struct{ x, step int64 }

const one = 1 << 32

// set reckons the side between a and b (subpixels, by > ay).
func (e *edge) set(ax, ay, bx, by float64, k *rule) {
	slant := (bx - ax) / (by - ay)
	e.x = int64((ax + (k.first-ay)*slant) * k.unit)
	e.step = int64(slant * k.pitch * k.unit)
}

// set prepares the triangle of positive area p, q, u for a tile; false if it
// has no row there.
func (c *slope) set(p, q, u *vertex, tx, ty int, s *sampling) bool {
	ox, oy := int32(tx*tileWide*subpixel), int32(ty*tileHigh*subpixel)
	c.top = max(0, s.row(min(p.y, q.y, u.y)-oy))
	c.bottom = min(s.high, s.row(max(p.y, q.y, u.y)-oy))
	if c.top >= c.bottom {
		return false
	}
	px, py := float64(p.x-ox), float64(p.y-oy)
	qx, qy := float64(q.x-ox), float64(q.y-oy)
	ux, uy := float64(u.x-ox), float64(u.y-oy)
	c.edges(px, py, qx, qy, ux, uy, s)

	// Gradients per column across and per row down.
	inv := subpixel / ((qx-px)*(uy-py) - (qy-py)*(ux-px))
	over, down := inv/s.across, inv/float64(s.rows)
	ax, bx := (uy-py)*over, -(qy-py)*over
	ay, by := -(ux-px)*down, (qx-px)*down
	x0, y0 := px*(s.across/subpixel), (py-0.5)/subpixel*float64(s.rows)-0.5

	dq, du := float64(q.w)-float64(p.w), float64(u.w)-float64(p.w)
	wx, wy := dq*ax+du*bx, dq*ay+du*by
	c.wx, c.wy = float32(wx), float32(wy)
	c.w = float32(float64(p.w) - x0*wx - y0*wy)

	rx, ry, r := plane(p.r, q.r, u.r, ax, bx, ay, by, x0, y0)
	gx, gy, g := plane(p.g, q.g, u.g, ax, bx, ay, by, x0, y0)
	lx, ly, l := plane(p.b, q.b, u.b, ax, bx, ay, by, x0, y0)
	c.eighth = pack(rx/8, gx/8, lx/8)
	c.cx, c.cy, c.c = 8*c.eighth, pack(ry, gy, ly), pack(r, g, l)
	return true
}

// flat gives the whole triangle one packed colour.
func (c *slope) flat(colour int64) { c.c, c.cx, c.cy, c.eighth = colour, 0, 0, 0 }

// plane returns the slopes across and down and the value at the tile's corner.
func plane(p, q, u float32, ax, bx, ay, by, x0, y0 float64) (x, y, at float64) {
	dq, du := float64(q)-float64(p), float64(u)-float64(p)
	x, y = dq*ax+du*bx, dq*ay+du*by
	return x, y, float64(p) - x0*x - y0*y
}

// edges sorts the three sides into left and right; level sides bound nothing,
// the rows do.
func (c *slope) edges(px, py, qx, qy, ux, uy float64, s *sampling) {
	c.left.x, c.right.x, c.third.x, c.third.step = none, none, none, 0
	c.thirdLeft = true
	pitch := float64(int32(1) << s.pitch)
	k := rule{first: pitch*float64(c.top) + pitch/2 + 0.5, pitch: pitch, unit: s.across * (one / subpixel)}
	c.edge(px, py, qx, qy, &k)
	c.edge(qx, qy, ux, uy, &k)
	c.edge(ux, uy, px, py, &k)
}

// none is farther left than any side can lie.
const none = -1 << 62

func (c *slope) edge(ax, ay, bx, by float64, k *rule) {
	if by < ay {
		e := &c.left
		if e.x != none {
			e = &c.third
		}
		e.set(bx, by, ax, ay, k)
	} else if by > ay {
		e := &c.right
		if e.x != none {
			e, c.thirdLeft = &c.third, false
		}
		e.set(ax, ay, bx, by, k)
	}
}

// rule is what the edges of a triangle in a tile have in common: the height of
// the first row and the rows' pitch in subpixels, and the unit of x.
type rule struct{ first, pitch, unit float64 }

// draw fills the samples of the triangle.
func (c *slope) draw(b *buffer, s *sampling, how mode, alpha uint64) {
	left, right, third := c.left.x, c.right.x, c.third.x
	for row := c.top; row < c.bottom; row++ {
		lo, hi := left, right
		if c.thirdLeft {
			lo = max(lo, third)
		} else {
			hi = min(hi, third)
		}
		left += c.left.step
		right += c.right.step
		third += c.third.step
		step := &s.aside[row&3]
		x0 := max((lo+step.ceil)>>32, 0)
		n := min((hi+step.ceil)>>32, s.wide) - x0
		if n <= 0 {
			continue
		}
		at := int64(row)*s.wide + x0
		ws, cs := b.w[at:][:n], b.colour[at:][:n]
		w := c.w + c.wy*float32(row) + c.wx*(float32(x0)+step.column)
		colour := c.c + c.cy*int64(row) + c.cx*x0 + c.eighth*step.eighths
		switch how {
		case opaque:
			span(ws, cs, w, c.wx, colour, c.cx)
		case depthOnly:
			sink(ws, w, c.wx)
		default:
			mixIn(ws, cs, w, c.wx, colour, c.cx, alpha)
		}
	}
}

// span draws opaque samples.
func span(ws []float32, cs []int64, w, dw float32, c, dc int64) {
	cs = cs[:len(ws)]
	for i := range ws {
		if w > ws[i] {
			ws[i] = w
			cs[i] = c
		}
		w += dw
		c += dc
	}
}

// sink draws depth only.
func sink(ws []float32, w, dw float32) {
	for i := range ws {
		if w > ws[i] {
			ws[i] = w
		}
		w += dw
	}
}

// mixIn blends where the samples are at exactly this depth; alpha is 0 to 255.
func mixIn(ws []float32, cs []int64, w, dw float32, c, dc int64, alpha uint64) {
	cs = cs[:len(ws)]
	a := alpha + alpha>>7 // 0 to 256
	for i := range ws {
		if w == ws[i] {
			d, s := uint64(cs[i]), uint64(c)
			rb := (s&redBlue>>4*a + d&redBlue>>4*(256-a)) >> 4 & redBlue
			g := ((s>>greenBit&channel)*a + (d>>greenBit&channel)*(256-a)) >> 8 << greenBit
			cs[i] = int64(rb | g)
		}
		w += dw
		c += dc
	}
}
