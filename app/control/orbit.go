package control

import (
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/scene"
)

// Orbit is a picture of a scene that is turned by dragging, enlarged by the
// wheel, and put back by a double click; the arrow keys, plus, minus and Home
// do the same.
type Orbit struct {
	widget.BaseWidget

	Home      scene.Camera // the view that a reset goes back to
	OnDrawn   func(time.Duration)
	instances []scene.Instance

	camera   scene.Camera
	label    Label
	renderer scene.Renderer
	picture  *image.RGBA
	raster   *canvas.Raster
	dragging bool
	focused  bool
}

// NewOrbit returns the picture as seen from home.
func NewOrbit(home scene.Camera) *Orbit {
	o := &Orbit{Home: home, camera: home}
	o.raster = canvas.NewRaster(o.Paint)
	o.raster.ScaleMode = canvas.ImageScalePixels // drawn in exact pixels: no filter to pay for
	o.ExtendBaseWidget(o)
	return o
}

// Display shows other instances and another label.
func (o *Orbit) Display(in []scene.Instance, l Label) {
	o.instances, o.label = in, l
	o.Refresh()
}

// Camera returns the view.
func (o *Orbit) Camera() scene.Camera { return o.camera }

// LookFrom changes the view. The mirror is Home's.
func (o *Orbit) LookFrom(c scene.Camera) {
	c.Mirror = o.Home.Mirror
	if c != o.camera {
		o.camera = c
		o.Refresh()
	}
}

// Mirror shows the scene as a left hip, or as a right one again.
func (o *Orbit) Mirror(left bool) {
	o.Home.Mirror, o.camera.Mirror = left, left
}

// coarseAbove is the size in pixels above which a picture that is being dragged
// is drawn with one sample per pixel; 1.1 million at 2×2 take about 8 ms.
const coarseAbove = 1_100_000

// Paint draws the picture in device pixels. The image is used again for the
// next picture.
func (o *Orbit) Paint(w, h int) image.Image {
	start := time.Now()
	if o.picture == nil || o.picture.Rect.Dx() != w || o.picture.Rect.Dy() != h {
		o.picture = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	o.renderer.Quality = scene.Fine
	if o.dragging && w*h > coarseAbove {
		o.renderer.Quality = scene.Coarse
	}
	tone := scene.Light
	if lookOf(o).Dark {
		tone = scene.Dark
	}
	o.renderer.Draw(o.picture, o.camera, tone, o.instances)
	if o.OnDrawn != nil {
		o.OnDrawn(time.Since(start))
	}
	return o.picture
}

func (o *Orbit) side() float64 { return float64(min(o.Size().Width, o.Size().Height)) }

// Dragged turns the view.
func (o *Orbit) Dragged(e *fyne.DragEvent) {
	o.dragging = true
	o.LookFrom(o.camera.Orbit(float64(e.Dragged.DX), float64(e.Dragged.DY), o.side()))
}

// DragEnd draws finely again.
func (o *Orbit) DragEnd() {
	o.dragging = false
	o.Refresh()
}

// Scrolled comes nearer or goes away.
func (o *Orbit) Scrolled(e *fyne.ScrollEvent) { o.zoom(float64(e.Scrolled.DY) / 100) }

// zoom comes nearer by a share of about a tenth per 0.1.
func (o *Orbit) zoom(nearer float64) {
	o.LookFrom(o.camera.Zoom(1 / (1 + min(max(nearer, -0.5), 0.5))))
}

// Tapped takes the keyboard.
func (o *Orbit) Tapped(*fyne.PointEvent) { focus(o) }

// DoubleTapped puts the view back.
func (o *Orbit) DoubleTapped(*fyne.PointEvent) { o.Reset() }

// Reset puts the view back.
func (o *Orbit) Reset() { o.LookFrom(o.Home) }

// turn is how far an arrow key turns the view, in hundredths of half a turn.
const turn = 3

// TypedKey turns, zooms and resets the view.
func (o *Orbit) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft:
		o.LookFrom(o.camera.Orbit(-turn, 0, 100))
	case fyne.KeyRight:
		o.LookFrom(o.camera.Orbit(turn, 0, 100))
	case fyne.KeyUp:
		o.LookFrom(o.camera.Orbit(0, -turn, 100))
	case fyne.KeyDown:
		o.LookFrom(o.camera.Orbit(0, turn, 100))
	case fyne.KeyPlus, fyne.KeyEqual, fyne.KeyPageUp:
		o.zoom(0.1)
	case fyne.KeyMinus, fyne.KeyPageDown:
		o.zoom(-0.1)
	case fyne.KeyHome:
		o.Reset()
	}
}

// TypedRune does nothing.
func (o *Orbit) TypedRune(rune) {}

// FocusGained shows the focus.
func (o *Orbit) FocusGained() { o.focused = true; o.Refresh() }

// FocusLost hides it.
func (o *Orbit) FocusLost() { o.focused = false; o.Refresh() }

// Cursor is a hand.
func (o *Orbit) Cursor() desktop.Cursor { return desktop.PointerCursor }

// CreateRenderer makes the drawing.
func (o *Orbit) CreateRenderer() fyne.WidgetRenderer {
	r := &orbitRenderer{o: o, tag: newTag()}
	for i := range r.edge {
		r.edge[i] = new(canvas.Rectangle)
	}
	r.Refresh()
	return r
}

type orbitRenderer struct {
	o    *Orbit
	edge [4]*canvas.Rectangle // shown with the focus; one frame would be drawn over the whole picture
	tag  *tag
}

func (r *orbitRenderer) Objects() []fyne.CanvasObject {
	all := append([]fyne.CanvasObject{r.o.raster}, r.tag.objects()...)
	for _, e := range r.edge {
		all = append(all, e)
	}
	return all
}

func (r *orbitRenderer) Destroy() {}

func (r *orbitRenderer) MinSize() fyne.Size { return fyne.NewSize(200, 200) }

func (r *orbitRenderer) Layout(size fyne.Size) {
	r.o.raster.Resize(size)
	const thick = 2
	put(r.edge[0], 0, 0, size.Width, thick)
	put(r.edge[1], 0, size.Height-thick, size.Width, thick)
	put(r.edge[2], 0, 0, thick, size.Height)
	put(r.edge[3], size.Width-thick, 0, thick, size.Height)
	r.tag.layout(lookOf(r.o), r.o.label, r.o.camera, size)
}

func (r *orbitRenderer) Refresh() {
	l := lookOf(r.o)
	for _, e := range r.edge {
		e.FillColor = l.th.Color(colourFocus, variant())
		show(e, r.o.focused)
	}
	r.tag.layout(l, r.o.label, r.o.camera, r.o.Size())
	canvas.Refresh(r.o)
}
