package chart

import (
	"strings"

	"rimclear/app/figure"
	"rimclear/kinematics/unit"
)

// Words finds the words of a key in the reader's language.
type Words func(key string) string

// Look is how a chart is to be drawn: how large, in which theme, in which
// language.
type Look struct {
	Size    figure.Point // points
	Palette figure.Palette
	Text    float64 // size of the letters in points; zero means 10.5
	Words   Words   // nil means English
}

func (l Look) complete() Look {
	if l.Text == 0 {
		l.Text = 10.5
	}
	if l.Words == nil {
		l.Words = English
	}
	return l
}

// font returns the letters of the chart, k times as large as usual.
func (l Look) font(k float64) figure.Font { return figure.Font{Size: l.Text * k} }

func (l Look) ink(k float64) figure.TextStyle {
	return figure.TextStyle{Font: l.font(k), Colour: l.Palette.Ink}
}

func (l Look) soft(k float64) figure.TextStyle {
	return figure.TextStyle{Font: l.font(k), Colour: l.Palette.Soft}
}

// say returns the words of a key with {name} replaced by values, given in
// pairs of name and value.
func (l Look) say(key string, pairs ...string) string {
	text := l.Words(key)
	for i := 0; i+1 < len(pairs); i += 2 {
		text = strings.ReplaceAll(text, "{"+pairs[i]+"}", pairs[i+1])
	}
	return text
}

// degrees returns an angle in whole degrees.
func degrees(a unit.Angle) string { return figure.Number(a.Degrees(), 0) + "°" }
