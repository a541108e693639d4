package control

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
)

// Need is a mark above a ruler: a value that is required there, or one that is
// only reached on the way of something else, which is hollow.
type Need struct {
	At      float64 // degrees, of the ruler's own sign
	Reached bool    // only reached
}

// SetNeeds shows the values that a ruler of the column is asked for. The slice
// must not be changed afterwards.
func (s *Rulers) SetNeeds(r *Ruler, list []Need) {
	if slices.Equal(list, r.needs) {
		return
	}
	grows := (len(list) > 0) != (len(r.needs) > 0)
	r.needs = list
	if grows {
		s.Refresh()
		if s.OnGrow != nil {
			s.OnGrow()
		}
	}
	r.redraw()
}

// short reports whether a ruler's free span ends before a required value.
func (r *Ruler) short(n Need) bool {
	e, at := r.high, n.At
	if at < 0 {
		e, at = r.low, -at
	}
	return !n.Reached && (e.Stopped || e.At == 0) && e.Asked && e.At < at
}

const needSide = 11 // of the square in which a mark is drawn

// paintNeeds draws the marks, their tips on the bar whose top is at y.
func (r *Ruler) paintNeeds(k ink, l look, y float32) {
	for _, n := range r.needs {
		c := color.Color(l.Ink)
		if r.short(n) {
			c = l.Contact.Text
		}
		k.need(r.place(n.At), y, n.Reached, c, l.Panel)
	}
}

// need draws a mark with its tip at a place.
func (k ink) need(x, y float32, hollow bool, c, ground color.Color) {
	k.triangle(x-needSide/2.0, y-0.75*needSide, needSide, true, c)
	if hollow {
		const inner = 0.55 * needSide
		k.triangle(x-inner/2, y-0.75*needSide+0.08*needSide, inner, true, ground)
	}
}

// Legend is the words that explain the rulers' marks, shown at the foot of the
// column where there is room for a line of them.
type Legend struct {
	Off     string // of a hollow needle
	Need    string // of a mark; "" where there is none
	Reached bool   // the marks are hollow
}

// SetLegend changes the words at the foot.
func (s *Rulers) SetLegend(l Legend) {
	if l != s.legend {
		s.legend = l
		s.redraw()
	}
}

// LegendHeight is the room that the words at the foot take.
func (s *Rulers) LegendHeight() float32 {
	return whole(fyne.MeasureText("0", lookOf(s).caption, fyne.TextStyle{})).Height + 4
}

// paintLegend draws the words at the foot, where there is room below y.
func (s *Rulers) paintLegend(k ink, l look, y float32) {
	if s.legend.Off == "" || s.Size().Height < y+s.LegendHeight()-1 {
		return
	}
	const mark, gap = 12, 14
	items := []word{{text: s.legend.Off, size: l.caption, colour: opaque(l.Soft)}}
	if s.legend.Need != "" {
		items = append(items, word{text: s.legend.Need, size: l.caption, colour: opaque(l.Soft)})
	}
	wide := float32(0)
	for _, t := range items {
		wide += mark + k.words.wide(t)
	}
	if wide+gap > s.Size().Width { // the words of the marks are told by the pointer too
		items = items[:1]
	}
	x, middle := float32(4), y+4+items[0].high()/2
	for i, t := range items {
		if i == 0 {
			k.disc(x, middle, 4, 1.5, l.Paper, l.Ink)
		} else {
			k.need(x+1, middle+needSide/4.0, s.legend.Reached, l.Ink, l.Panel)
		}
		k.text(x+mark-4, y+4, t)
		x += mark + k.words.wide(t) + gap
	}
}
