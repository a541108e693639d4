package view

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/chart"
	"rimclear/app/control"
	"rimclear/app/figure"
	"rimclear/kinematics/motion"
)

// playbar is the strip at the foot of a view that plays a motion.
type playbar struct {
	*Context
	transport   *Transport
	play, pause *control.IconButton
	back        *control.IconButton
	choose      *control.Select
	time        *widget.Label
	slow        *control.Chip
	track       *control.Board
	object      *fyne.Container

	OnGrow func() // the strip needs another height

	list    []motion.Requirement // what can be chosen
	silent  bool
	written string
}

func newPlaybar(c *Context) *playbar {
	b := &playbar{Context: c, transport: c.transport(), track: control.NewBoard(), time: widget.NewLabel("")}
	w := c.Words
	b.play = control.NewIconButton(theme.MediaPlayIcon(), w.Phrase("play"), b.transport.Toggle)
	b.pause = control.NewIconButton(theme.MediaPauseIcon(), w.Phrase("play_pause"), b.transport.Toggle)
	b.back = control.NewIconButton(theme.MediaSkipPreviousIcon(), w.Phrase("play_start"), func() { b.transport.Seek(0) })
	for _, k := range []*control.IconButton{b.play, b.pause, b.back} {
		k.Hint = c.Hint
	}
	b.choose = control.NewSelect(nil, nil)
	b.choose.PlaceHolder = w.Phrase("play_choose")
	b.choose.Hint, b.choose.Help = c.Hint, w.Phrase("play_choose_help")
	b.choose.OnChanged = func(string) {
		if i := b.choose.SelectedIndex(); !b.silent && i >= 0 && i < len(b.list) {
			b.transport.Load(b.list[i])
		}
	}
	b.time.SizeName, b.time.Wrapping = theme.SizeNameCaptionText, fyne.TextWrapWord
	b.slow = control.NewChip(w.Phrase("play_slow"), w.Phrase("play_slow_help"), func() {
		b.transport.SetSlow(b.transport.player.Speed() == 1)
	})
	b.slow.Hint = c.Hint
	b.track.Hint, b.track.Help = c.Hint, w.Phrase("play_track_help")
	b.track.Inquiry = c.inquiry(func() string { return "margin_track" })
	b.track.Draw, b.track.Pick = b.draw, func(x, _ float64) {
		b.transport.player.Pause()
		b.transport.Seek(x)
	}
	b.track.Nudge = func(x, y int) { b.transport.Step(float64(x+y) / 100) }
	b.object = container.New(&playbarLayout{b}, b.back, b.play, b.pause, b.choose, b.slow, b.time, b.track)
	b.transport.bars = append(b.transport.bars, b)
	b.display()
	return b
}

// display shows where the motion is at.
func (b *playbar) display() {
	if !b.object.Visible() {
		return
	}
	t := b.transport
	playing := t.player.Playing()
	setVisible(b.play, !playing)
	setVisible(b.pause, playing)
	b.play.SetEnabled(t.loaded)
	b.back.SetEnabled(t.loaded)
	b.slow.SetChosen(t.player.Speed() != 1)
	b.options()
	if s := b.object.Size(); b.OnGrow != nil && s.Width > 0 && b.heightAt(s.Width) != s.Height {
		b.OnGrow()
	}
	b.track.Redraw()
}

// options lists the motions that are required, and the one that plays.
func (b *playbar) options() {
	s := b.Session.Now()
	list, _ := b.Motions.Required(&s.Case)
	t := b.transport
	at := -1
	for i, r := range list {
		if t.loaded && r.Key == t.now.Key && r.Set == t.now.Set {
			at = i
		}
	}
	if t.loaded && at < 0 {
		list, at = append(list[:len(list):len(list)], t.now), len(list)
	}
	if len(list) != len(b.list) || len(list) > 0 && (list[0].Key != b.list[0].Key || list[len(list)-1].Key != b.list[len(list)-1].Key) {
		names := make([]string, len(list))
		for i, r := range list {
			names[i] = b.Words.Requirement(r)
		}
		b.choose.SetOptions(names)
	}
	b.list = list
	b.silent = true
	if at >= 0 && b.choose.SelectedIndex() != at {
		b.choose.SetSelectedIndex(at)
	}
	b.silent = false
}

// write says the time, and what the motion rests on.
func (b *playbar) write() {
	t := b.transport
	text := ""
	if t.loaded {
		pace := "play_assumed_pace"
		if t.player.Clip().Recorded {
			pace = "play_recorded_pace"
		}
		text = b.Words.Phrase(pace, "time", b.Words.Digits(t.player.Time(), 1), "all", b.Words.Digits(t.player.Clip().Duration(), 1),
			"basis", b.Words.Basis(t.now.Basis))
	}
	if text != b.written {
		b.written = text
		b.time.SetText(text)
	}
}

func (b *playbar) draw(img *image.RGBA, size figure.Point, scale float64) figure.Frame {
	f := chart.MarginTrack(b.transport.course(), chart.Look{Size: size, Palette: *b.palette(), Words: b.Words,
		Text: float64(b.Theme.Size(theme.SizeNameCaptionText))})
	f.DrawStatic(img, scale)
	f.DrawMarker(img, scale)
	return f.Plot
}
