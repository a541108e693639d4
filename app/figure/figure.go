package figure

import (
	"image"
	"io"
)

// Figure is a drawing as a value. Static is the layer that depends on the case
// alone and may be kept as pixels; Marker is drawn over it and may change with
// each picture. Either may be nil.
type Figure struct {
	Title  string // what the picture shows, for readers and file titles
	Alt    string // the same as a full sentence, for those who cannot see it
	Size   Point  // width and height, points
	Paper  Colour // background; transparent draws none
	Static func(*Surface)
	Marker func(*Surface)
	Plot   Frame // where data lie, for the pointer; the zero value if nowhere
}

// Draw draws the paper and both layers on c.
func (f Figure) Draw(c Canvas) { f.paint(On(c, f.Size)) }

func (f Figure) paint(s *Surface) {
	s.Polygon(s.Bounds().Ring(), Solid(f.Paper))
	if f.Static != nil {
		f.Static(s)
	}
	if f.Marker != nil {
		f.Marker(s)
	}
}

// DrawStatic draws the paper and the static layer into img, scale pixels to the
// point.
func (f Figure) DrawStatic(img *image.RGBA, scale float64) {
	f.Marker = nil
	f.drawOn(img, scale)
}

// DrawMarker draws the marker layer over what img holds, scale pixels to the
// point.
func (f Figure) DrawMarker(img *image.RGBA, scale float64) {
	f.Static, f.Paper = nil, Colour{}
	f.drawOn(img, scale)
}

func (f Figure) drawOn(img *image.RGBA, scale float64) {
	r := NewRaster(img, scale)
	f.Draw(r)
	r.release()
}

// Image returns the figure in pixels, scale pixels to the point.
func (f Figure) Image(scale float64) *image.RGBA {
	w, h := int(f.Size.X*scale+0.5), int(f.Size.Y*scale+0.5)
	img := image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	f.drawOn(img, scale)
	return img
}

// WritePNG writes the figure as PNG, scale pixels to the point (300 dots an
// inch are a scale of 300/72); the file says how large it is meant to be.
func (f Figure) WritePNG(w io.Writer, scale float64) error {
	return writePNG(w, f.Image(scale), scale*72)
}

// WriteSVG writes the figure as SVG with its letters as text and its fonts
// inside.
func (f Figure) WriteSVG(w io.Writer) error {
	c := NewSVG(f.Size, f.Title, f.Alt)
	f.Draw(c)
	return c.Write(w)
}

// WritePDF writes the figure as a PDF page of its own size.
func (f Figure) WritePDF(w io.Writer) error {
	return WritePDF(w, Document{Title: f.Title, Subject: f.Alt}, f)
}
