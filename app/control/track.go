package control

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Track is a slider: a line with a knob, and a mark at the default. It follows
// the pointer from the moment it is pressed.
type Track struct {
	widget.BaseWidget

	Min, Max, Step, Default float64
	Absent                  bool // the value 0 means that there is none
	OnChanged               func(float64)

	value            float64
	focused, hovered bool
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
		t.Refresh()
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
	t.Refresh()
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
func (t *Track) FocusGained() { t.focused = true; t.Refresh() }

// FocusLost hides it.
func (t *Track) FocusLost() { t.focused = false; t.Refresh() }

// MouseIn shows that it can be pressed.
func (t *Track) MouseIn(*desktop.MouseEvent) { t.hovered = true; t.Refresh() }

// MouseMoved does nothing.
func (t *Track) MouseMoved(*desktop.MouseEvent) {}

// MouseOut undoes MouseIn.
func (t *Track) MouseOut() { t.hovered = false; t.Refresh() }

// Cursor is the one for things that move sideways.
func (t *Track) Cursor() desktop.Cursor { return desktop.HResizeCursor }

// CreateRenderer makes the drawing.
func (t *Track) CreateRenderer() fyne.WidgetRenderer {
	r := &trackRenderer{
		t: t, line: new(canvas.Rectangle), span: new(canvas.Rectangle), tick: new(canvas.Rectangle),
		ring: new(canvas.Circle), knob: new(canvas.Circle),
	}
	r.Refresh()
	return r
}

type trackRenderer struct {
	t                *Track
	line, span, tick *canvas.Rectangle
	ring, knob       *canvas.Circle
}

func (r *trackRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.line, r.span, r.tick, r.ring, r.knob}
}

func (r *trackRenderer) Destroy() {}

func (r *trackRenderer) MinSize() fyne.Size { return fyne.NewSize(60, 17) }

func (r *trackRenderer) Layout(fyne.Size) {
	t, mid := r.t, r.t.Size().Height/2
	put(r.line, knob, mid-1.5, t.Size().Width-2*knob, 3)
	from, to := t.place(t.Default), t.place(t.value)
	put(r.span, min(from, to), mid-1.5, max(from, to)-min(from, to), 3)
	put(r.tick, from-1, mid-6, 2, 12)
	put(r.ring, to-knob-3, mid-knob-3, 2*knob+6, 2*knob+6)
	put(r.knob, to-knob, mid-knob, 2*knob, 2*knob)
}

func (r *trackRenderer) Refresh() {
	l := lookOf(r.t)
	r.line.FillColor, r.line.CornerRadius = l.th.Color(colourSeparator, variant()), 1.5
	r.span.FillColor = l.Designs[0].Line
	r.tick.FillColor = l.Axis
	r.knob.FillColor, r.knob.StrokeColor, r.knob.StrokeWidth = l.Designs[0].Text, l.Paper, 1.5
	if r.t.Absent && r.t.value == 0 {
		r.knob.FillColor, r.knob.StrokeColor = l.Panel, l.Axis
	}
	r.ring.FillColor = l.th.Color(colourFocus, variant())
	// What lies under the knob is not drawn.
	moved := r.t.value != r.t.Default
	show(r.span, moved)
	show(r.tick, moved)
	show(r.ring, r.t.focused || r.t.hovered)
	r.Layout(r.t.Size())
	canvas.Refresh(r.t)
}
