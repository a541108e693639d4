package control

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"fyne.io/fyne/v2"

	"rimclear/app/scene"
)

// view is a camera that is turned by hand.
type view struct {
	Home    scene.Camera // the view that a reset goes back to
	camera  scene.Camera
	changed func()
}

// Camera returns the view.
func (v *view) Camera() scene.Camera { return v.camera }

// LookFrom changes the view. The mirror is Home's.
func (v *view) LookFrom(c scene.Camera) {
	c.Mirror = v.Home.Mirror
	if c != v.camera {
		v.camera = c
		v.changed()
	}
}

// Mirror shows the scenes as a left hip, or as a right one again.
func (v *view) Mirror(left bool) { v.Home.Mirror, v.camera.Mirror = left, left }

// Reset puts the view back.
func (v *view) Reset() { v.LookFrom(v.Home) }

func (v *view) zoom(nearer float64) {
	v.LookFrom(v.camera.Zoom(1 / (1 + min(max(nearer, -0.5), 0.5))))
}

// TypedKey turns, zooms and resets the view.
func (v *view) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft:
		v.LookFrom(v.camera.Orbit(-turn, 0, 100))
	case fyne.KeyRight:
		v.LookFrom(v.camera.Orbit(turn, 0, 100))
	case fyne.KeyUp:
		v.LookFrom(v.camera.Orbit(0, -turn, 100))
	case fyne.KeyDown:
		v.LookFrom(v.camera.Orbit(0, turn, 100))
	case fyne.KeyPlus, fyne.KeyEqual, fyne.KeyPageUp:
		v.zoom(0.1)
	case fyne.KeyMinus, fyne.KeyPageDown:
		v.zoom(-0.1)
	case fyne.KeyHome:
		v.Reset()
	}
}

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
// in contact.
func (k ink) state(l look, s State, x, y float32) {
	const r = float32(sheetMark) / 2
	switch s {
	case StateFree:
		k.disc(x, y, r, 0, l.Free.Line, l.Free.Line)
	case StateClose:
		k.disc(x, y, r, 2, l.Paper, l.Close.Line)
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
