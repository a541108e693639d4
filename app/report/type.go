package report

import "rimclear/app/figure"

// Sizes of the letters in points.
const (
	titleSize   = 16
	headingSize = 10
	answerSize  = 9.6
	textSize    = 8.2
	tableSize   = 7.1
	noteSize    = 6.6
)

// typeset is how a report is set: its colours and its letters.
type typeset struct{ palette figure.Palette }

func newTypeset() typeset { return typeset{figure.Light()} }

func (t typeset) ink(size float64) figure.TextStyle {
	return figure.TextStyle{Font: figure.Font{Size: size}, Colour: t.palette.Ink}
}

func (t typeset) soft(size float64) figure.TextStyle {
	return figure.TextStyle{Font: figure.Font{Size: size}, Colour: t.palette.Soft}
}

func (t typeset) bold(size float64) figure.TextStyle {
	s := t.ink(size)
	s.Bold = true
	return s
}

// design is the letter of a design in its own colour.
func (t typeset) design(i int, size float64) figure.TextStyle {
	s := t.bold(size)
	s.Colour = t.palette.Designs[i%4].Text
	return s
}

// hair is the thinnest line of a page.
func (t typeset) hair() figure.Stroke { return figure.Stroke{Colour: t.palette.Grid, Width: 0.7} }
