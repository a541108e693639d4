package app

import (
	"image"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"rimclear/app/figure"
	"rimclear/app/present"
)

// showGuide opens the guide at its first page.
func (w *Window) showGuide() {
	words := w.context.Words
	var titles []string
	for _, p := range present.GuidePages {
		titles = append(titles, words.GuideTitle(p))
	}
	w.openBook(words.Phrase("guide_book"), titles, 0, func(i int) []fyne.CanvasObject {
		return w.guidePage(present.GuidePages[i])
	})
}

// guidePage is a page of the guide: its title, its picture, its words.
func (w *Window) guidePage(key string) []fyne.CanvasObject {
	words := w.context.Words
	page := []fyne.CanvasObject{heading(words.GuideTitle(key), theme.SizeNameHeadingText)}
	if f, ok := guideFigure(key, w.sketchbook()); ok {
		page = append(page, container.New(pictureLayout{}, pictureOf(f)))
	}
	for text := range strings.SplitSeq(words.GuideText(key), "\n") {
		page = append(page, paragraph(text))
	}
	return page
}

// sketchbook is what the pictures of the guide are drawn with.
func (w *Window) sketchbook() sketchbook {
	p := w.context.Theme.Palette(w.app.Settings().ThemeVariant())
	return sketchbook{palette: *p, words: w.context.Words}
}

// pictureOf shows a figure in the pixels of the screen.
func pictureOf(f figure.Figure) fyne.CanvasObject {
	var kept *image.RGBA
	r := canvas.NewRaster(func(w, h int) image.Image {
		if kept == nil || kept.Rect.Dx() != w || kept.Rect.Dy() != h {
			kept = image.NewRGBA(image.Rect(0, 0, w, h))
			f.DrawStatic(kept, float64(w)/f.Size.X)
		}
		return kept
	})
	r.ScaleMode = canvas.ImageScalePixels
	return r
}

// pictureLayout gives a picture the width there is, up to what it needs to be
// read, and the height that belongs to it.
type pictureLayout struct{}

// guideWidth and guideHeight are the size in which the pictures are drawn, in
// points.
const guideWidth, guideHeight = 560.0, 300.0

func (pictureLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(200, 1.15*guideHeight)
}

func (pictureLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	wide := min(size.Width, size.Height*guideWidth/guideHeight)
	o[0].Resize(fyne.NewSize(wide, wide*guideHeight/guideWidth))
	o[0].Move(fyne.NewPos((size.Width-wide)/2, 0))
}
