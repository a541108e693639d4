package control

import (
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/scene"
)

// Orbit is a picture of a scene that is turned by dragging, enlarged by the
// wheel, and put back by a double click; the arrow keys, plus, minus and Home
// do the same.
type Orbit struct {
	widget.BaseWidget
	view
	pane

	OnDrawn func(time.Duration)
	// Grip is asked, where a button is pressed, whether something on the line
	// of sight is taken hold of; Haul is then told of each further line of
	// sight. With Shift, twist is how far the pointer went sideways.
	Grip func(eye, direction r3.Vec) bool
	Haul func(eye, direction r3.Vec, twist float64)
	// Cut is where the scene is cut open in the next picture.
	Cut scene.Plane

	instances []scene.Instance
	label     Label
	renderer  scene.Renderer
	dragging  bool
	gripped   bool
	hidden    bool // the label's point, in the last picture
	tag       *tag
	twisting  bool
	focused   bool
}

// NewOrbit returns the picture as seen from home.
func NewOrbit(home scene.Camera) *Orbit {
	o := &Orbit{}
	o.Home, o.camera, o.changed = home, home, o.Refresh
	o.paintedBy(o.Paint)
	o.ExtendBaseWidget(o)
	return o
}

// Display shows other instances and another label.
func (o *Orbit) Display(in []scene.Instance, l Label) {
	o.instances, o.label = in, l
	o.Refresh()
}

// coarseAbove is the size in pixels above which a picture that is being dragged
// is drawn with one sample per pixel; 1.1 million at 2×2 take about 8 ms.
const coarseAbove = 1_100_000

// Paint draws the picture in device pixels. The image is used again for the
// next picture.
func (o *Orbit) Paint(w, h int) image.Image {
	start := time.Now()
	o.sized(w, h)
	o.renderer.Quality = scene.Fine
	if o.dragging && w*h > coarseAbove {
		o.renderer.Quality = scene.Coarse
	}
	tone := scene.Light
	if lookOf(o).Dark {
		tone = scene.Dark
	}
	o.renderer.Cut, o.renderer.Probe = o.Cut, scene.Probe{At: o.label.At, Wanted: len(o.label.Lines) > 0}
	o.renderer.Draw(o.picture, o.camera, tone, o.instances)
	if h := o.renderer.Hidden(); h != o.hidden {
		o.hidden = h
		if o.tag != nil { // drawn after the picture, so in time
			o.tag.veil(lookOf(o), o.label, h)
		}
	}
	if o.OnDrawn != nil {
		o.OnDrawn(time.Since(start))
	}
	return o.picture
}

// sight returns the line of sight through a point of the widget.
func (o *Orbit) sight(at fyne.Position) (eye, direction r3.Vec) {
	size := o.Size()
	return o.camera.Lens(int(size.Width), int(size.Height)).Ray(float64(at.X), float64(at.Y))
}

// MouseDown takes hold of what is under the pointer, if it can be held.
func (o *Orbit) MouseDown(e *desktop.MouseEvent) {
	o.twisting = e.Modifier&fyne.KeyModifierShift != 0
	o.gripped = o.Grip != nil && e.Button == desktop.MouseButtonPrimary && o.Grip(o.sight(e.Position))
}

// MouseUp lets go.
func (o *Orbit) MouseUp(*desktop.MouseEvent) {}

// haul moves what is held.
func (o *Orbit) haul(e *fyne.DragEvent) {
	eye, direction := o.sight(e.Position)
	twist := 0.0
	if o.twisting {
		twist = float64(e.Dragged.DX)
	}
	o.Haul(eye, direction, twist)
}

// Dragged moves what is held, or turns the view.
func (o *Orbit) Dragged(e *fyne.DragEvent) {
	o.dragging = true
	if o.gripped && o.Haul != nil {
		o.haul(e)
		return
	}
	o.drag(e.Dragged, o.Size())
}

// DragEnd draws finely again.
func (o *Orbit) DragEnd() {
	o.dragging, o.gripped = false, false
	o.Refresh()
}

// Tapped takes the keyboard.
func (o *Orbit) Tapped(*fyne.PointEvent) { focus(o) }

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
	o.tag = newTag()
	r := &orbitRenderer{o: o, tag: o.tag}
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
	r.layout(size)
}

func (r *orbitRenderer) Refresh() {
	l := lookOf(r.o)
	for _, e := range r.edge {
		e.FillColor = l.th.Color(colourFocus, variant())
		show(e, r.o.focused)
	}
	r.layout(r.o.Size())
	canvas.Refresh(r.o)
}

func (r *orbitRenderer) layout(size fyne.Size) {
	l := lookOf(r.o)
	r.tag.layout(l, r.o.label, r.o.camera, size)
	r.tag.veil(l, r.o.label, r.o.hidden)
}
