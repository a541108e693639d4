package figure

import (
	"image"
	"math"
	"sync"

	xdraw "golang.org/x/image/draw"
	"golang.org/x/image/math/f64"
)

// Raster draws into pixels, with antialiasing. It is not safe for use by
// several goroutines, but several rasters may work at once.
type Raster struct {
	img   *image.RGBA
	scale float64
	clip  clip
	saved []clip

	*scratch
}

// scratch is the memory a raster works in: the outline of one path at
// a time, and what it covers.
type scratch struct {
	cover   coverage
	spans   spans
	stroker stroker
}

// scratches saves the redraws of the screen from making it anew.
var scratches = sync.Pool{New: func() any { return new(scratch) }}

// release gives the scratch back; r must not be used any more.
func (r *Raster) release() { scratches.Put(r.scratch) }

// NewRaster returns a canvas over img, scale pixels to the point; the origin of
// the surface is the upper left corner of img.
func NewRaster(img *image.RGBA, scale float64) *Raster {
	return &Raster{img: img, scale: scale, clip: clip{box: img.Bounds()}, scratch: scratches.Get().(*scratch)}
}

func (r *Raster) device() Affine {
	m := Scaling(r.scale, r.scale)
	m.E, m.F = float64(r.img.Rect.Min.X), float64(r.img.Rect.Min.Y)
	return m
}

// pixels returns lines given in points in pixels.
func (r *Raster) pixels(lines [][]Point) [][]Point {
	if m := r.device(); m != Identity() {
		return m.lines(lines)
	}
	return lines
}

// Fill fills rings.
func (r *Raster) Fill(rings [][]Point, c Colour) { r.paint(r.pixels(rings), c) }

// Stroke draws lines.
func (r *Raster) Stroke(lines [][]Point, s Stroke) {
	half := s.Width * r.scale / 2
	guard := grown(r.clip.box, half+2)
	dash := make([]float64, len(s.Dash))
	for i, d := range s.Dash {
		dash[i] = d * r.scale
	}
	k := r.stroker.begun(half)
	for _, l := range r.pixels(lines) {
		for _, piece := range dashes(visible(l, guard), dash) {
			k.line(piece)
		}
	}
	r.paint(k.rings, s.Colour)
}

// paint fills rings given in pixels.
func (r *Raster) paint(rings [][]Point, c Colour) {
	k := brushOf(c)
	r.each(r.covered(rings), func(row []uint8, _, _ int, cover uint8) { k.lay(row, cover) })
}

// each calls do for all stretches of pixels that s and the clip cover, with
// where they begin.
func (r *Raster) each(s *spans, do func(row []uint8, x, y int, cover uint8)) {
	for y := s.box.Min.Y; y < s.box.Max.Y; y++ {
		runs := s.row(y)
		if len(runs) == 0 {
			continue
		}
		x := s.box.Min.X
		row := r.img.Pix[r.img.PixOffset(x, y):]
		if r.clip.mask == nil {
			for _, n := range runs {
				do(row[4*n.from:4*n.to], x+n.from, y, n.cover)
			}
			continue
		}
		shared(runs, 0, r.clip.mask.row(y), r.clip.mask.box.Min.X-x, func(from, to int, cover uint8) {
			do(row[4*from:4*to], x+from, y, cover)
		})
	}
}

// covered returns how much of each pixel inside the clip's box the rings
// cover. It is valid until the next call.
func (r *Raster) covered(rings [][]Point) *spans {
	s := &r.spans
	b, ok := Bounds(rings...)
	if !ok {
		s.reset(image.Rectangle{})
		return s
	}
	box := outer(b, r.clip.box)
	if box.Empty() {
		box = image.Rectangle{}
	}
	s.reset(box)
	r.cover.begin(box.Dx(), box.Dy())
	for _, ring := range rings {
		if len(ring) > 2 {
			r.cover.ring(ring, float64(box.Min.X), float64(box.Min.Y))
		}
	}
	r.cover.end(s)
	return s
}

// stamp lays the colour c over the pixels of box as far as cover, whose rows
// are stride long, and the clip say. box must lie inside the clip's box.
func (r *Raster) stamp(box image.Rectangle, cover []uint8, stride int, c Colour) {
	k := brushOf(c)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		row := cover[(y-box.Min.Y)*stride:][:box.Dx()]
		dst := r.img.Pix[r.img.PixOffset(box.Min.X, y):]
		if r.clip.mask == nil {
			k.stamp(dst, row, 255)
			continue
		}
		off := r.clip.mask.box.Min.X - box.Min.X
		for _, n := range r.clip.mask.row(y) {
			if from, to := max(n.from+off, 0), min(n.to+off, len(row)); from < to {
				k.stamp(dst[4*from:], row[from:to], n.cover)
			}
		}
	}
}

// Image draws img through m, smoothed.
func (r *Raster) Image(m Affine, img image.Image) {
	m = r.device().Mul(m)
	box, ok := Bounds(m.line(Box(0, 0, 1, 1).Ring()))
	if !ok {
		return
	}
	dst := outer(box, r.clip.box)
	if dst.Empty() || abs(m.A*m.D-m.B*m.C) < 1e-6 {
		return
	}
	b := img.Bounds()
	src := m.Mul(Scaling(1/float64(b.Dx()), 1/float64(b.Dy()))).Mul(Translate(-float64(b.Min.X), -float64(b.Min.Y)))
	to := r.img.SubImage(dst).(*image.RGBA)
	opt := &xdraw.Options{}
	if r.clip.mask != nil {
		opt.DstMask = r.clip.mask.alpha()
	}
	scaler(src).Transform(to, f64.Aff3{src.A, src.C, src.E, src.B, src.D, src.F}, img, b, xdraw.Over, opt)
}

// scaler keeps whole pixels as they are and smooths all else.
func scaler(m Affine) xdraw.Interpolator {
	whole := func(v float64) bool { return math.Abs(v-math.Round(v)) < 1e-6 }
	if m.B == 0 && m.C == 0 && math.Abs(m.A-1) < 1e-9 && math.Abs(m.D-1) < 1e-9 && whole(m.E) && whole(m.F) {
		return xdraw.NearestNeighbor
	}
	// The kernel looks at all pixels that fall together, which has to end
	// somewhere.
	least := min(math.Hypot(m.A, m.C), math.Hypot(m.B, m.D))
	if m.Stretch() < 0.75 && least > 1.0/64 && abs(m.A*m.D-m.B*m.C) > least*least/4 {
		return xdraw.BiLinear
	}
	return xdraw.ApproxBiLinear
}

// outer returns the pixels that b touches inside limit.
func outer(b Rect, limit image.Rectangle) image.Rectangle {
	lo := func(v float64, a, z int) int { return int(math.Floor(min(max(v, float64(a)), float64(z)))) }
	hi := func(v float64, a, z int) int { return int(math.Ceil(min(max(v, float64(a)), float64(z)))) }
	return image.Rectangle{
		Min: image.Point{lo(b.Min.X, limit.Min.X, limit.Max.X), lo(b.Min.Y, limit.Min.Y, limit.Max.Y)},
		Max: image.Point{hi(b.Max.X, limit.Min.X, limit.Max.X), hi(b.Max.Y, limit.Min.Y, limit.Max.Y)},
	}
}

func grown(b image.Rectangle, d float64) Rect {
	return Rect{
		Point{float64(b.Min.X) - d, float64(b.Min.Y) - d},
		Point{float64(b.Max.X) + d, float64(b.Max.Y) + d},
	}
}
