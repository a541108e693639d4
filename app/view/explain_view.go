package view

import (
	"image"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/scene"
)

// explainView shows the person with the joints; dragging it sideways looks from
// another side, a click plays or pauses.
type explainView struct {
	widget.BaseWidget
	e       *Explain
	paint   *explainPicture
	picture *image.RGBA
	raster  *canvas.Raster
}

func newExplainView(e *Explain) *explainView {
	v := &explainView{e: e, paint: &explainPicture{words: e.Words}}
	v.raster = canvas.NewRaster(v.Paint)
	v.raster.ScaleMode = canvas.ImageScalePixels // drawn in exact pixels
	v.ExtendBaseWidget(v)
	return v
}

// explainCoarse is the size in pixels above which a moving picture is drawn with
// one sample to the pixel.
const explainCoarse = 700_000

// Paint draws in device pixels. The image is used again.
func (v *explainView) Paint(w, h int) image.Image {
	start := time.Now()
	if v.picture == nil || v.picture.Rect.Dx() != w || v.picture.Rect.Dy() != h {
		v.picture = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	if v.e.shown == nil || v.Size().Width <= 0 {
		return v.picture
	}
	v.paint.Quality = scene.Fine
	if v.e.moving && w*h > explainCoarse {
		v.paint.Quality = scene.Coarse
	}
	v.paint.draw(v.picture, v.e.shown, v.e.share(), v.e.palette(), float64(w)/float64(v.Size().Width))
	v.e.Pace.drawn(time.Since(start))
	return v.picture
}

// Tapped plays or pauses.
func (v *explainView) Tapped(*fyne.PointEvent) { v.e.Play() }

// Dragged looks at the person from another side.
func (v *explainView) Dragged(d *fyne.DragEvent) {
	by := float64(d.Dragged.DX) / float64(max(v.Size().Width, 1)) * math.Pi
	if v.e.shown != nil && v.e.shown.left {
		by = -by
	}
	v.paint.turned += by
	v.Refresh()
}

// DragEnd does nothing.
func (v *explainView) DragEnd() {}

// CreateRenderer makes the drawing.
func (v *explainView) CreateRenderer() fyne.WidgetRenderer { return &explainRenderer{v} }

type explainRenderer struct{ v *explainView }

func (r *explainRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.v.raster} }
func (r *explainRenderer) Destroy()                     {}
func (r *explainRenderer) MinSize() fyne.Size           { return fyne.NewSize(300, 240) }
func (r *explainRenderer) Layout(size fyne.Size)        { r.v.raster.Resize(size) }
func (r *explainRenderer) Refresh()                     { canvas.Refresh(r.v.raster) }
