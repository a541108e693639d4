package view

import (
	"image"
	"image/color"
	"image/draw"

	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/app/scene"
)

// explainPicture draws the person with the joints beside, the same on screen
// and in files. One draws one picture at a time.
type explainPicture struct {
	words   *present.Words
	whole   scene.Renderer
	part    scene.Renderer
	list    []scene.Instance
	plate   *image.RGBA
	turned  float64 // by which the person is seen from another side, radians
	Quality scene.Quality
}

// Shares of the picture: the person has the left part, the joints the right.
const (
	personShare = 0.60
	cardPad     = 14.0 // points
	cardHead    = 44.0 // points, above a joint
	explainText = 24.0 // points
)

// cards returns where n joints stand in a picture of w by h pixels.
func cards(w, h, n int, scale float64) []image.Rectangle {
	pad := int(cardPad * scale)
	left, right := int(personShare*float64(w)), w-pad
	list := make([]image.Rectangle, n)
	high := (h - pad*(n+1)) / n
	if most := (right - left) * 5 / 4; high > most {
		high = most
	}
	top := (h - n*high - (n-1)*pad) / 2
	for i := range list {
		y := top + i*(high+pad)
		list[i] = image.Rect(left, y, right, y+high)
	}
	return list
}

// draw draws an activity when the movement has gone a share, scale pixels to the
// point.
func (p *explainPicture) draw(dst *image.RGBA, x *explained, share float64, pal *figure.Palette, scale float64) {
	w, h := dst.Rect.Dx(), dst.Rect.Dy()
	tone := scene.Light
	if pal.Dark {
		tone = scene.Dark
	}
	p.list = x.person(p.list[:0], share)
	p.whole.Quality = p.Quality
	p.whole.Draw(dst, p.aim(x.camera, w, h), tone, p.list)
	for i, r := range cards(w, h, len(x.cast), scale) {
		p.card(dst, x, i, r, share, pal, scale)
	}
}

// aim returns the camera turned by hand and moved so that its target lies in the
// middle of the person's part.
func (p *explainPicture) aim(c scene.Camera, w, h int) scene.Camera {
	c.Azimuth += p.turned
	wide, high := float64(w), float64(h)
	side := min(wide, high)
	c.Extent *= side / min(personShare*wide*1.02, high)
	off := (1 - personShare) / 2 * wide * c.Extent / side
	if c.Mirror {
		off = -off
	}
	return c.Aside(off)
}

// card draws one joint on a card of its own.
func (p *explainPicture) card(dst *image.RGBA, x *explained, i int, r image.Rectangle, share float64, pal *figure.Palette, scale float64) {
	m := x.cast[i]
	lit := m.lit(share)
	edge, wide := color.Color(pal.Axis), max(int(scale+0.5), 1)
	if lit {
		edge, wide = pal.Contact.Line, max(int(3*scale+0.5), 2)
	}
	draw.Draw(dst, r, image.NewUniform(edge), image.Point{}, draw.Src)
	inner := r.Inset(wide)
	draw.Draw(dst, inner, image.NewUniform(pal.Paper), image.Point{}, draw.Src)
	inner.Min.Y += int(cardHead * scale)
	if inner.Empty() {
		return
	}
	size := image.Rect(0, 0, inner.Dx(), inner.Dy())
	if p.plate == nil || p.plate.Rect != size {
		p.plate = image.NewRGBA(size)
	}
	tone := scene.Light
	if pal.Dark {
		tone = scene.Dark
	}
	tone.Top, tone.Bottom = pal.Paper, pal.Paper
	p.part.Quality = p.Quality
	p.part.Draw(p.plate, m.camera, tone, m.instances(share))
	draw.Draw(dst, inner, p.plate, image.Point{}, draw.Src)
	p.head(dst, x, i, r, lit, pal, scale)
}

// head writes which joint it is, and that it touches while it does.
func (p *explainPicture) head(dst *image.RGBA, x *explained, i int, r image.Rectangle, lit bool, pal *figure.Palette, scale float64) {
	m := x.cast[i]
	name := p.words.EverydaySide(m.shown.Joint.Side())
	style := figure.TextStyle{Font: figure.Font{Size: explainText, Bold: true}, Colour: pal.Ink}
	if len(x.cast) > 1 {
		name = p.words.EverydayJoint(m.design)
		style.Colour = pal.Designs[m.design].Text
	}
	if lit {
		touching := p.words.Phrase("explain_touching")
		if style.Width(name)+style.Width(touching)+3*cardPad > float64(r.Dx())/scale {
			name = touching // not both fit
		} else {
			name += " "
			at := figure.Pt(float64(r.Max.X)/scale-cardPad, float64(r.Min.Y)/scale+cardHead/2)
			p.write(dst, scale, at, touching, figure.TextStyle{Font: style.Font, Colour: pal.Contact.Text}.At(figure.Right, figure.Middle))
		}
	}
	at := figure.Pt(float64(r.Min.X)/scale+cardPad, float64(r.Min.Y)/scale+cardHead/2)
	p.write(dst, scale, at, name, style.At(figure.Left, figure.Middle))
}

func (p *explainPicture) write(dst *image.RGBA, scale float64, at figure.Point, text string, style figure.TextStyle) {
	f := figure.Figure{
		Size:   figure.Pt(float64(dst.Rect.Dx())/scale, float64(dst.Rect.Dy())/scale),
		Marker: func(s *figure.Surface) { s.Text(at, text, style) },
	}
	f.DrawMarker(dst, scale)
}
