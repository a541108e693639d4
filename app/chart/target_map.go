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
	if t.kind() == kinematics.VersionMap {
		return figure.Pt(at.Up.Degrees(), stem.Degrees())
	}
	return figure.Pt(at.Across.Degrees(), at.Up.Degrees())
}

// spot returns where a design lies on the map.
func (t Target) spot(d kinematics.Design) figure.Point {
	if t.kind() != kinematics.PairMap {
		return t.cup(d.Cup, d.Stem.Anteversion)
	}
	c := kinematics.Case{Hip: t.Hip, Count: 1, Designs: [kinematics.MaxDesigns]kinematics.Design{d}}
	read := func(s kinematics.Scale) float64 { return kinematics.ParameterByKey(s.Key).Get(&c, 0) }
	return figure.Pt(read(t.grid().Across), read(t.grid().Up))
}

func (t Target) grid() kinematics.Grid { return t.Map.Grid }

func (t Target) kind() kinematics.MapKind { return t.grid().Kind() }

// Peak returns the cell of the greatest margin on a map that is not of cup
// positions, if it is free of contact. A map of cup positions has the exact
// best cup in its place.
func (t Target) Peak() (figure.Point, bool) {
	if t.kind() == kinematics.CupMap || !t.Asked {
		return figure.Point{}, false
	}
	best, at := unit.Angle(0), -1
	for i, v := range t.Map.Margin {
		if v > best {
			best, at = v, i
		}
	}
	g := t.grid()
	return figure.Pt(g.Across.At(max(at, 0)%g.Across.Count), g.Up.At(max(at, 0)/g.Across.Count)), at >= 0
}

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
	// explained says that there is room for the legend.
	explained bool
}

func (m *targetMap) layout() {
	size := m.look.font(1).Size
	body := figure.Rect{Max: m.look.Size}.Inset(0.6 * size)
	if legend := m.legend().Size(); legend.Y < mostLegend*body.H() {
		m.explained = true
		m.foot = figure.Pt(body.Min.X, body.Max.Y-legend.Y)
		body.Max.Y -= legend.Y + 0.5*size
	}
	g := m.grid()
	axis := func(s kinematics.Scale, length float64) figure.Axis {
		a := figure.Axis{Title: m.axisTitles(s.Key)[0], Min: s.From, Max: s.To, Point: m.look.Words.Point(), Grid: true}
		if kinematics.ParameterByKey(s.Key).Unit == kinematics.Degrees {
			a.Unit = "°"
		}
		if m.kind() != kinematics.PairMap {
			a.Step = m.step(s, length)
		}
		return a
	}
	m.frame = figure.NewFrame(body, axis(g.Across, body.W()-4*size), axis(g.Up, body.H()-4*size), m.look.font(0.95))
	// A title is centred on the box and may reach as far beyond it as the body.
	box := m.frame.Box
	m.frame.X.Title = m.fitting(g.Across.Key, box.W()+2*(body.Max.X-box.Max.X))
	m.frame.Y.Title = m.fitting(g.Up.Key, box.H()+2*(box.Min.Y-body.Min.Y))
}

// mostLegend is the share of a map's height that its legend may have: in the
// least, with enlarged letters, there is none.
const mostLegend = 0.3

// step is the distance of the ticks of angles on an axis of about a length.
func (m *targetMap) step(s kinematics.Scale, length float64) float64 {
	step, wide := 10.0, m.look.font(0.95).Width("−000°")
	for (s.To-s.From)/step*wide > length && step < 40 {
		step *= 2
	}
	return step
}

// fitting returns the fullest title of an axis that is no longer than this.
func (m *targetMap) fitting(key string, length float64) string {
	t, titles := figure.TextStyle{Font: m.look.font(0.95)}, m.axisTitles(key)
	for _, title := range titles {
		if t.Width(title) <= length {
			return title
		}
	}
	return titles[len(titles)-1]
}

// axisTitles name a parameter, and for the cup's angles how they are measured,
// from the fullest title to the shortest.
func (m *targetMap) axisTitles(key string) []string {
	w := m.look.Words
	if p := kinematics.ParameterByKey(key); p.Unit == kinematics.Millimetre {
		return []string{w.Phrase("chart_length_axis", "name", w.Name(key))}
	} else if p.Group != kinematics.CupGroup {
		return []string{w.Name(key)}
	}
	definition, plane := kinematics.ParameterByKey("cup_definition"), kinematics.ParameterByKey("cup_plane")
	by := w.Choice(definition.Key, definition.Choices[m.grid().Definition])
	return []string{
		w.Phrase("chart_cup_axis", "name", w.Name(key), "definition", by, "plane", w.Choice(plane.Key, plane.Choices[m.grid().Plane])),
		w.Phrase("chart_cup_axis_short", "name", w.Name(key), "definition", by),
		w.Name(key),
	}
}

