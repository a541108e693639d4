package figure

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"image"
	"image/draw"
	"image/png"

	"codeberg.org/go-pdf/fpdf"
)

// Image draws img.
func (c *PDF) Image(m Affine, img image.Image) {
	name := nameOf(img)
	wider, known := c.images[name]
	if !known {
		wider = c.register(name, img)
	}
	c.buf = append(c.buf, "q "...)
	// The unit square of PDF has its origin at the lower left.
	at := m.Apply(Point{0, 1})
	for _, v := range []float64{m.A, -m.B, -m.C, m.D} {
		c.buf = append(appendShort(c.buf, v, 4), ' ')
	}
	c.number(at.X)
	c.number(c.size.Y - at.Y)
	c.buf = append(c.buf, "cm "...)
	if wider != 1 {
		c.buf = append(c.buf, "0 0 1 1 re W n "...)
		c.buf = append(appendShort(c.buf, wider, 6), " 0 0 1 0 0 cm "...)
	}
	c.flush()
	c.doc.ImageOptions(name, 0, c.size.Y-1, 1, 1, false, pngImage, 0, "")
	c.doc.RawWriteStr("Q")
}

// register takes an image, and its file, into the document and returns how much
// wider it was made. The library writes images in the order of their widths,
// and those of one width in no order: each gets a width of its own, by
// repeating its last column, and what was added is clipped off when it is drawn.
func (c *PDF) register(name string, img image.Image) float64 {
	own := img.Bounds().Dx()
	width := own
	for c.widths[width] {
		width++
	}
	c.widths[width] = true
	if width > own {
		img = widened(img, width)
	}
	var file bytes.Buffer
	quick := png.Encoder{CompressionLevel: png.BestSpeed} // in half the time, a fourth larger
	if err := quick.Encode(&file, img); err != nil {
		c.doc.SetError(err)
		return 1
	}
	c.doc.RegisterImageOptionsReader(name, pngImage, &file)
	c.images[name] = float64(width) / float64(own)
	return c.images[name]
}

var pngImage = fpdf.ImageOptions{ImageType: "PNG"}

// nameOf returns a name that images of other contents do not have.
func nameOf(img image.Image) string {
	h := sha256.New()
	switch img := img.(type) {
	case *image.RGBA:
		fmt.Fprint(h, "rgba", img.Rect, img.Stride)
		h.Write(img.Pix)
	case *image.NRGBA:
		fmt.Fprint(h, "nrgba", img.Rect, img.Stride)
		h.Write(img.Pix)
	default:
		if err := png.Encode(h, img); err != nil {
			return "" // the same error comes where it is drawn
		}
	}
	return hex.EncodeToString(h.Sum(nil))
}

// widened repeats the last column of an image up to a width.
func widened(img image.Image, width int) image.Image {
	from := img.Bounds()
	out := image.NewNRGBA(image.Rect(0, 0, width, from.Dy()))
	draw.Draw(out, out.Bounds(), img, from.Min, draw.Src)
	for x := from.Dx(); x < width; x++ {
		draw.Draw(out, image.Rect(x, 0, x+1, from.Dy()), img, image.Pt(from.Max.X-1, from.Min.Y), draw.Src)
	}
	return out
}
