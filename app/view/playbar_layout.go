package view

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"rimclear/kinematics/motion"
)

// playbarLayout lays the buttons, the choice of motion, pace and time in one
// row; where they have no room there the time gets a row of its own, and then
// the choice. Under them lies the scrub bar.
type playbarLayout struct{ b *playbar }

const (
	trackHeight = 46 // of the scrub bar
	playbarPad  = 6
)

func (l *playbarLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(260, l.b.heightAt(l.b.object.Size().Width))
}

// heightAt returns how high the strip is at a width.
func (b *playbar) heightAt(wide float32) float32 {
	l := playbarLayout{b}
	h := l.row()
	chooseApart, timeApart := l.plan(wide)
	if chooseApart {
		h += l.row()
	}
	if timeApart {
		h += l.timeHeight(wide)
	}
	return h + trackHeight + 10
}

// plan says what has a row of its own at a width.
func (l *playbarLayout) plan(wide float32) (choose, time bool) {
	b := l.b
	row := l.buttons() + b.slow.MinSize().Width + playbarPad
	switch {
	case wide <= 0 || row+b.choose.Longest()+l.timeWidth() <= wide:
		return false, false
	case row+b.choose.Longest() <= wide:
		return false, b.transport.loaded
	}
	return true, b.transport.loaded && row+l.timeWidth() > wide
}

// buttons returns the width of the buttons.
func (l *playbarLayout) buttons() float32 { return 2*l.b.play.MinSize().Width + 2*playbarPad }

func (l *playbarLayout) row() float32 {
	return max(l.b.choose.MinSize().Height, l.b.slow.MinSize().Height)
}

// timeWidth returns the room kept for the longest words on the time.
func (l *playbarLayout) timeWidth() float32 {
	w, th := l.b.Words, l.b.Theme
	text := w.Phrase("play_assumed_pace", "time", "00.0", "all", "00.0", "basis", w.Basis(motion.CommonPractice))
	return fyne.MeasureText(text, th.Size(theme.SizeNameCaptionText), fyne.TextStyle{}).Width + 4*th.Size(theme.SizeNameInnerPadding)
}

// timeHeight returns the height of as many lines as those words take.
func (l *playbarLayout) timeHeight(wide float32) float32 {
	th := l.b.Theme
	line := fyne.MeasureText("0", th.Size(theme.SizeNameCaptionText), fyne.TextStyle{}).Height
	lines := ceil(l.timeWidth() / max(0.75*wide, 1))
	return ceil(lines*line + 2*th.Size(theme.SizeNameInnerPadding))
}

func (l *playbarLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	const pad = playbarPad
	b, x, y, h := l.b, float32(pad), float32(pad/2), l.row()
	put := func(o fyne.CanvasObject, w, high float32) {
		o.Move(fyne.NewPos(x, y+(h-high)/2))
		o.Resize(fyne.NewSize(w, high))
		x += w
	}
	chooseApart, timeApart := l.plan(size.Width)
	if chooseApart {
		put(b.choose, size.Width-2*pad, b.choose.MinSize().Height)
		x, y = pad, y+h
	}
	m := b.play.MinSize()
	put(b.back, m.Width, m.Height)
	put(b.play, m.Width, m.Height)
	x -= m.Width
	put(b.pause, m.Width, m.Height)
	x += pad
	if !chooseApart {
		put(b.choose, b.choose.Longest(), b.choose.MinSize().Height)
		x += pad
	}
	s := b.slow.MinSize()
	put(b.slow, s.Width, s.Height)
	if timeApart {
		x, y, h = 0, y+h, l.timeHeight(size.Width)
	}
	high := b.time.MinSize().Height
	if timeApart {
		high = h
	}
	put(b.time, max(size.Width-x, 1), high)
	b.track.Move(fyne.NewPos(0, y+h+pad/2))
	b.track.Resize(fyne.NewSize(size.Width, max(size.Height-y-h-pad/2-2, 1)))
}