func (m *targetMap) title() string {
	switch m.kind() {
	case kinematics.VersionMap:
		return m.look.Phrase("chart_version_map")
	case kinematics.PairMap:
		w := m.look.Words
		return m.look.Phrase("chart_pair_map", "across", w.Name(m.grid().Across.Key), "up", w.Name(m.grid().Up.Key))
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
	return m.look.Phrase("chart_target_alt", "title", m.title(), "best", m.look.number(best, 1)+"°")
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
	if m.Absent() {
		add("chart_absent", figure.Entry{Fill: m.absentFill(), Line: edge})
	}
	add(m.placedWord(), figure.Entry{Mark: func(s *figure.Surface, at figure.Point) { m.ring(s, at, m.Active, 0.42*l.Text) }})
	if _, ok := m.Peak(); ok {
		add("chart_peak", figure.Entry{Mark: func(s *figure.Surface, at figure.Point) { m.diamond(s, at, true) }})
	}
	if m.Best != nil && m.kind() == kinematics.CupMap {
		add("chart_best", figure.Entry{Mark: func(s *figure.Surface, at figure.Point) { m.diamond(s, at, true) }})
	}
	if m.Most != nil && m.kind() == kinematics.CupMap {
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

// placedWord is the key of what the ring stands for.
func (m *targetMap) placedWord() string {
	switch m.kind() {
	case kinematics.VersionMap:
		return "chart_placed_version"
	case kinematics.PairMap:
		return "chart_as_it_is"
	}
	return "chart_placed"
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
	switch m.kind() {
	case kinematics.VersionMap:
		return sd[kinematics.CupAnteversion].Degrees(), sd[kinematics.StemAnteversion].Degrees()
	case kinematics.CupMap:
		return sd[kinematics.CupInclination].Degrees(), sd[kinematics.CupAnteversion].Degrees()
	}
	return 0, 0
}

// bounded reports whether the search for the best cup is bounded on this map.
func (m *targetMap) bounded() bool {
	b := m.Goal.Bounds(m.Hip, m.Designs[m.Active])
	return m.kind() != kinematics.PairMap && (b.Anteversion.Present() || b.Inclination.Present() && m.kind() == kinematics.CupMap)
}

// zoneSpots returns the outline of a zone in data values, nil if it has none
// on this map.
func (m *targetMap) zoneSpots(z kinematics.Zone) []figure.Point {
	g, d := m.grid(), m.Designs[m.Active]
	var spots []kinematics.Spot
	switch m.kind() {
	case kinematics.PairMap:
		return nil
	case kinematics.VersionMap:
		stem := kinematics.Range{Least: unit.Angle(g.Up.From) * unit.Degree, Most: unit.Angle(g.Up.To) * unit.Degree}
		at := m.Hip.Spot(d.Cup, g.Definition, g.Plane)
		list, ok := z.VersionOutline(m.Hip.Tilts, g.Definition, g.Plane, at.Across, stem)
		if !ok {
			return nil
		}
		spots = list
	case kinematics.CupMap:
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

// Moved returns a case with its active design moved to a place of the map. On
// a map of two other numbers these are held to their steps.
func (t Target) Moved(c kinematics.Case, x, y float64) kinematics.Case {
	if t.kind() == kinematics.PairMap {
		for _, v := range [2]struct {
			s  kinematics.Scale
			to float64
		}{{t.grid().Across, x}, {t.grid().Up, y}} {
			p := kinematics.ParameterByKey(v.s.Key)
			c = p.Set(c, t.Active, min(max(p.Step*math.Round(v.to/p.Step), v.s.From), v.s.To))
		}
		return c
	}
	d := &c.Designs[t.Active]
	d.Cup, d.Stem.Anteversion = t.Dragged(x, y)
	return c
}

// Step returns by how much a press of a key moves a design across and up.
func (t Target) Step() (x, y float64) {
	if t.kind() != kinematics.PairMap {
		return 0.5, 0.5
	}
	return kinematics.ParameterByKey(t.grid().Across.Key).Step, kinematics.ParameterByKey(t.grid().Up.Key).Step
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
	if t.kind() == kinematics.VersionMap {
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
	p := t.spot(t.Designs[t.Active])
	return p.X, p.Y
}
