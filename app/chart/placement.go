package chart

import (
	"cmp"
	"slices"
	"strings"

	"rimclear/app/figure"
	"rimclear/kinematics"
)

// Placements is what a chart of simulated placements shows: for each design
// the share that meets every criterion.
type Placements struct {
	Designs []kinematics.Design // A to D, in this order
	Shares  []kinematics.Share  // one per design
	Motions []string            // names of the requirements, by index
}

// PlacementShare draws the share of simulated placements that meet every
// criterion: one bar of all placements per design, the free part filled to its
// share, the rest divided by the motion that would fail first. A whisker spans
// two standard errors to either side.
func PlacementShare(p Placements, l Look) figure.Figure {
	l = l.complete()
	c := &placementChart{Placements: p, look: l}
	c.layout()
	title := l.Phrase("chart_placement_share")
	return figure.Figure{
		Title: title, Alt: c.alt(title), Size: l.Size, Paper: l.Palette.Paper, Static: c.drawStatic, Plot: c.frame,
	}
}

// placementChart is one drawing of the shares.
type placementChart struct {
	Placements
	look  Look
	frame figure.Frame // percent across
	foot  figure.Point
	pitch float64 // of the designs
}

// In sizes of the letters: the height of a bar, and of what stands with it.
const (
	shareBar   = 1.5
	sharePitch = 5.4
)

func (c *placementChart) layout() {
	size := c.look.font(1).Size
	body := figure.Rect{Max: c.look.Size}.Inset(0.6 * size)
	legend := c.legend().Size()
	c.foot = figure.Pt(body.Min.X, body.Max.Y-legend.Y)
	body.Max.Y -= legend.Y + 0.4*size
	axis := figure.Axis{Title: c.look.Phrase("chart_placements_axis"), Min: 0, Max: 100, Step: 20, Unit: " %", Grid: true}
	none := figure.Axis{Min: 0, Max: 1, Ticks: []figure.Tick{}}
	c.frame = figure.NewFrame(body, axis, none, c.look.font(0.85))
	c.pitch = min(c.frame.Box.H()/float64(max(len(c.Designs), 1)), sharePitch*size)
	bottom := c.frame.Box.Min.Y + c.pitch*float64(max(len(c.Designs), 1))
	c.foot.Y -= c.frame.Box.Max.Y - bottom
	c.frame.Box.Max.Y = bottom
}

func (c *placementChart) alt(title string) string {
	parts := make([]string, 0, len(c.Designs))
	for i := range c.Designs {
		parts = append(parts, c.look.Phrase("chart_placement_reading", "design", c.name(i), "share", c.reading(i)))
	}
	return c.look.Phrase("chart_placement_alt", "title", title, "shares", strings.Join(parts, "; "))
}

// name returns a design's letter and its name, if it has one.
func (c *placementChart) name(i int) string {
	letter := c.look.Palette.Designs[i%4].Name
	if name := c.Designs[i].Name; name != "" {
		return c.look.Phrase("chart_legend", "letter", letter, "name", name)
	}
	return letter
}

func (c *placementChart) reading(i int) string {
	s := c.Shares[i]
	return c.look.Phrase("chart_share_error", "share", c.look.Words.Percent(s.Share, 1), "error", c.look.Words.Percent(s.StandardError, 1))
}

// legend explains the two parts of a bar and the whisker.
func (c *placementChart) legend() figure.Legend {
	l, pal := c.look, c.look.Palette
	edge := figure.Stroke{Colour: pal.Axis, Width: 0.6}
	return figure.Legend{Font: l.font(0.9), Row: true, Width: l.Size.X - 1.2*l.Text, Entries: []figure.Entry{
		{Label: l.Phrase("chart_share_meets"), Fill: figure.Solid(tints(pal)[2]), Line: edge},
		{Label: l.Phrase("chart_share_fails"), Fill: forbidden(pal), Line: edge},
		{Label: l.Phrase("chart_two_errors"), Line: figure.Stroke{Colour: pal.Ink, Width: 1.2}},
	}}
}

// leastShown is the share below which a failure is left out: half a thousandth.
const leastShown = 0.0005

// failure is a motion, and the share of placements in which it fails first.
type failure struct {
	name  string
	share float64
}

// failures returns what fails first, most often first: at most so many, and
// the rest as one without a name.
func (c *placementChart) failures(i, most int) []failure {
	var list []failure
	for k, share := range c.Shares[i].First {
		if share > leastShown {
			list = append(list, failure{c.Motions[k], share})
		}
	}
	slices.SortStableFunc(list, func(a, b failure) int { return cmp.Compare(b.share, a.share) })
	list = list[:min(len(list), most)]
	rest := 1 - c.Shares[i].Share
	for _, f := range list {
		rest -= f.share
	}
	if rest > leastShown {
		list = append(list, failure{"", rest})
	}
	return list
}
