package view

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"

	"rimclear/app/figure"
	"rimclear/app/report"
	"rimclear/app/scene"
)

// explainPage is what is on screen as it goes into a file: the picture, the name,
// the sentence and the fixed line. It shares nothing with the screen.
type explainPage struct {
	shown   *explained
	paint   *explainPicture
	palette figure.Palette
	size    figure.Point // points
	title   string
	told    string
	fixed   string
}

// page returns the page of what is on screen.
func (e *Explain) page() explainPage {
	s := e.Session.Now()
	x := e.explain(s, e.shown.key, e.designs, map[int]*joint{})
	size := e.object.Size()
	return explainPage{
		shown: x, paint: &explainPicture{words: e.Words, turned: e.picture.paint.turned}, palette: *e.palette(),
		size:  figure.Pt(max(float64(size.Width), 900), max(float64(size.Height), 560)),
		title: e.Words.Everyday(x.key), told: e.told(x), fixed: e.Words.Phrase("explain_fixed"),
	}
}

const pageMargin = 20.0 // points

// lay returns the page without its picture, in pixels, and where that goes.
func (p explainPage) lay(scale float64) (*image.RGBA, image.Rectangle) {
	plain := figure.TextStyle{Font: figure.Font{Size: explainText}, Colour: p.palette.Ink}
	bold := figure.TextStyle{Font: figure.Font{Size: 1.4 * explainText, Bold: true}, Colour: p.palette.Ink}
	wide := p.size.X - 2*pageMargin
	foot := plain.LineHeight()*float64(len(plain.Wrap(p.fixed, wide))) + 1.5*pageMargin
	picture := figure.Box(0, 0, p.size.X*2/3, p.size.Y-foot)
	f := figure.Figure{
		Title: p.title, Alt: p.told, Size: p.size, Paper: p.palette.Panel,
		Static: func(s *figure.Surface) {
			words := figure.Box(picture.Max.X+pageMargin, pageMargin, p.size.X-picture.Max.X-2*pageMargin, p.size.Y)
			words.Min.Y = s.Paragraph(words, p.title, bold) + 0.7*pageMargin
			s.Paragraph(words, p.told, plain)
			s.Paragraph(figure.Box(pageMargin, picture.Max.Y+0.6*pageMargin, wide, foot), p.fixed, plain)
		},
	}
	img := image.NewRGBA(image.Rect(0, 0, int(p.size.X*scale+0.5), int(p.size.Y*scale+0.5)))
	draw.Draw(img, img.Rect, image.NewUniform(p.palette.Panel), image.Point{}, draw.Src) // to the last pixel
	f.DrawStatic(img, scale)
	return img, image.Rect(0, 0, int(picture.Max.X*scale), int(picture.Max.Y*scale))
}

// image returns the page when the movement has gone a share.
func (p explainPage) image(share, scale float64) *image.RGBA {
	page, at := p.lay(scale)
	picture := image.NewRGBA(at)
	p.paint.Quality = scene.Best
	p.paint.draw(picture, p.shown, share, &p.palette, scale)
	draw.Draw(page, at, picture, image.Point{}, draw.Src)
	return page
}

// Picture returns what is on screen as PNG.
func (e *Explain) Picture() ([]byte, error) {
	var b bytes.Buffer
	err := png.Encode(&b, e.page().image(e.share(), 2))
	return b.Bytes(), err
}

// What a film is made of: its width in pixels to begin with, how many pictures
// are seen in a second, and the most bytes; if there are more it is made again
// smaller.
const (
	filmWide  = 1080
	filmFrame = 60 * time.Millisecond
	filmMost  = 5_000_000
)

// Film returns what is on screen, moving, as an animated GIF.
func (p explainPage) film() ([]byte, error) {
	for wide := float64(filmWide); ; wide *= 0.8 {
		var b bytes.Buffer
		if err := p.filmOf(wide / p.size.X).WriteGIF(&b); err != nil {
			return nil, err
		}
		if b.Len() < filmMost || wide < 300 {
			return b.Bytes(), nil
		}
	}
}

// filmOf returns one round of the movement at a scale.
func (p explainPage) filmOf(scale float64) report.Film {
	page, at := p.lay(scale)
	picture := image.NewRGBA(at)
	shares, delays := filmed(p.shown.stop)
	p.paint.Quality = scene.Fine
	return report.Film{
		Size: page.Rect.Max, Frames: len(shares),
		Draw: func(i int, into *image.RGBA) {
			copy(into.Pix, page.Pix)
			p.paint.draw(picture, p.shown, shares[i], &p.palette, scale)
			draw.Draw(into, at, picture, image.Point{}, draw.Src)
		},
		Delay: func(i int) time.Duration { return delays[i] },
	}
}

// filmed returns the shares of a round at which a picture is taken, and how long
// each is seen: nothing is taken twice while nothing moves.
func filmed(stop float64) (shares []float64, delays []time.Duration) {
	last := -1.0
	for at := time.Duration(0); at < explainRound(stop); at += filmFrame {
		if s := shareAt(stop, at); s != last {
			shares, delays, last = append(shares, s), append(delays, 0), s
		}
		delays[len(delays)-1] += filmFrame
	}
	return shares, delays
}

// askPicture asks where the picture is to go, and writes it there.
func (e *Explain) askPicture() {
	e.ask(".png", func(to fyne.URIWriteCloser) {
		data, err := e.Picture()
		e.put(to, data, err)
	})
}

// askFilm asks where the film is to go; it is made in the background.
func (e *Explain) askFilm() {
	e.ask(".gif", func(to fyne.URIWriteCloser) {
		p := e.page()
		e.exports.Add(1)
		go func() {
			defer e.exports.Done()
			data, err := p.film()
			e.Post(func() { e.put(to, data, err) })
		}()
	})
}

func (e *Explain) ask(ending string, then func(fyne.URIWriteCloser)) {
	w := e.window()
	if w == nil || e.shown == nil {
		return
	}
	d := dialog.NewFileSave(func(to fyne.URIWriteCloser, err error) {
		switch {
		case err != nil:
			dialog.ShowError(err, w)
		case to != nil:
			then(to)
		}
	}, w)
	d.SetFileName(e.Words.Phrase("explain_file") + "-" + e.shown.key + ending)
	d.Show()
	d.Resize(fyne.NewSize(w.Canvas().Size().Width*0.8, w.Canvas().Size().Height*0.8))
}

// put writes a file, or says why not.
func (e *Explain) put(to fyne.URIWriteCloser, data []byte, err error) {
	if err == nil {
		_, err = to.Write(data)
	}
	if e2 := to.Close(); err == nil {
		err = e2
	}
	if w := e.window(); err != nil && w != nil {
		dialog.ShowError(err, w)
	}
}
