package control

import (
	"image"
	"image/color"
	"image/draw"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/figure"
)

// Plot shows a figure: its static layer as pixels made elsewhere, its marker
// drawn over them with each picture.
type Plot struct {
	widget.BaseWidget
	pane

	// Resized is told when the layer is wanted in another size: points, pixels
	// to the point, and pixels.
	Resized func(size figure.Point, scale float64, pixels image.Point)
	// Pick is told where in the data the pointer is pressed or dragged.
	Pick func(x, y float64)

	figure figure.Figure
	still  *image.RGBA
	size   figure.Point
	scale  float64
}

// NewPlot returns an empty plot.
func NewPlot() *Plot {
	p := &Plot{}
	p.paintedBy(p.Paint)
	p.ExtendBaseWidget(p)
	return p
}

// Mark shows a figure whose static layer is as before.
func (p *Plot) Mark(f figure.Figure) {
	p.figure = f
	p.redraw()
}

// Lay shows another static layer.
func (p *Plot) Lay(still *image.RGBA) {
	p.still = still
	p.redraw()
}

// Paint draws the plot in device pixels. The image is used again.
func (p *Plot) Paint(w, h int) image.Image {
	p.sized(w, h)
	if s := p.Size(); s.Width > 0 {
		p.wish(figure.Pt(float64(s.Width), float64(s.Height)), float64(w)/float64(s.Width), p.picture.Rect.Max)
	}
	if p.still == nil || p.still.Rect != p.picture.Rect {
		draw.Draw(p.picture, p.picture.Rect, image.NewUniform(color.Color(lookOf(p).Paper)), image.Point{}, draw.Src)
		return p.picture
	}
	copy(p.picture.Pix, p.still.Pix)
	if p.figure.Marker != nil {
		p.figure.DrawMarker(p.picture, p.scale)
	}
	return p.picture
}

// wish asks for the layer in the size that is on screen.
func (p *Plot) wish(size figure.Point, scale float64, pixels image.Point) {
	if size != p.size || scale != p.scale {
		p.size, p.scale = size, scale
		if p.Resized != nil {
			p.Resized(size, scale, pixels)
		}
	}
}

func (p *Plot) pick(at fyne.Position) {
	if f := p.figure.Plot; p.Pick != nil && f.Box.Max != f.Box.Min {
		p.Pick(f.Data(figure.Pt(float64(at.X), float64(at.Y))))
	}
}

// MouseDown picks the place that is pressed.
func (p *Plot) MouseDown(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary {
		p.pick(e.Position)
	}
}

// MouseUp does nothing.
func (p *Plot) MouseUp(*desktop.MouseEvent) {}

// Dragged picks the place under the pointer.
func (p *Plot) Dragged(e *fyne.DragEvent) { p.pick(e.Position) }

// DragEnd does nothing.
func (p *Plot) DragEnd() {}

// CreateRenderer makes the drawing.
func (p *Plot) CreateRenderer() fyne.WidgetRenderer { return &plotRenderer{p} }

type plotRenderer struct{ p *Plot }

func (r *plotRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.p.raster} }
func (r *plotRenderer) Destroy()                     {}
func (r *plotRenderer) MinSize() fyne.Size           { return fyne.NewSize(240, 180) }
func (r *plotRenderer) Layout(size fyne.Size)        { r.p.raster.Resize(size) }
func (r *plotRenderer) Refresh()                     { canvas.Refresh(r.p) }
