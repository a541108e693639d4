package chart

import (
	"math"

	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Target is what a map of targets shows: the worst margin over all motions
// required of one design, and what is laid over it.
type Target struct {
	Hip     kinematics.Hip
	Goal    kinematics.Goal
	Designs []kinematics.Design // A to D, in this order
	Active  int                 // the design whose margins are drawn
	Map     *kinematics.Map     // nil while it is worked out
	Share   *kinematics.ShareMap
	Zones   []kinematics.Zone // those to be outlined
	Best    *kinematics.Cup   // of the greatest margin within the bounds
	Most    *kinematics.Cup   // of the greatest share of placements
	Asked   bool              // some motion is required
}

// cup returns where a cup lies on the map.
func (t Target) cup(c kinematics.Cup, stem unit.Angle) figure.Point {
	g := t.grid()
	at := t.Hip.Spot(c, g.Definition, g.Plane)
	if t.versions() {
		return figure.Pt(at.Up.Degrees(), stem.Degrees())
	}
	return figure.Pt(at.Across.Degrees(), at.Up.Degrees())
}

func (t Target) grid() kinematics.Grid { return t.Map.Grid }

// versions reports whether the map is of cup and stem version.
func (t Target) versions() bool { return t.grid().Up.Key == "stem_anteversion_deg" }

// TargetMap draws the map: where the cup may point, its free side in the
// deeper tints the farther from contact.
func TargetMap(t Target, l Look) figure.Figure {
	l = l.complete()
	m := targetMap{Target: t, look: l}
	m.layout()
	return figure.Figure{
		Title: m.title(), Alt: m.alt(), Size: l.Size, Paper: l.Palette.Paper,
		Static: m.drawStatic, Marker: m.drawMarker, Plot: m.frame,
	}
}

// TargetLayers draws the same in two: the ground, which does not move with the
// margins and may be kept as pixels, and what lies over it.
func TargetLayers(t Target, l Look) (ground, over figure.Figure) {
	l = l.complete()
	m := targetMap{Target: t, look: l}
	m.layout()
	over = figure.Figure{Title: m.title(), Alt: m.alt(), Size: l.Size, Static: m.drawOver, Marker: m.drawMarker, Plot: m.frame}
	ground = over
	ground.Paper, ground.Static, ground.Marker = l.Palette.Paper, m.drawGround, nil
	return ground, over
}

// targetMap is one drawing of a map.
type targetMap struct {
	Target
	look  Look
	frame figure.Frame
	foot  figure.Point
}

func (m *targetMap) layout() {
	size := m.look.font(1).Size
	body := figure.Rect{Max: m.look.Size}.Inset(0.6 * size)
	legend := m.legend().Size()
	m.foot = figure.Pt(body.Min.X, body.Max.Y-legend.Y)
	body.Max.Y -= legend.Y + 0.5*size
	g := m.grid()
	axis := func(s kinematics.Scale) figure.Axis {
		return figure.Axis{Title: m.axisTitle(s.Key), Min: s.From, Max: s.To, Step: 10, Unit: "°", Grid: true}
	}
	m.frame = figure.NewFrame(body, axis(g.Across), axis(g.Up), m.look.font(0.95))
}

// axisTitle names a parameter, and for the cup's angles how they are measured.
func (m *targetMap) axisTitle(key string) string {
	w := m.look.Words
	if key == "stem_anteversion_deg" {
		return w.Name(key)
	}
	definition, plane := kinematics.ParameterByKey("cup_definition"), kinematics.ParameterByKey("cup_plane")
	return w.Phrase("chart_cup_axis", "name", w.Name(key),
		"definition", w.Choice(definition.Key, definition.Choices[m.grid().Definition]),
		"plane", w.Choice(plane.Key, plane.Choices[m.grid().Plane]))
}

func (m *targetMap) title() string {
	if m.versions() {
		return m.look.Phrase("chart_version_map")
	}
	return m.look.Phrase("chart_target_map")
}

func (m *targetMap) alt() string {
	best, ok := 0.0, false
	for _, v := range m.Map.Margin {
		if d := v.Degrees(); !ok || d > best {
			best, ok = d, true
		}
	}
	return m.look.Phrase("chart_target_alt", "title", m.title(), "best", figure.Number(best, 1)+"°")
}

// legend explains the fills and the marks.
func (m *targetMap) legend() figure.Legend {
	l, pal := m.look, m.look.Palette
	edge := figure.Stroke{Colour: pal.Axis, Width: 0.6}
	g := figure.Legend{Font: l.font(0.9), Row: true, Width: l.Size.X - 1.2*l.Text}
	add := func(key string, e figure.Entry) {
		e.Label = l.Phrase(key)
		g.Entries = append(g.Entries, e)
	}
	if m.Share != nil {
		add("chart_share", figure.Entry{Fill: figure.Solid(tints(pal)[2]), Line: edge})
	} else {
		add("chart_free_all", figure.Entry{Fill: figure.Solid(tints(pal)[2]), Line: edge})
	}
	add("chart_not_free", figure.Entry{Fill: forbidden(pal), Line: edge})
	add("chart_placed", figure.Entry{Mark: func(s *figure.Surface, at figure.Point) { m.ring(s, at, m.Active, 0.42*l.Text) }})
	if m.Best != nil {
		add("chart_best", figure.Entry{Mark: func(s *figure.Surface, at figure.Point) { m.diamond(s, at, true) }})
	}
	if m.Most != nil {
		add("chart_most", figure.Entry{Mark: func(s *figure.Surface, at figure.Point) { m.diamond(s, at, false) }})
	}
	if m.scattered() {
		add("chart_scatter", figure.Entry{Line: m.scatterStroke()})
	}
	if m.bounded() {
		add("chart_bounds", figure.Entry{Line: m.boundStroke()})
	}
	return g
}

// field returns the margins in degrees on the grid.
func (m *targetMap) field() figure.Field {
	g := m.grid()
	f := figure.Field{
		X: figure.Span(g.Across.From, g.Across.To, g.Across.Count), Y: figure.Span(g.Up.From, g.Up.To, g.Up.Count),
		Z: make([]float64, len(m.Map.Margin)),
	}
	for i, v := range m.Map.Margin {
		f.Z[i] = v.Degrees()
	}
	return f
}

func (m *targetMap) shareField() figure.Field {
	g := m.Share.Grid
	f := figure.Field{
		X: figure.Span(g.Across.From, g.Across.To, g.Across.Count), Y: figure.Span(g.Up.From, g.Up.To, g.Up.Count),
		Z: make([]float64, len(m.Share.Share)),
	}
	for i, v := range m.Share.Share {
		f.Z[i] = 100 * v
	}
	return f
}

// scattered reports whether there is scatter to be drawn on this map.
func (m *targetMap) scattered() bool {
	x, y := m.deviations()
	return x > 0 && y > 0
}

func (m *targetMap) deviations() (x, y float64) {
	sd := m.Goal.SD
	if m.versions() {
		return sd[kinematics.CupAnteversion].Degrees(), sd[kinematics.StemAnteversion].Degrees()
	}
	return sd[kinematics.CupInclination].Degrees(), sd[kinematics.CupAnteversion].Degrees()
}

// bounded reports whether the search for the best cup is bounded on this map.
func (m *targetMap) bounded() bool {
	b := m.Goal.Bounds(m.Hip, m.Designs[m.Active])
	return b.Anteversion.Present() || b.Inclination.Present() && !m.versions()
}

// zoneSpots returns the outline of a zone in data values, nil if it has none
// on this map.
func (m *targetMap) zoneSpots(z kinematics.Zone) []figure.Point {
	g, d := m.grid(), m.Designs[m.Active]
	var spots []kinematics.Spot
	if m.versions() {
		stem := kinematics.Range{Least: unit.Angle(g.Up.From) * unit.Degree, Most: unit.Angle(g.Up.To) * unit.Degree}
		at := m.Hip.Spot(d.Cup, g.Definition, g.Plane)
		list, ok := z.VersionOutline(m.Hip.Tilts, g.Definition, g.Plane, at.Across, stem)
		if !ok {
			return nil
		}
		spots = list
	} else {
		all := kinematics.Range{Least: unit.Angle(g.Across.From) * unit.Degree, Most: unit.Angle(g.Across.To) * unit.Degree}
		spots = z.Outline(m.Hip.Tilts, d.Stem.Anteversion, g.Definition, g.Plane, all)
	}
	var ring []figure.Point
	for _, p := range spots {
		x, y := p.Across.Degrees(), p.Up.Degrees()
		if math.IsNaN(x) || math.IsNaN(y) {
			return nil
		}
		ring = append(ring, m.frame.At(x, y))
	}
	return ring
}

// Dragged returns the cup that lies at a place of a map, in the design's own
// definition and the hip's plane, and for a map of versions the stem's version.
// Values are held to half a degree and to the map.
func (t Target) Dragged(x, y float64) (kinematics.Cup, unit.Angle) {
	g, d := t.grid(), t.Designs[t.Active]
	hold := func(v float64, s kinematics.Scale) unit.Angle {
		return unit.Angle(min(max(math.Round(2*v)/2, s.From), s.To)) * unit.Degree
	}
	u, v := hold(x, g.Across), hold(y, g.Up)
	at := t.Hip.Spot(d.Cup, g.Definition, g.Plane)
	stem := d.Stem.Anteversion
	if t.versions() {
		at.Up, stem = u, v
	} else {
		at = kinematics.Spot{Across: u, Up: v}
	}
	if g.Definition == d.Cup.Definition && g.Plane == t.Hip.CupPlane {
		return kinematics.Cup{Definition: g.Definition, Inclination: at.Across, Anteversion: at.Up}, stem
	}
	axis := t.Hip.Tilts.APPFromPlane(g.Plane).Apply(hip.AxisBy(g.Definition, at.Across, at.Up))
	i, a := hip.AnglesBy(d.Cup.Definition, t.Hip.Tilts.APPFromPlane(t.Hip.CupPlane).Inverse().Apply(axis))
	return kinematics.Cup{Definition: d.Cup.Definition, Inclination: i, Anteversion: a}, stem
}

// Placed returns where the active design's cup lies on the map.
func (t Target) Placed() (x, y float64) {
	d := t.Designs[t.Active]
	p := t.cup(d.Cup, d.Stem.Anteversion)
	return p.X, p.Y
}
