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
	rules, body := e.foot.rules, e.foot.lay(size)
	lay := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	lay(e.strip, 0, 0, strip, body)
	lay(rules[3], strip, 0, 1, body)
	lay(e.panel.object, strip+1, 0, left, body)
	left += strip + 1
	bar := e.bar.heightAt(size.Width - left - right - 2)
	lay(e.centre.object, left+1, 0, size.Width-left-right-2, body-bar)
	lay(e.bar.object, left+1, body-bar, size.Width-left-right-2, bar)
	lay(e.answers.object, size.Width-right, 0, right, body)
	lay(rules[0], left, 0, 1, body)
	lay(rules[1], size.Width-right-1, 0, 1, body)
	lay(rules[2], 0, body, size.Width, 1)
}
