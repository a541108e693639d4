package control

import (
	"image"
	"image/color"
	"image/draw"
	"math"
)

// dashes draws a level line in a design's dashes.
func (k ink) dashes(x, y, wide, high float32, dash []float64, c color.Color) {
	if len(dash) == 0 {
		k.rect(x, y, wide, high, c)
		return
	}
	for i, at := 0, float32(0); at < wide; i++ {
		w := float32(dash[i%len(dash)])
		if i%2 == 0 {
			k.rect(x+at, y, min(w, wide-at), high, c)
		}
		at += w
	}
}

// state draws a full disc where free, a ring where close, a bar across a disc
// in contact; ground is what is inside the ring.
func (k ink) state(l look, s State, x, y float32, ground color.Color) {
	const r = float32(sheetMark) / 2
	switch s {
	case StateFree:
		k.disc(x, y, r, 0, l.Free.Line, l.Free.Line)
	case StateClose:
		k.disc(x, y, r, 2, ground, l.Close.Line)
	case StateContact:
		k.disc(x, y, r+1, 0, l.Contact.Line, l.Contact.Line)
		k.rect(x-r+0.5, y-1, 2*r-1, 2, l.Paper)
	}
}

// ring draws a circle of a width, leaving what is inside it.
func (k ink) ring(x, y, r, width float32, c color.Color) {
	x, y, r, width = x*k.scale, y*k.scale, r*k.scale, width*k.scale
	box := image.Rect(int(x-r)-1, int(y-r)-1, int(x+r)+2, int(y+r)+2).Intersect(k.dst.Rect)
	cover := image.NewAlpha(box)
	for py := box.Min.Y; py < box.Max.Y; py++ {
		for px := box.Min.X; px < box.Max.X; px++ {
			d := math.Hypot(float64(px)+0.5-float64(x), float64(py)+0.5-float64(y))
			on := min(max(float64(r)-d+0.5, 0), 1) - min(max(float64(r-width)-d+0.5, 0), 1)
			cover.SetAlpha(px, py, color.Alpha{A: uint8(255 * on)})
		}
	}
	draw.DrawMask(k.dst, box, image.NewUniform(c), image.Point{}, cover, box.Min, draw.Over)
}
