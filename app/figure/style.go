package figure

import (
	"image/color"
	"strconv"
)

// Colour is a colour with its opacity, not premultiplied.
type Colour = color.NRGBA

// Hex returns the opaque colour written as "#RRGGBB"; it panics on anything
// else, since colours are constants of the program.
func Hex(s string) Colour {
	n, err := strconv.ParseUint(s[1:], 16, 24)
	if err != nil || len(s) != 7 || s[0] != '#' {
		panic("figure: not a colour: " + s)
	}
	return Colour{R: uint8(n >> 16), G: uint8(n >> 8), B: uint8(n), A: 255}
}

// Fade returns c with the opacity a, 0 to 1.
func Fade(c Colour, a float64) Colour {
	c.A = uint8(a*255 + 0.5)
	return c
}

// Mix returns the colour at t between a (0) and b (1).
func Mix(a, b Colour, t float64) Colour {
	t = min(max(t, 0), 1)
	m := func(x, y uint8) uint8 { return uint8(float64(x) + t*(float64(y)-float64(x)) + 0.5) }
	return Colour{R: m(a.R, b.R), G: m(a.G, b.G), B: m(a.B, b.B), A: m(a.A, b.A)}
}

// Stroke is how a line is drawn. Joins are round and ends are cut square; a
// line whose last point equals its first is closed. The zero value draws
// nothing.
type Stroke struct {
	Colour Colour
	Width  float64   // points
	Dash   []float64 // lengths of line and gap in points, in turn; nil for solid
}

// Fill is how an area is drawn: a colour, and a pattern on top of it. The zero
// value draws nothing.
type Fill struct {
	Colour  Colour
	Pattern Pattern
}

// Solid returns the plain fill of the colour c.
func Solid(c Colour) Fill { return Fill{Colour: c} }

// PatternKind names a pattern, so that an area can be told without its colour.
type PatternKind uint8

// The patterns.
const (
	Plain   PatternKind = iota // none
	Hatch                      // lines rising to the right
	Crossed                    // lines both ways
	Dots                       // dots in a staggered grid
)

// Pattern is drawn over the colour of a [Fill]. Patterns are fixed to the
// surface, so that neighbouring areas join without a seam.
type Pattern struct {
	Kind   PatternKind
	Colour Colour
	Pitch  float64 // distance of the lines or dots, points; zero means 6
	Width  float64 // width of the lines or diameter of the dots; zero means 0.8, for dots 1.6
}

// HAlign says which part of a text lies at its place, along the line.
type HAlign uint8

// The alignments along the line.
const (
	Left HAlign = iota
	Centre
	Right
)

// VAlign says which part of a text lies at its place, across the line.
type VAlign uint8

// The alignments across the line.
const (
	Baseline VAlign = iota
	Middle          // half the height of a capital letter
	Top             // the top of the tallest letters
	Bottom          // the bottom of the deepest letters
)

// TextStyle is how a text is drawn.
type TextStyle struct {
	Font
	Colour Colour
	H      HAlign
	V      VAlign
	Turn   float64 // degrees, counter-clockwise about the place of the text
	Plate  Colour  // of a box behind the letters; transparent draws none
}

// At returns t with other alignments.
func (t TextStyle) At(h HAlign, v VAlign) TextStyle {
	t.H, t.V = h, v
	return t
}
