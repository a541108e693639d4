package control

import (
	"image"
	"image/color"
	"image/draw"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// pane is the one picture that a widget is drawn as: the toolkit pays for each
// thing it is given.
type pane struct {
	raster  *canvas.Raster
	picture *image.RGBA
	words   wordCache
}

// paintedBy says what draws the picture, in device pixels.
func (p *pane) paintedBy(paint func(w, h int) image.Image) {
	p.raster = canvas.NewRaster(paint)
	p.raster.ScaleMode = canvas.ImageScalePixels // drawn in exact pixels: no filter to pay for
}

// redraw has the picture drawn anew.
func (p *pane) redraw() { canvas.Refresh(p.raster) }

// sized makes the picture so many pixels large, and reports whether it had to
// be made anew; it is used again otherwise.
func (p *pane) sized(w, h int) bool {
	if p.picture != nil && p.picture.Rect.Dx() == w && p.picture.Rect.Dy() == h {
		return false
	}
	p.picture = image.NewRGBA(image.Rect(0, 0, w, h))
	return true
}

// begin starts a picture of a widget on a plain ground. There is nothing to
// draw on, ok is false, while the widget has no size.
func (p *pane) begin(of fyne.CanvasObject, w, h int, ground color.Color) (k ink, ok bool) {
	p.sized(w, h)
	draw.Draw(p.picture, p.picture.Rect, image.NewUniform(ground), image.Point{}, draw.Src)
	wide := of.Size().Width
	if wide <= 0 {
		return ink{}, false
	}
	return ink{p.picture, float32(w) / wide, &p.words}, true
}
