package figure

import (
	"image"
	"image/draw"
	"math"
	"sync"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// glyphKey names the picture of a letter: its face, size and turn, and where
// within a pixel it begins, in quarters.
type glyphKey struct {
	face   int
	letter rune
	size   int32 // 1/64 pixel
	turn   int32 // 1/64 degree
	dx, dy uint8
}

// glyph is the picture of a letter; its Rect is seen from the pixel in which
// the letter begins.
type glyph struct{ cover *image.Alpha }

// glyphLimit is how many pictures are kept. A chart needs some hundred; when
// there are more, all are dropped, which costs one slow redraw.
const glyphLimit = 8192

var glyphs = struct {
	sync.Mutex
	kept map[glyphKey]glyph
	path vector.Rasterizer
	font sfnt.Buffer
}{kept: map[glyphKey]glyph{}}

// Text draws text letter by letter, each to the nearest quarter of a pixel.
func (r *Raster) Text(at Point, text string, t TextStyle) {
	key := glyphKey{face: t.number(), size: int32(t.Size*r.scale*64 + 0.5), turn: int32(math.Round(t.Turn * 64))}
	size := float64(key.size) / 64
	if size <= 0 || size > 4096 {
		return
	}
	pen := r.device().Apply(at.Polar(t.start(text), t.Turn))
	along := Point{}.Polar(1, t.Turn)
	fc := t.face()
	step := t.Size * r.scale
	for _, letter := range text {
		x, y := math.Floor(pen.X*4+0.5)/4, math.Floor(pen.Y*4+0.5)/4
		px, py := math.Floor(x), math.Floor(y)
		key.letter = letter
		key.dx, key.dy = uint8((x-px)*4), uint8((y-py)*4)
		if math.Abs(px) < 1e6 && math.Abs(py) < 1e6 {
			r.letter(lookup(key), image.Pt(int(px), int(py)), t.Colour)
		}
		pen = pen.Add(along.Scale(step * fc.advance(letter)))
	}
}

func (r *Raster) letter(g glyph, at image.Point, c Colour) {
	if g.cover == nil {
		return
	}
	box := g.cover.Rect.Add(at)
	seen := box.Intersect(r.clip.box)
	if !seen.Empty() {
		from := seen.Min.Sub(at)
		r.stamp(seen, g.cover.Pix[g.cover.PixOffset(from.X, from.Y):], g.cover.Stride, c)
	}
}

func lookup(k glyphKey) glyph {
	glyphs.Lock()
	defer glyphs.Unlock()
	g, ok := glyphs.kept[k]
	if !ok {
		if len(glyphs.kept) >= glyphLimit {
			clear(glyphs.kept)
		}
		g = k.draw()
		glyphs.kept[k] = g
	}
	return g
}

// draw makes the picture of k; the lock on glyphs must be held.
func (k glyphKey) draw() glyph {
	fc := faces()[k.face]
	n, err := fc.font.GlyphIndex(&glyphs.font, k.letter)
	if err != nil {
		return glyph{}
	}
	segs, err := fc.font.LoadGlyph(&glyphs.font, n, fixed.I(int(fc.em)), nil)
	if err != nil || len(segs) == 0 {
		return glyph{}
	}
	scale := float64(k.size) / 64 / (64 * fc.em)
	m := Translate(float64(k.dx)/4, float64(k.dy)/4).Mul(Rotation(float64(k.turn) / 64)).Mul(Scaling(scale, scale))
	at := func(p fixed.Point26_6) Point { return m.Apply(Point{float64(p.X), float64(p.Y)}) }

	var all []Point
	for _, s := range segs {
		for _, a := range s.Args[:argCount(s.Op)] {
			all = append(all, at(a))
		}
	}
	b, _ := Bounds(all)
	box := image.Rect(int(math.Floor(b.Min.X)), int(math.Floor(b.Min.Y)), int(math.Ceil(b.Max.X)), int(math.Ceil(b.Max.Y)))
	if box.Empty() {
		return glyph{}
	}
	z := &glyphs.path
	z.Reset(box.Dx(), box.Dy())
	z.DrawOp = draw.Src
	xy := func(p fixed.Point26_6) (float32, float32) {
		q := at(p)
		return float32(q.X - float64(box.Min.X)), float32(q.Y - float64(box.Min.Y))
	}
	outline(z, segs, xy)
	cover := image.NewAlpha(image.Rect(0, 0, box.Dx(), box.Dy()))
	z.Draw(cover, cover.Rect, image.Opaque, image.Point{})
	cover.Rect = box
	return glyph{cover}
}

func outline(z *vector.Rasterizer, segs sfnt.Segments, xy func(fixed.Point26_6) (float32, float32)) {
	for _, s := range segs {
		ax, ay := xy(s.Args[0])
		bx, by := xy(s.Args[1])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			z.ClosePath()
			z.MoveTo(ax, ay)
		case sfnt.SegmentOpLineTo:
			z.LineTo(ax, ay)
		case sfnt.SegmentOpQuadTo:
			z.QuadTo(ax, ay, bx, by)
		case sfnt.SegmentOpCubeTo:
			cx, cy := xy(s.Args[2])
			z.CubeTo(ax, ay, bx, by, cx, cy)
		}
	}
	z.ClosePath()
}

func argCount(op sfnt.SegmentOp) int {
	switch op {
	case sfnt.SegmentOpQuadTo:
		return 2
	case sfnt.SegmentOpCubeTo:
		return 3
	}
	return 1
}
