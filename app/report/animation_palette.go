package report

import (
	"cmp"
	"image"
	"image/color"
	"slices"
)

// census counts colours in cells of 5 bits per channel and adds up what lies in
// each.
type census struct{ cells [1 << 15]tally }

type tally struct {
	n   int64
	sum [3]int64
}

func cellOf(r, g, b uint8) int { return int(r>>3)<<10 | int(g>>3)<<5 | int(b>>3) }

func (c *census) count(img *image.RGBA) {
	for i := 0; i+3 < len(img.Pix); i += 4 {
		p := img.Pix[i : i+3 : i+3]
		k := &c.cells[cellOf(p[0], p[1], p[2])]
		k.n++
		for j := range 3 {
			k.sum[j] += int64(p[j])
		}
	}
}

// swatch is one counted colour. Rare colours weigh more than their number, so
// that small things keep theirs.
type swatch struct {
	at     [3]float64
	weight float64
}

func (c *census) swatches() []swatch {
	var list []swatch
	for i := range c.cells {
		if k := &c.cells[i]; k.n > 0 {
			s := swatch{weight: root(float64(k.n))}
			for j := range 3 {
				s.at[j] = float64(k.sum[j]) / float64(k.n)
			}
			list = append(list, s)
		}
	}
	return list
}

// root is the square root, by Newton's rule from above: the same on every
// processor.
func root(x float64) float64 {
	r := x
	for r*r > x*1.0001 {
		r = (r + x/r) / 2
	}
	return r
}

// cluster is a set of swatches that become one colour.
type cluster struct {
	list   []swatch
	mean   [3]float64
	axis   int     // along which they differ most
	spread float64 // how much, weighted
}

func newCluster(list []swatch) cluster {
	g := cluster{list: list}
	total := 0.0
	for _, s := range list {
		total += s.weight
		for j := range 3 {
			g.mean[j] += s.weight * s.at[j]
		}
	}
	for j := range 3 {
		g.mean[j] /= total
	}
	for j := range 3 {
		v := 0.0
		for _, s := range list {
			d := s.at[j] - g.mean[j]
			v += s.weight * d * d
		}
		if v *= eye[j]; v > g.spread {
			g.axis, g.spread = j, v
		}
	}
	return g
}

// eye is how much differences in red, green and blue are seen.
var eye = [3]float64{0.9, 1.3, 0.6}

// halves cuts the cluster at its mean.
func (g cluster) halves() (a, b cluster) {
	slices.SortFunc(g.list, func(p, q swatch) int {
		return cmp.Or(cmp.Compare(p.at[g.axis], q.at[g.axis]), cmp.Compare(p.at[0], q.at[0]), cmp.Compare(p.at[1], q.at[1]), cmp.Compare(p.at[2], q.at[2]))
	})
	k := 1
	for k < len(g.list)-1 && g.list[k].at[g.axis] < g.mean[g.axis] {
		k++
	}
	return newCluster(g.list[:k]), newCluster(g.list[k:])
}

// inks is a palette with the nearest of its colours to each cell.
type inks struct {
	palette color.Palette
	nearest [1 << 15]uint8
	known   [1 << 15]bool
}

// inks returns at most n colours for what was counted, and one that is clear.
func (c *census) inks(n int) *inks {
	groups := []cluster{newCluster(c.swatches())}
	for len(groups) < n {
		widest := 0
		for i, g := range groups {
			if g.spread > groups[widest].spread {
				widest = i
			}
		}
		if len(groups[widest].list) < 2 || groups[widest].spread == 0 {
			break
		}
		a, b := groups[widest].halves()
		groups[widest] = a
		groups = append(groups, b)
	}
	p := &inks{palette: make(color.Palette, same+1)}
	for i := range p.palette {
		p.palette[i] = color.RGBA{A: 255}
	}
	for i, g := range groups {
		p.palette[i] = color.RGBA{uint8(g.mean[0] + 0.5), uint8(g.mean[1] + 0.5), uint8(g.mean[2] + 0.5), 255}
	}
	for i := len(groups); i < same; i++ {
		p.palette[i] = p.palette[0]
	}
	p.palette[same] = color.RGBA{}
	return p
}

// reduce returns a picture in the colours of the palette.
func (p *inks) reduce(img *image.RGBA) *image.Paletted {
	out := image.NewPaletted(img.Rect, p.palette)
	for i := range out.Pix {
		q := img.Pix[4*i : 4*i+3 : 4*i+3]
		k := cellOf(q[0], q[1], q[2])
		if !p.known[k] {
			p.known[k], p.nearest[k] = true, p.find(k)
		}
		out.Pix[i] = p.nearest[k]
	}
	return out
}

// find returns the colour nearest to the middle of a cell.
func (p *inks) find(k int) uint8 {
	at := [3]float64{float64(k>>10&31)*8 + 3.5, float64(k>>5&31)*8 + 3.5, float64(k&31)*8 + 3.5}
	best, least := 0, 1e18
	for i, c := range p.palette[:same] {
		r := c.(color.RGBA)
		d := 0.0
		for j, v := range [3]uint8{r.R, r.G, r.B} {
			e := at[j] - float64(v)
			d += eye[j] * e * e
		}
		if d < least {
			best, least = i, d
		}
	}
	return uint8(best)
}
