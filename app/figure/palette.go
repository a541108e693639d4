package figure

import "math"

// Tone is the look of one state of the joint. Each state has a shape or pattern
// besides its colour.
type Tone struct {
	Fill Fill   // of areas
	Line Colour // of lines and outlines: at least 3:1 against the paper
	Text Colour // of words: at least 4.5:1 against the paper and the panel
}

// Look is the look of one of the designs A to D, the same everywhere.
type Look struct {
	Name string    // "A"
	Line Colour    // at least 3:1 against the paper
	Text Colour    // at least 4.5:1 against the paper and the panel
	Dash []float64 // as in [Stroke]
}

// Stroke returns a line of the design.
func (l Look) Stroke(width float64) Stroke { return Stroke{l.Line, width, l.Dash} }

// Palette is a theme. Its hues are those of Okabe and Ito, "Color Universal
// Design", 2008, which colour-blind readers can tell apart; where a hue is too
// pale or too dark for lines or words on the paper, it is darkened or lightened
// until it meets the ratios of WCAG 2.1 (4.5:1 for words, 3:1 for lines).
type Palette struct {
	Dark bool

	Paper Colour // background of charts and pages
	Panel Colour // background of groups on the paper
	Ink   Colour // words and main lines
	Soft  Colour // lesser words
	Axis  Colour // outline and ticks of a chart
	Grid  Colour // faint lines; decoration alone, without a least contrast

	Free    Tone // no contact
	Close   Tone // nearly in contact
	Contact Tone // in contact or forbidden
	Beyond  Tone // where bone and soft tissue stop first

	Designs [4]Look // A to D

	low, high Colour // ends of Ramp
}

// Light returns the theme for bright screens and for paper.
func Light() Palette {
	p := Palette{
		Paper: Hex("#FFFFFF"), Panel: Hex("#F3F5F7"),
		Ink: Hex("#16191D"), Soft: Hex("#59626C"),
		Axis: Hex("#7A838C"), Grid: Hex("#E1E5E9"),
		Free:    Tone{Line: Hex("#009E73"), Text: Hex("#00704F")},
		Close:   Tone{Line: Hex("#B27700"), Text: Hex("#865900")},
		Contact: Tone{Line: Hex("#D55E00"), Text: Hex("#AD4900")},
		Beyond:  Tone{Line: Hex("#7A838C"), Text: Hex("#59626C")},
		Designs: [4]Look{
			{Line: Hex("#0072B2"), Text: Hex("#0067A1")},
			{Line: Hex("#AD4F86"), Text: Hex("#A3447B")},
			{Line: Hex("#16191D"), Text: Hex("#16191D")},
			{Line: Hex("#2F8FCB"), Text: Hex("#1F6F9F")},
		},
		low: Hex("#EAF6F1"), high: Hex("#009E73"),
	}
	return p.finish(Hex("#D3D8DD"), Hex("#A3ABB3"))
}

// Dark returns the theme for dark rooms.
func Dark() Palette {
	p := Palette{
		Dark:  true,
		Paper: Hex("#14181C"), Panel: Hex("#1D2329"),
		Ink: Hex("#F2F4F6"), Soft: Hex("#A9B3BC"),
		Axis: Hex("#77828C"), Grid: Hex("#2B333A"),
		Free:    Tone{Line: Hex("#009E73"), Text: Hex("#2CC196")},
		Close:   Tone{Line: Hex("#E69F00"), Text: Hex("#E69F00")},
		Contact: Tone{Line: Hex("#D55E00"), Text: Hex("#F58A3C")},
		Beyond:  Tone{Line: Hex("#77828C"), Text: Hex("#A9B3BC")},
		Designs: [4]Look{
			{Line: Hex("#0072B2"), Text: Hex("#3390DA")},
			{Line: Hex("#CC79A7"), Text: Hex("#D88BB5")},
			{Line: Hex("#FFFFFF"), Text: Hex("#FFFFFF")},
			{Line: Hex("#56B4E9"), Text: Hex("#56B4E9")},
		},
		low: Hex("#17302A"), high: Hex("#007A59"),
	}
	return p.finish(Hex("#333C44"), Hex("#5A6670"))
}

// finish sets what both themes share: the fills and the dashes. beyond and
// hatch colour the area where other tissue stops first.
func (p Palette) finish(beyond, hatch Colour) Palette {
	p.Free.Fill = Solid(Hex("#009E73"))
	p.Close.Fill = Fill{Hex("#E69F00"), Pattern{Kind: Dots, Colour: Hex("#16191D"), Pitch: 5, Width: 1.4}}
	p.Contact.Fill = Fill{Hex("#D55E00"), Pattern{Kind: Crossed, Colour: Hex("#16191D"), Pitch: 6, Width: 0.7}}
	p.Beyond.Fill = Fill{beyond, Pattern{Kind: Hatch, Colour: hatch, Pitch: 4, Width: 0.8}}
	for i, dash := range [4][]float64{nil, {7, 3}, {1.5, 2.5}, {8, 2.5, 1.5, 2.5}} {
		p.Designs[i].Name = string(rune('A' + i))
		p.Designs[i].Dash = dash
	}
	return p
}

// Forbidden returns the fill of a side that must not be entered: hatched, so
// that it is told without its colour.
func (p Palette) Forbidden() Fill {
	return Fill{p.Panel, Pattern{Kind: Hatch, Colour: p.Contact.Line, Pitch: 5, Width: 0.8}}
}

// Ramp returns the colour of a margin: t = 0 is none, t = 1 the most. Ink can
// be read on all of it.
func (p Palette) Ramp(t float64) Colour { return Mix(p.low, p.high, t) }

// Contrast returns the ratio of the luminances of two opaque colours, 1 to 21,
// as WCAG 2.1 defines it.
func Contrast(a, b Colour) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

// luminance is the relative luminance of WCAG 2.1.
func luminance(c Colour) float64 {
	lin := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
}
