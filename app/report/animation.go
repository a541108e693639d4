package report

import (
	"errors"
	"image"
	"image/gif"
	"io"
	"time"
)

// Film is a sequence of pictures of one size that is shown round and round.
type Film struct {
	Size   image.Point
	Frames int
	// Draw draws the i-th picture; all of it is opaque. Delay is how long it is
	// seen.
	Draw  func(i int, into *image.RGBA)
	Delay func(i int) time.Duration
}

// WriteGIF writes the film as an animated GIF of 255 colours that are chosen
// from all of its pictures. The same film gives the same bytes.
func (f Film) WriteGIF(w io.Writer) error {
	if f.Frames < 1 || f.Size.X < 1 || f.Size.Y < 1 {
		return errors.New("a film without pictures")
	}
	img := image.NewRGBA(image.Rectangle{Max: f.Size})
	var c census
	for i := 0; i < f.Frames; i += max(1, f.Frames/polled) {
		f.Draw(i, img)
		c.count(img)
	}
	inks := c.inks(same)
	out := gif.GIF{Config: image.Config{ColorModel: inks.palette, Width: f.Size.X, Height: f.Size.Y}}
	var last *image.Paletted
	for i := range f.Frames {
		f.Draw(i, img)
		now := inks.reduce(img)
		out.Image = append(out.Image, changed(last, now))
		out.Delay = append(out.Delay, int(f.Delay(i)/(10*time.Millisecond)))
		out.Disposal = append(out.Disposal, gif.DisposalNone)
		last = now
	}
	return gif.EncodeAll(w, &out)
}

// polled is of about how many of its pictures a film's colours are chosen.
const polled = 8

// same is the index of the colour that leaves what was there.
const same = 255

// changed returns the part of a picture that differs from the one before, with
// what is the same in it left clear.
func changed(last, now *image.Paletted) *image.Paletted {
	if last == nil {
		return now
	}
	var box image.Rectangle
	w := now.Rect.Dx()
	for y := range now.Rect.Dy() {
		a, b := last.Pix[y*last.Stride:][:w], now.Pix[y*now.Stride:][:w]
		from, to := w, 0
		for x := range w {
			if a[x] != b[x] {
				from, to = min(from, x), x+1
			}
		}
		if from < to {
			box = box.Union(image.Rect(from, y, to, y+1))
		}
	}
	if box.Empty() {
		box = image.Rect(0, 0, 1, 1)
	}
	part := image.NewPaletted(box, now.Palette)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			i := now.PixOffset(x, y)
			v := now.Pix[i]
			if last.Pix[i] == v {
				v = same
			}
			part.Pix[part.PixOffset(x, y)] = v
		}
	}
	return part
}
