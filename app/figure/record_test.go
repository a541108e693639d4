package figure

import "image"

// record keeps what reaches a canvas.
type record struct {
	lines, rings, clips [][]Point
	strokes             []Stroke
	texts               []textCall
	images              []Affine
	depth               int
}

type textCall struct {
	at   Point
	text string
	TextStyle
}

func (r *record) Stroke(lines [][]Point, s Stroke) {
	r.lines = append(r.lines, lines...)
	r.strokes = append(r.strokes, s)
}
func (r *record) Fill(rings [][]Point, c Colour) { r.rings = append(r.rings, rings...) }
func (r *record) Text(at Point, text string, t TextStyle) {
	r.texts = append(r.texts, textCall{at, text, t})
}
func (r *record) Image(m Affine, _ image.Image) { r.images = append(r.images, m) }
func (r *record) Clip(rings [][]Point)          { r.clips = append(r.clips, rings...); r.depth++ }
func (r *record) Unclip()                       { r.depth-- }

// box returns the rectangle that the letters of a text fill, as measured.
func (c textCall) box() Rect {
	local := Box(c.start(c.text), -c.Ascent(), c.Width(c.text), c.Ascent()+c.Descent())
	b, _ := Bounds(Translate(c.at.X, c.at.Y).Mul(Rotation(c.Turn)).line(local.Ring()))
	return b
}

// digits returns the rectangle that an upright text fills if it has no letters
// deeper than the baseline or higher than a capital.
func (c textCall) digits() Rect {
	return Box(c.at.X+c.start(c.text), c.at.Y-c.CapHeight(), c.Width(c.text), c.CapHeight())
}

// ink returns the rectangle of the pixels of img that are not transparent.
func ink(img *image.RGBA) image.Rectangle {
	var r image.Rectangle
	for y := img.Rect.Min.Y; y < img.Rect.Max.Y; y++ {
		for x := img.Rect.Min.X; x < img.Rect.Max.X; x++ {
			if img.RGBAAt(x, y).A > 0 {
				r = r.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return r
}

// mass returns the sum of the opacities of img, in pixels.
func mass(img *image.RGBA) float64 {
	sum := 0.0
	for i := 3; i < len(img.Pix); i += 4 {
		sum += float64(img.Pix[i]) / 255
	}
	return sum
}

// drawn returns what draw leaves on a transparent surface of w by h points,
// scale pixels to the point.
func drawn(w, h, scale float64, draw func(*Surface)) *image.RGBA {
	return Figure{Size: Pt(w, h), Static: draw}.Image(scale)
}

var black = Hex("#000000")

// area returns the signed area of rings together.
func area(rings [][]Point) float64 {
	sum := 0.0
	for _, r := range rings {
		for i, p := range r {
			q := r[(i+1)%len(r)]
			sum += (p.X*q.Y - q.X*p.Y) / 2
		}
	}
	return sum
}
