package view

import (
	"context"
	"image"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"rimclear/app/chart"
	"rimclear/app/control"
	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// aim is the middle of Target: the map with its layers.
type aim struct {
	*Context
	board   *control.Board
	designs [kinematics.MaxDesigns]*control.Chip
	kinds   [4]*control.Chip
	pair    *pair
	joint   *joint
	picture *control.Orbit
	bar     *playbar
	zones   *control.Chip
	shares  *control.Chip
	layers  *fyne.Container
	object  *fyne.Container

	seen          bool // the joint is seen in place of the map
	kind          kinematics.MapKind
	zoned, shared bool // what lies over it
	answer        session.TargetAnswer
	answers       session.TargetQuestion // what answer answers
	layered       func()                 // the share layer was switched on or off

	chart  chart.Target
	margin kinematics.Map // of a round design, worked out as it is drawn
	ground *image.RGBA
	laid   groundKey // what ground shows
	still  *image.RGBA
	drawn  mapKey // what still shows
	sought mapKey // what margin is of
	solver *session.Latest[mapQuestion, *kinematics.Map]
	asked  mapKey // the last question to the solver
	late   *kinematics.Map
	lateOf mapKey
}

// mapKey is all that a map of margins depends on.
type mapKey struct {
	hip      kinematics.Hip
	design   kinematics.Design
	grid     kinematics.Grid
	required *motion.Requirement // the first of the list, which is made anew when it changes
	count    int
	look     lookKey // only for the drawing
}

// lookKey is what the drawing of a map depends on besides its margins.
type lookKey struct {
	goal   kinematics.Goal
	zoned  bool
	share  *float64 // the first of the layer, nil without
	marks  [4]bool
	dark   bool
	size   figure.Point
	pixels image.Point
	text   float32
	active int
}

type mapQuestion struct {
	key  mapKey
	c    kinematics.Case
	at   int
	list []motion.Requirement
	grid kinematics.Grid
}

func newAim(c *Context, bar *playbar) *aim {
	m := &aim{Context: c, board: control.NewBoard(), zoned: true, bar: bar, joint: newJoint(), picture: control.NewOrbit(home)}
	m.picture.Hide()
	m.board.Hint, m.board.Help = c.Hint, c.Words.Phrase("target_map_help")
	m.board.Inquiry = c.inquiry(m.number)
	m.board.Pick, m.board.Nudge = m.pick, m.nudge
	m.solver = session.NewLatest(survey, c.Post, m.surveyed)
	chips, layers := container.New(control.Flow{Gap: 4}), container.New(control.Flow{Gap: 4})
	m.layers = layers
	for i := range m.designs {
		m.designs[i] = control.NewChip(present.Letter(i), c.Words.Phrase("guide_design_help", "letter", present.Letter(i), "number", strconv.Itoa(i+1)), func() { c.Session.Activate(i) })
		m.designs[i].Design, m.designs[i].Hint = i, c.Hint
		chips.Add(m.designs[i])
	}
	chip := func(key string, act func()) *control.Chip {
		k := control.NewChip(c.Words.Phrase(key), c.Words.Phrase(key+"_help"), act)
		k.Hint = c.Hint
		layers.Add(k)
		return k
	}
	m.kinds[kinematics.CupMap] = chip("target_by_cup", func() { m.choose(kinematics.CupMap) })
	m.kinds[kinematics.VersionMap] = chip("target_by_version", func() { m.choose(kinematics.VersionMap) })
	m.kinds[kinematics.PairMap] = chip("target_by_pair", func() { m.choose(kinematics.PairMap) })
	m.kinds[jointKind] = chip("target_by_joint", m.lookAtJoint)
	m.zones = chip("target_zones", func() { m.zoned = !m.zoned; m.refresh() })
	m.shares = chip("target_shares", func() {
		m.shared = !m.shared
		m.refresh()
		if m.layered != nil {
			m.layered()
		}
	})
	m.pair = newPair(c, m.refresh)
	m.object = container.New(&aimLayout{m, chips, layers}, chips, layers, m.pair.object, m.board, m.picture, bar.object)
	bar.OnGrow = m.object.Refresh
	return m
}

func (m *aim) close() { m.solver.Close() }

// forget has everything drawn anew.
func (m *aim) forget() { m.drawn = mapKey{} }

// jointKind is the place of the chip for the joint, after those for the maps.
const jointKind = kinematics.PairMap + 1

// choose shows one of the maps.
func (m *aim) choose(k kinematics.MapKind) {
	m.kind, m.seen = k, false
	m.rearrange()
}

// lookAtJoint shows the joint in place of the map.
func (m *aim) lookAtJoint() {
	m.seen = true
	m.rearrange()
}

// rearrange shows what belongs to the map or the joint that was chosen, and
// gives it its place.
func (m *aim) rearrange() {
	m.refresh()
	m.layers.Refresh()
	m.object.Refresh()
}

func (m *aim) refresh() { m.display(m.Session.Now()) }

// display shows a snapshot.
func (m *aim) display(s *session.Snapshot) {
	for i, d := range m.designs {
		setVisible(d, i < s.Case.Count)
		d.SetChosen(i == s.Active)
		if i < s.Case.Count {
			d.SetText(m.chipText(m.object.Size().Width, &s.Case, i))
		}
	}
	for i, k := range m.kinds {
		k.SetChosen(kinematics.MapKind(i) == jointKind && m.seen || kinematics.MapKind(i) == m.kind && !m.seen)
	}
	setVisible(m.pair.object, m.kind == kinematics.PairMap && !m.seen)
	setVisible(m.board, !m.seen)
	setVisible(m.picture, m.seen)
	setVisible(m.zones, m.kind != kinematics.PairMap && !m.seen)
	m.zones.SetChosen(m.zoned)
	m.shares.SetChosen(m.shared && m.kind == kinematics.CupMap)
	setVisible(m.shares, m.kind == kinematics.CupMap && !m.seen)
	m.bar.display()
	if !m.seen {
		m.board.Redraw()
		return
	}
	m.picture.Mirror(s.Joint.Side() != 0)
	m.picture.Display(m.joint.instances(s), (&centre{Context: m.Context}).label(s))
}

// found takes an answer on where the cup should point.
func (m *aim) found(q session.TargetQuestion, a session.TargetAnswer) {
	m.answers, m.answer = q, a
	m.board.Redraw()
}

// grid returns the grid of the map that is chosen.
func (m *aim) grid(s *session.Snapshot) kinematics.Grid {
	switch m.kind {
	case kinematics.VersionMap:
		return kinematics.VersionGrid(s.Design().Cup.Definition, s.Case.Hip.CupPlane)
	case kinematics.PairMap:
		return m.pair.grid(s)
	}
	return kinematics.PlacementGrid(s.Design().Cup.Definition, s.Case.Hip.CupPlane)
}

// key returns all that the margins of a snapshot depend on. Where the cup is
// placed is part of it only as far as the map is of something else.
func (m *aim) key(s *session.Snapshot, list []motion.Requirement) mapKey {
	k := mapKey{hip: s.Case.Hip, design: *s.Design(), grid: m.grid(s), count: len(list)}
	k.design.Name = ""
	if len(list) > 0 {
		k.required = &list[0]
	}
	if m.kind == kinematics.PairMap {
		k.hip, k.design = held(s, k.grid)
		k.design.Name = ""
		return k
	}
	cup := k.design.Cup
	k.design.Cup = kinematics.Cup{Definition: cup.Definition}
	if m.kind == kinematics.VersionMap {
		k.design.Cup.Inclination, k.design.Stem.Anteversion = cup.Inclination, 0
	}
	return k
}

// margins returns the map of a snapshot. That of a round design is worked out
// at once; any other in the background, and until it is there the last one is
// shown.
func (m *aim) margins(s *session.Snapshot, list []motion.Requirement, k mapKey) (*kinematics.Map, mapKey) {
	q := mapQuestion{k, s.Case, s.Active, list, m.grid(s)}
	_, round := s.Joint.Aperture.Theta()
	if round && m.kind != kinematics.PairMap || len(list) == 0 {
		if m.sought != k {
			m.sought = k
			_ = kinematics.Survey(context.Background(), q.c, q.at, list, q.grid, 0, &m.margin) // never ended
		}
		return &m.margin, k
	}
	if m.asked != k {
		m.asked = k
		m.solver.Ask(q)
	}
	if m.late == nil || m.late.Grid != q.grid {
		m.late, m.lateOf = blankMap(q.grid), mapKey{}
	}
	return m.late, m.lateOf
}

// blankMap is shown until the first answer.
func blankMap(g kinematics.Grid) *kinematics.Map {
	n := g.Across.Count * g.Up.Count
	b := &kinematics.Map{Grid: g, Margin: make([]unit.Angle, n), Motion: make([]int16, n)}
	for i := range b.Margin {
		b.Margin[i] = -1e-9
	}
	return b
}

// survey works a map out away from the goroutine that draws.
func survey(q mapQuestion) *kinematics.Map {
	into := new(kinematics.Map)
	_ = kinematics.Survey(context.Background(), q.c, q.at, q.list, q.grid, 0, into) // never ended
	return into
}

func (m *aim) surveyed(q mapQuestion, found *kinematics.Map) {
	m.late, m.lateOf = found, q.key
	m.board.Redraw()
}

// draw draws the map: its margins and what lies over them if they have changed,
// and the marks.
func (m *aim) draw(img *image.RGBA, size figure.Point, scale float64) figure.Frame {
	s := m.Session.Now()
	list, _ := m.Motions.Required(&s.Case)
	margins, of := m.margins(s, list, m.key(s, list))
	m.chart = m.subject(s, margins, len(list) > 0)
	_, peaked := m.chart.Peak()
	ground, f := chart.TargetLayers(m.chart, chart.Look{Size: size, Palette: *m.palette(),
		Text: float64(m.Theme.Size("helperText")), Words: m.Words})
	of.look = lookKey{goal: s.Case.Goal, zoned: m.zoned, marks: [4]bool{m.chart.Best != nil, m.chart.Most != nil, peaked, m.chart.Absent()},
		dark: m.palette().Dark, size: size, pixels: img.Rect.Max, text: m.Theme.Size("helperText"), active: s.Active}
	if m.chart.Share != nil {
		of.look.share = &m.chart.Share.Share[0]
	}
	if m.zoned && m.kind != kinematics.PairMap { // outlines of versions move with the stem, and with the cup on the other map
		of.design.Stem, of.design.Cup = s.Design().Stem, kinematics.Cup{Definition: s.Design().Cup.Definition}
		if m.kind == kinematics.VersionMap {
			of.design.Cup.Inclination = s.Design().Cup.Inclination
		}
	}
	if m.still == nil || m.still.Rect != img.Rect || m.drawn != of {
		m.drawn = of
		m.lay(ground, groundKey{of.look, margins.Grid}, img.Rect, scale)
		copy(m.still.Pix, m.ground.Pix)
		f.DrawStatic(m.still, scale)
	}
	copy(img.Pix, m.still.Pix)
	f.DrawMarker(img, scale)
	return f.Plot
}

// groundKey is all that the ground of a map depends on.
type groundKey struct {
	look lookKey
	grid kinematics.Grid
}

// lay draws the ground if it has changed.
func (m *aim) lay(f figure.Figure, k groundKey, r image.Rectangle, scale float64) {
	if m.ground == nil || m.ground.Rect != r {
		m.ground, m.still, m.laid = image.NewRGBA(r), image.NewRGBA(r), groundKey{}
	}
	if m.laid != k {
		f.DrawStatic(m.ground, scale)
		m.laid = k
	}
}

func (m *aim) subject(s *session.Snapshot, margins *kinematics.Map, asked bool) chart.Target {
	t := chart.Target{Hip: s.Case.Hip, Goal: s.Case.Goal, Designs: s.Case.Active(), Active: s.Active, Map: margins, Asked: asked}
	if m.zoned {
		t.Zones = kinematics.Zones
	}
	a, q := &m.answer, &m.answers
	ours := a.Known > session.AimPart && q.Hip == s.Case.Hip && q.Design.Rim == s.Design().Rim && q.Design.Neck == s.Design().Neck
	if !ours || !asked || !a.Target.Fits {
		return t
	}
	if a.Target.Reachable {
		t.Best = &a.Target.Constrained.Cup
	}
	if a.Known > session.MostPart && a.Most.Share.Share > 0 {
		t.Most = &a.Most.Cup
	}
	if m.shared && m.kind == kinematics.CupMap && a.Known > session.LayerPart && len(a.Layer.Share) > 0 {
		t.Share = &a.Layer
	}
	return t
}

// pick places the cup where the pointer is.
func (m *aim) pick(x, y float64) {
	if m.chart.Map == nil {
		return
	}
	key := "placement"
	if m.kind == kinematics.PairMap {
		key = "pair"
	}
	active, t := m.Session.Now().Active, m.chart
	m.Session.Edit(session.Step{Key: key, Design: active}, func(c *kinematics.Case) { *c = t.Moved(*c, x, y) })
}

// nudge moves the cup by steps of half a degree, or the two numbers by theirs.
func (m *aim) nudge(x, y int) {
	if m.chart.Map == nil {
		return
	}
	u, v := m.chart.Placed()
	dx, dy := m.chart.Step()
	m.pick(u+dx*float64(x), v+dy*float64(y))
}

type aimLayout struct {
	m             *aim
	chips, layers *fyne.Container
}

func (l *aimLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(300, 300) }

func (l *aimLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	const pad = 6
	flow, y := control.Flow{Gap: 4}, float32(pad)
	s := l.m.Session.Now()
	for i := range s.Case.Active() {
		l.m.designs[i].SetText(l.m.chipText(size.Width, &s.Case, i))
	}
	for _, row := range []*fyne.Container{l.chips, l.layers} {
		h := flow.HeightFor(row.Objects, size.Width-2*pad)
		row.Move(fyne.NewPos(pad, y))
		row.Resize(fyne.NewSize(size.Width-2*pad, h))
		y += h + pad
	}
	if p := l.m.pair.object; p.Visible() {
		p.Move(fyne.NewPos(pad, y))
		p.Resize(fyne.NewSize(size.Width-2*pad, p.MinSize().Height))
		y += p.MinSize().Height + pad
	}
	foot := l.m.bar.heightAt(size.Width)
	for _, o := range []fyne.CanvasObject{l.m.board, l.m.picture} {
		o.Move(fyne.NewPos(pad, y))
		o.Resize(fyne.NewSize(size.Width-2*pad, max(size.Height-y-pad-foot, 1)))
	}
	l.m.bar.object.Move(fyne.NewPos(0, size.Height-foot))
	l.m.bar.object.Resize(fyne.NewSize(size.Width, foot))
}
