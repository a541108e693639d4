package view

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// Widths of the columns, before the text is enlarged.
const (
	stripWidth   = 58
	panelWidth   = 300
	answersWidth = 380
	mostAnswers  = 560 // in the widest windows
	// stackedBelow is the window's width under which limits and chart take
	// turns.
	stackedBelow = 1180
)

func (e *Explore) arrange() *fyne.Container {
	columns := []fyne.CanvasObject{e.strip, e.panel.object, e.centre.object, e.answers.object, e.bar.object}
	return container.New(&exploreLayout{e}, append(columns, e.foot.objects()...)...)
}

// exploreLayout lays the three columns beside each other and the foot under
// them. The side columns grow with the text, up to a share of the window, and
// shrink a little in a narrow one.
type exploreLayout struct{ e *Explore }

func (l *exploreLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(900, 560) }

func (l *exploreLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	e := l.e
	k := e.Theme.Size(theme.SizeNameText) / 13
	strip := ceil(stripWidth * k)
	left := ceil(max(min(panelWidth*k, size.Width*0.27), e.panel.object.MinSize().Width))
	right := ceil(max(min(answersWidth*k, size.Width*0.34), min(size.Width*0.24, mostAnswers*k)))
	e.answers.Narrow = size.Width < stackedBelow*k
	body := e.foot.lay(size)
	x, wide := e.foot.columns(size, body, column{e.strip, strip}, column{e.panel.object, left}, column{e.answers.object, right})
	bar := e.bar.heightAt(wide)
	lay(e.centre.object, x, 0, wide, body-bar)
	lay(e.bar.object, x, body-bar, wide, bar)
}
