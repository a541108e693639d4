package control

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Track is a slider: a line with a knob, and a mark at the default. It follows
// the pointer from the moment it is pressed. It stands in a Dial.
type Track struct {
	widget.BaseWidget

	Min, Max, Step, Default float64
	Absent                  bool // the value 0 means that there is none
	OnChanged               func(float64)

	hint             *Hint
	help             string
	value            float64
	focused, hovered bool
	drawn
}

// NewTrack returns a slider over a range.
func NewTrack(lo, hi, step, def float64) *Track {
	t := &Track{Min: lo, Max: hi, Step: step, Default: def, value: def}
	t.ExtendBaseWidget(t)
	return t
}

// Value returns the value shown.
func (t *Track) Value() float64 { return t.value }

// Display shows a value without telling of a change.
func (t *Track) Display(v float64) {
	if v != t.value {
		t.value = v
		t.redraw()
	}
}

// set changes the value by hand, onto the grid of steps.
func (t *Track) set(v float64) {
	v = min(max(math.Round(v/t.Step)*t.Step, t.Min), t.Max)
	v = math.Round(v*1e6) / 1e6
	if v == t.value {
		return
	}
	t.value = v
	t.redraw()
	if t.OnChanged != nil {
		t.OnChanged(v)
	}
}

// knob is the radius of the knob, in which the ends of the line are inset.
const knob = 6

// at returns the value at a place along the widget.
func (t *Track) at(x float32) float64 {
	span := t.Size().Width - 2*knob
	if span <= 0 {
		return t.Min
	}
	return t.Min + (t.Max-t.Min)*float64((x-knob)/span)
}

// place returns where a value lies along the widget.
func (t *Track) place(v float64) float32 {
	f := (v - t.Min) / (t.Max - t.Min)
	return knob + float32(min(max(f, 0), 1))*(t.Size().Width-2*knob)
}

// MouseDown begins a drag.
func (t *Track) MouseDown(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary {
		focus(t)
		t.hint.Withdraw(t)
		t.set(t.at(e.Position.X))
	}
}

// MouseUp ends it.
func (t *Track) MouseUp(*desktop.MouseEvent) {}

// Dragged follows the pointer.
func (t *Track) Dragged(e *fyne.DragEvent) { t.set(t.at(e.Position.X)) }

// DragEnd ends a drag.
func (t *Track) DragEnd() {}

// TypedKey moves by a step, by ten (Page), or to an end.
func (t *Track) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft, fyne.KeyDown:
		t.nudge(-1)
	case fyne.KeyRight, fyne.KeyUp:
		t.nudge(1)
	case fyne.KeyPageDown:
		t.nudge(-10)
	case fyne.KeyPageUp:
		t.nudge(10)
	case fyne.KeyHome:
		t.set(t.Min)
	case fyne.KeyEnd:
		t.set(t.Max)
	case fyne.KeyDelete, fyne.KeyBackspace:
		t.set(t.Default)
	}
}

func (t *Track) nudge(steps float64) { t.set(t.value + steps*t.Step) }

// TypedRune does nothing.
func (t *Track) TypedRune(rune) {}

// FocusGained shows the focus.
func (t *Track) FocusGained() { t.focused = true; t.redraw() }

// FocusLost hides it.
func (t *Track) FocusLost() { t.focused = false; t.redraw() }

// MouseIn shows that it can be pressed.
func (t *Track) MouseIn(e *desktop.MouseEvent) {
	t.hovered = true
	t.redraw()
	t.MouseMoved(e)
}

// MouseMoved offers the help of the dial.
func (t *Track) MouseMoved(e *desktop.MouseEvent) { t.hint.Offer(t, t.help, e.AbsolutePosition) }

// MouseOut undoes MouseIn.
func (t *Track) MouseOut() {
	t.hovered = false
	t.redraw()
	t.hint.Withdraw(t)
}

// Cursor is the one for things that move sideways.
func (t *Track) Cursor() desktop.Cursor { return desktop.HResizeCursor }

// CreateRenderer makes a place for the pointer and the keyboard; the group
// draws it.
func (t *Track) CreateRenderer() fyne.WidgetRenderer { return blank(fyne.NewSize(60, trackHigh)) }

const trackHigh = 17

// paint draws the line, what of it lies between default and value, the mark at
// the default, and the knob.
func (t *Track) paint(k ink, l look, at fyne.Position) {
	mid := at.Y + t.Size().Height/2
	k.rect(at.X+knob, mid-1.5, t.Size().Width-2*knob, 3, l.th.Color(colourSeparator, variant()))
	from, to := at.X+t.place(t.Default), at.X+t.place(t.value)
	if t.value != t.Default {
		k.rect(min(from, to), mid-1.5, max(from, to)-min(from, to), 3, l.Designs[0].Line)
		k.rect(from-1, mid-6, 2, 12, l.Axis)
	}
	if t.focused || t.hovered {
		k.disc(to, mid, knob+3, 0, l.th.Color(colourFocus, variant()), transparent)
	}
	fill, rim := color.Color(l.Designs[0].Text), color.Color(l.Paper)
	if t.Absent && t.value == 0 {
		fill, rim = l.Panel, l.Axis
	}
	k.disc(to, mid, knob, 1.5, fill, rim)
}
