package control

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/software"
)

// ink draws rectangles, discs and words into an image, in the toolkit's own
// letters and units. Each thing the toolkit draws by itself costs about a tenth
// of a millisecond in every picture where there is no graphics processor; what
// consists of many is drawn here instead, when it changes.
type ink struct {
	dst   *image.RGBA
	scale float32 // pixels to the unit
	words *wordCache
}

// px rounds a place to whole pixels.
func (k ink) px(v float32) int { return int(math.Round(float64(v * k.scale))) }

// rect fills a rectangle, to whole pixels and at least one wide.
func (k ink) rect(x, y, w, h float32, c color.Color) {
	if w <= 0 || h <= 0 {
		return
	}
	r := image.Rect(k.px(x), k.px(y), max(k.px(x+w), k.px(x)+1), max(k.px(y+h), k.px(y)+1))
	draw.Draw(k.dst, r, image.NewUniform(c), image.Point{}, draw.Over)
}

// disc fills a disc with a rim of another colour inside its edge.
func (k ink) disc(x, y, r, width float32, fill, rim color.Color) {
	x, y, r, width = x*k.scale, y*k.scale, r*k.scale, width*k.scale
	whole := image.Rect(int(x-r)-1, int(y-r)-1, int(x+r)+2, int(y+r)+2).Intersect(k.dst.Rect)
	outer, inner := image.NewUniform(rim), image.NewUniform(fill)
	cover := image.NewAlpha(whole)
	paint := func(c *image.Uniform, radius float64) {
		for py := whole.Min.Y; py < whole.Max.Y; py++ {
			for px := whole.Min.X; px < whole.Max.X; px++ {
				d := math.Hypot(float64(px)+0.5-float64(x), float64(py)+0.5-float64(y))
				cover.SetAlpha(px, py, color.Alpha{A: uint8(255 * min(max(radius-d+0.5, 0), 1))})
			}
		}
		draw.DrawMask(k.dst, whole, c, image.Point{}, cover, whole.Min, draw.Over)
	}
	paint(outer, float64(r))
	paint(inner, float64(r-width))
}

// word is a text as it is drawn.
type word struct {
	text   string
	size   float32
	bold   bool
	colour color.NRGBA
	scale  float32
}

// wide returns how wide a text is.
func (w word) wide() float32 {
	return fyne.MeasureText(w.text, w.size, fyne.TextStyle{Bold: w.bold}).Width
}

// high returns the height of its line.
func (w word) high() float32 {
	return fyne.MeasureText("A", w.size, fyne.TextStyle{Bold: w.bold}).Height
}

// triangle fills a small triangle that points down or to the right, in a square
// of side s.
func (k ink) triangle(x, y, s float32, down bool, c color.Color) {
	r := image.Rect(k.px(x), k.px(y), k.px(x+s), k.px(y+s))
	cover := k.words.triangle(r.Size(), down)
	draw.DrawMask(k.dst, r, image.NewUniform(c), image.Point{}, cover, image.Point{}, draw.Over)
}

// text draws a text with its upper left corner at a place.
func (k ink) text(x, y float32, w word) {
	if w.text == "" {
		return
	}
	if inked != nil {
		note(Inked{Text: w.text, X: x, Y: y, Wide: w.wide(), High: w.high()})
	}
	w.scale = k.scale
	img := k.words.of(w)
	at := image.Pt(k.px(x), k.px(y))
	draw.Draw(k.dst, img.Bounds().Add(at), img, image.Point{}, draw.Over)
}

// wordsKept bounds the pictures of texts that are kept.
const wordsKept = 256

// wordCache keeps the pictures of the texts last drawn, and of triangles, and
// how wide texts are.
type wordCache struct {
	has       map[word]image.Image
	wides     map[word]float32
	triangles map[triangle]*image.Alpha
}

// triangle is one by its size in pixels.
type triangle struct {
	size image.Point
	down bool
}

// triangle returns the share of each pixel that a triangle covers.
func (c *wordCache) triangle(size image.Point, down bool) *image.Alpha {
	key := triangle{size, down}
	if cover, ok := c.triangles[key]; ok {
		return cover
	}
	cover := image.NewAlpha(image.Rectangle{Max: size})
	n, side := 4, float64(size.X)
	for py := range size.Y {
		for px := range size.X {
			hits := 0
			for i := range n * n {
				u := (float64(px) + (float64(i%n)+0.5)/float64(n)) / side
				v := (float64(py) + (float64(i/n)+0.5)/float64(n)) / side
				if !down {
					u, v = v, u
				}
				if v > 0.3 && v < 0.75 && math.Abs(u-0.5) < 0.75-v {
					hits++
				}
			}
			cover.SetAlpha(px, py, color.Alpha{A: uint8(255 * hits / (n * n))})
		}
	}
	if c.triangles == nil || len(c.triangles) >= wordsKept {
		c.triangles = map[triangle]*image.Alpha{}
	}
	c.triangles[key] = cover
	return cover
}

// wide returns how wide a text is, which costs more to find than to keep.
func (c *wordCache) wide(w word) float32 {
	w.colour, w.scale = color.NRGBA{}, 0
	wide, ok := c.wides[w]
	if !ok {
		if c.wides == nil || len(c.wides) >= wordsKept {
			c.wides = make(map[word]float32, wordsKept)
		}
		wide = w.wide()
		c.wides[w] = wide
	}
	return wide
}

func (c *wordCache) of(w word) image.Image {
	if img, ok := c.has[w]; ok {
		return img
	}
	if c.has == nil || len(c.has) >= wordsKept {
		c.has = make(map[word]image.Image, wordsKept)
	}
	t := canvas.NewText(w.text, w.colour)
	t.TextSize, t.TextStyle.Bold = w.size, w.bold
	off := software.NewTransparentCanvas()
	off.SetPadded(false)
	off.SetScale(w.scale)
	off.SetContent(t)
	off.Resize(t.MinSize())
	img := off.Capture()
	c.has[w] = img
	return img
}

// opaque returns a colour of a theme as word and ink have it.
func opaque(c color.Color) color.NRGBA { return color.NRGBAModel.Convert(c).(color.NRGBA) }
