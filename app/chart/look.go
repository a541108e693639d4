package chart

import (
	"strings"

	"rimclear/app/figure"
	"rimclear/app/present"
)

// Look is how a chart is to be drawn: how large, in which theme, in which
// language.
type Look struct {
	Size    figure.Point // points
	Palette figure.Palette
	Text    float64        // size of the letters in points; zero means 10.5
	Words   *present.Words // nil means English
}

func (l Look) complete() Look {
	if l.Text == 0 {
		l.Text = 10.5
	}
	if l.Words == nil {
		l.Words = present.English()
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

// number returns v with n decimals as the language writes it, and a true minus
// sign.
func (l Look) number(v float64, n int) string {
	return strings.Replace(figure.Number(v, n), ".", l.Words.Point(), 1)
}

// Phrase returns a phrase with its {places} filled by pairs of name and value.
func (l Look) Phrase(key string, parts ...string) string { return l.Words.Phrase(key, parts...) }
