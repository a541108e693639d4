package chart

import (
	"slices"
	"strings"

	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

// page is what the charts share: a line of the designs and of what is held at
// the top, the areas explained at the foot, and the body between.
type page struct {
	Subject
	look       Look
	head, foot figure.Point // upper left corners of the two legends
	body       figure.Rect
}

func newPage(s Subject, l Look) page {
	p := page{Subject: s, look: l}
	size := l.font(1).Size
	p.body = figure.Rect{Max: l.Size}.Inset(0.6 * size)
	p.head = p.body.Min
	p.foot = figure.Pt(p.body.Min.X, p.body.Max.Y-p.areas().Size().Y)
	p.body.Min.Y += l.font(1).LineHeight() + 0.3*size
	p.body.Max.Y = p.foot.Y - 0.2*size
	return p
}

// alt returns a chart in a sentence, with where the grey areas come from.
func (p *page) alt(title, held string) string {
	return p.look.Phrase("chart_alt", "title", title, "held", held, "source", p.sources())
}

// sources lists the sources of the native passive ranges, each once.
func (p *page) sources() string {
	var keys []string
	for _, q := range kinematics.Questions {
		if q.Native.Known() && !slices.Contains(keys, q.Native.Source) {
			keys = append(keys, q.Native.Source)
		}
	}
	for i, key := range keys {
		keys[i] = p.look.Words.Source(key)
	}
	return strings.Join(keys, "; ")
}

// sideWords returns "right hip" or "left hip".
func (p *page) sideWords() string {
	side := p.look.Words.Choice("side", "right")
	if p.Hip.Side == hip.Left {
		side = p.look.Words.Choice("side", "left")
	}
	return p.look.Phrase("hip", "side", side)
}

// drawAround draws the legends, and at the upper right what is held.
func (p *page) drawAround(s *figure.Surface, held string) {
	l := p.look
	p.designs(p.body.W()-l.font(1).Width(held)-1.5*l.Text).Draw(s, p.head, l.Palette)
	middle := p.head.Y + l.font(1).LineHeight()/2
	s.Text(figure.Pt(p.body.Max.X, middle), held, l.soft(1).At(figure.Right, figure.Middle))
	p.areas().Draw(s, p.foot, l.Palette)
}

// designs is the legend of the designs, with their names if they fit into
// room.
func (p *page) designs(room float64) figure.Legend {
	g := figure.Legend{Font: p.look.font(1), Row: true}
	for i := range p.Designs {
		st := p.stroke(i)
		g.Entries = append(g.Entries, figure.Entry{Label: p.look.Palette.Designs[i%4].Name, Line: st})
	}
	short := g
	short.Entries = append([]figure.Entry(nil), g.Entries...)
	for i, d := range p.Designs {
		if d.Name != "" {
			g.Entries[i].Label = p.look.Phrase("chart_legend", "letter", g.Entries[i].Label, "name", d.Name)
		}
	}
	if g.Size().X > room {
		return short
	}
	return g
}

// stroke returns the line of a design: bold for the active one.
func (p *page) stroke(i int) figure.Stroke {
	width := 1.5
	if i == p.Active {
		width = 2.6
	}
	return p.look.Palette.Designs[i%4].Stroke(width)
}

// areas is the legend of the fills.
func (p *page) areas() figure.Legend {
	pal := p.look.Palette
	edge := figure.Stroke{Colour: pal.Axis, Width: 0.6}
	return figure.Legend{
		Font: p.look.font(0.92), Row: true, Width: p.look.Size.X - 1.2*p.look.Text,
		Entries: []figure.Entry{
			{Label: p.look.Phrase("chart_free"), Fill: figure.Solid(tints(pal)[2]), Line: edge},
			{Label: p.look.Phrase("chart_contact"), Fill: forbidden(pal), Line: edge},
			{Label: p.look.Phrase("chart_beyond"), Fill: figure.Solid(pal.Beyond.Fill.Colour), Line: edge},
		},
	}
}

// drawMargins fills the free side of the active design, the more the farther
// from contact, and hatches the other.
func (p *page) drawMargins(s *figure.Surface, fr figure.Frame, fields []figure.Field) {
	s.Polygon(fr.Box.Ring(), forbidden(p.look.Palette))
	if _, ok := p.active(); ok {
		figure.FillContours(s, fr, fields[p.Active], marginLevels, tints(p.look.Palette))
	}
}

// drawWithin draws the margins inside the native passive ranges, whose outline
// is given, and greys what lies outside: there the free side is only a tinge.
func (p *page) drawWithin(s *figure.Surface, fr figure.Frame, fields []figure.Field, outline []figure.Point) {
	pal := p.look.Palette
	grey := pal.Beyond.Fill.Colour
	s.Polygon(fr.Box.Ring(), figure.Solid(grey))
	if _, ok := p.active(); ok {
		figure.FillContours(s, fr, fields[p.Active], marginLevels[:1], []figure.Colour{beyond(pal)})
	}
	if box, ok := figure.Bounds(outline); ok {
		s.PushClip(outline)
		s.Polygon(box.Ring(), forbidden(pal))
		if _, ok := p.active(); ok {
			figure.FillContours(s, fr, fields[p.Active], marginLevels, tints(pal))
		}
		s.PopClip()
	}
	s.Outline(outline, figure.Stroke{Colour: pal.Beyond.Line, Width: 0.8, Dash: []float64{3, 2}})
}

// drawEnvelopes draws the margin of the active design as thin lines and the
// envelope of each design in its own look.
func (p *page) drawEnvelopes(s *figure.Surface, fr figure.Frame, fields []figure.Field) {
	if _, ok := p.active(); ok {
		thin := figure.Stroke{Colour: p.look.Palette.Free.Line, Width: 0.7}
		figure.DrawContours(s, fr, fields[p.Active], marginLevels[1:], thin)
	}
	p.drawOutlines(s, fr, fields)
}

// drawOutlines draws the envelope of each design, the active one last.
func (p *page) drawOutlines(s *figure.Surface, fr figure.Frame, fields []figure.Field) {
	for i, f := range fields {
		if i != p.Active {
			figure.DrawContours(s, fr, f, []float64{0}, p.stroke(i))
		}
	}
	if _, ok := p.active(); ok {
		figure.DrawContours(s, fr, fields[p.Active], []float64{0}, p.stroke(p.Active))
	}
}
