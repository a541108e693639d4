package control

import (
	"fyne.io/fyne/v2"

	"rimclear/app/scene"
)

// view is a camera that is turned by hand; changed is told of each turn.
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

// Mirror shows what is seen as a left hip, or as a right one again.
func (v *view) Mirror(left bool) { v.Home.Mirror, v.camera.Mirror = left, left }

// Reset puts the view back.
func (v *view) Reset() { v.LookFrom(v.Home) }

// Scrolled comes nearer or goes away.
func (v *view) Scrolled(e *fyne.ScrollEvent) { v.zoom(float64(e.Scrolled.DY) / 100) }

// DoubleTapped puts the view back.
func (v *view) DoubleTapped(*fyne.PointEvent) { v.Reset() }

// drag turns the view as a picture of a size is dragged.
func (v *view) drag(by fyne.Delta, size fyne.Size) {
	v.LookFrom(v.camera.Orbit(float64(by.DX), float64(by.DY), float64(min(size.Width, size.Height))))
}

// zoom comes nearer by a share of about a tenth per 0.1.
func (v *view) zoom(nearer float64) {
	v.LookFrom(v.camera.Zoom(1 / (1 + min(max(nearer, -0.5), 0.5))))
}

// turn is how far an arrow key turns the view, in hundredths of half a turn.
const turn = 3

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
