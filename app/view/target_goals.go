package view

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/control"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
)

// goals is the left column: what the hip is asked to do, and in a second tab
// what it is asked of.
type goals struct {
	*Context
	tabs [2]*control.Chip
	sets *control.Pick

	setsName *widget.Label
	sheet    *control.Sheet
	scroll   *container.Scroll
	panel    *panel
	values   *container.Scroll
	object   *fyne.Container

	mobility, scatter *control.Pick

	keys   []string // of the motion in each row, "" for headings
	chosen string
	turned func() // told of another tab
	// Show is asked to show a motion.
	Show func(key string)
}

// goalRows are the parameters of the second tab, in groups named by a phrase,
// those of the second list shown when asked for.
var goalRows = []struct {
	title      string
	main, rest []string
}{
	{"target_placed",
		[]string{"cup_inclination_deg", "cup_anteversion_deg", "stem_anteversion_deg", "neck_shaft_deg", "head_diameter_mm"},
		[]string{"cup_definition", "cup_plane", "neck_diameter_mm", "cup_arc_deg"}},
	{"target_pelvis",
		[]string{"tilt_standing_deg", "tilt_relaxed_sitting_deg"},
		[]string{"tilt_supine_deg", "tilt_flexed_sitting_deg", "mechanical_axis_deg"}},
	{"target_scatter",
		[]string{"scatter_inclination_deg", "scatter_anteversion_deg"},
		[]string{"scatter_stem_deg", "scatter_tilt_deg"}},
	{"target_bounds",
		[]string{"bound_inclination_least_deg", "bound_inclination_most_deg", "closeness_deg"},
		[]string{"bound_anteversion_least_deg", "bound_anteversion_most_deg", "bound_jump_mm", "bound_patch_mm"}},
}

func newGoals(c *Context) *goals {
	g := &goals{Context: c, sheet: control.NewSheet()}
	for i, key := range [2]string{"target_motions", "target_values"} {
		g.tabs[i] = control.NewChip(c.Words.Phrase(key), c.Words.Phrase(key+"_help"), func() { g.turn(i) })
		g.tabs[i].Hint = c.Hint
	}
	g.setsName = widget.NewLabel(c.Words.Phrase("target_criteria"))
	g.sets = control.NewPick("", c.Words.Phrase("target_criteria_help"), g.setNames())
	g.sets.Hint, g.sets.Change = c.Hint, g.require
	g.sheet.Hint, g.sheet.OnTick, g.sheet.OnChoose = c.Hint, g.tick, g.choose
	g.scroll = container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, 4, 10), g.sheet))
	g.sheet.OnCursor = func(top, bottom float32) { reveal(g.scroll, top, bottom) }
	g.values = container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, 0, 4), g.settings()))
	head := container.New(control.Flow{Gap: 4}, g.tabs[0], g.tabs[1])
	g.object = container.New(&goalsLayout{g, head}, head, g.setsName, g.sets, g.scroll, g.values)
	g.turn(0)
	return g
}

// reveal scrolls until a part is seen.
func reveal(s *container.Scroll, top, bottom float32) {
	y := s.Offset.Y
	y = min(y, top)
	y = max(y, bottom-s.Size().Height)
	s.ScrollToOffset(fyne.NewPos(0, y))
}

// turn opens a tab.
func (g *goals) turn(i int) {
	for k, t := range g.tabs {
		t.SetChosen(k == i)
	}
	setVisible(g.sets, i == 0)
	setVisible(g.setsName, i == 0)
	setVisible(g.scroll, i == 0)
	setVisible(g.values, i == 1)
	g.object.Refresh()
	if g.turned != nil {
		g.turned()
	}
}

// setNames are the words of the sets of criteria, each with how firm it is;
// the first is none.
func (g *goals) setNames() []string {
	names := []string{g.Words.Phrase("target_no_criteria")}
	for _, s := range g.Motions.Library.Criteria {
		name := g.Words.CriteriaSet(s)
		if b := s.Basis(); b.Doubtful() {
			name = g.Words.Phrase("target_set", "name", name, "basis", g.Words.Basis(b))
		}
		names = append(names, name)
	}
	return names
}

// require takes a set of criteria into the goal.
func (g *goals) require(i int) {
	key := ""
	if i > 0 {
		key = g.Motions.Library.Criteria[i-1].Key
	}
	g.Session.Edit(session.Step{Key: "criteria", Design: -1}, func(c *kinematics.Case) { c.Goal.Criteria = key })
}

// settings are the dials of the second tab, with the presets that belong to
// them.
func (g *goals) settings() fyne.CanvasObject {
	g.panel = &panel{Context: g.Context, dials: map[string]*control.Dial{}, picks: map[string]*control.Pick{}}
	list := container.New(layout.NewCustomPaddedVBoxLayout(2))
	rows := func(keys []string) (o []fyne.CanvasObject) {
		for _, key := range keys {
			o = append(o, g.panel.row(kinematics.ParameterByKey(key)))
		}
		return o
	}
	for _, group := range goalRows {
		main := rows(group.main)
		switch group.title {
		case "target_pelvis":
			main = append([]fyne.CanvasObject{g.mobilities()}, main...)
		case "target_scatter":
			main = append([]fyne.CanvasObject{g.scatters()}, main...)
		}
		k := control.NewGroup(g.Words.Phrase(group.title), g.Words.Phrase("window_more"), main, rows(group.rest))
		g.explainGroup(k)
		k.OnFold = list.Refresh
		list.Add(k)
	}
	return list
}

// mobilities sets the four tilts to those of a kind of pelvis.
func (g *goals) mobilities() *control.Pick {
	names := []string{g.Words.Phrase("target_own")}
	for m := range motion.MobilityCount {
		name := g.Words.Mobility(m)
		if b := m.Change().Basis; b.Doubtful() {
			name = g.Words.Phrase("target_set", "name", name, "basis", g.Words.Basis(b))
		}
		names = append(names, name)
	}
	p := control.NewPick(g.Words.Phrase("target_mobility"), g.Words.Phrase("target_mobility_help"), names)
	p.Hint, p.Change = g.Hint, func(i int) {
		if i == 0 {
			return
		}
		g.Session.Edit(session.Step{Key: "mobility", Design: -1}, func(c *kinematics.Case) {
			c.Hip.Tilts = motion.Mobility(i - 1).Tilts(c.Hip.Tilts.Standing)
		})
	}
	g.mobility = p
	return p
}

// scatters takes a published scatter into the goal.
func (g *goals) scatters() *control.Pick {
	names := []string{g.Words.Phrase("target_own")}
	for _, s := range kinematics.ScatterPresets {
		names = append(names, g.Words.ScatterPreset(s))
	}
	p := control.NewPick(g.Words.Phrase("target_scatter_from"), g.Words.Phrase("target_scatter_help"), names)
	p.Hint, p.Change = g.Hint, func(i int) {
		if i == 0 {
			return
		}
		g.Session.Edit(session.Step{Key: "scatter", Design: -1}, func(c *kinematics.Case) {
			c.Goal.SD = c.Goal.Scatter().With(kinematics.ScatterPresets[i-1]).SD
		})
	}
	g.scatter = p
	return p
}

// display shows a snapshot.
func (g *goals) display(s *session.Snapshot) {
	g.panel.display(s)
	g.mobility.Display(g.mobilityOf(s))
	g.scatter.Display(scatterOf(s.Case.Goal))
	for i, set := range g.Motions.Library.Criteria {
		if set.Key == s.Case.Goal.Criteria {
			g.sets.Display(i + 1)
		}
	}
	if s.Case.Goal.Criteria == "" {
		g.sets.Display(0)
	}
	g.sheet.Display(g.rows(s))
}

// mobilityOf returns the preset that gives the tilts of a case, 0 for none.
func (g *goals) mobilityOf(s *session.Snapshot) int {
	for m := range motion.MobilityCount {
		if m.Tilts(s.Case.Hip.Tilts.Standing) == s.Case.Hip.Tilts {
			return int(m) + 1
		}
	}
	return 0
}

// scatterOf returns the preset that is wholly in a goal, 0 for none.
func scatterOf(goal kinematics.Goal) int {
	for i, p := range kinematics.ScatterPresets {
		if goal.Scatter().With(p).SD == goal.SD {
			return i + 1
		}
	}
	return 0
}

// rows lists the motions under the headings of their categories, recordings
// last.
func (g *goals) rows(s *session.Snapshot) []control.SheetRow {
	var rows []control.SheetRow
	g.keys = g.keys[:0]
	add := func(key string, r control.SheetRow) {
		g.keys, rows = append(g.keys, key), append(rows, r)
	}
	required := map[string]bool{}
	for _, key := range s.Case.Goal.Motions.Keys() {
		required[key] = true
	}
	for c := range motion.CategoryCount {
		add("", control.SheetRow{Heading: true, Name: g.Words.Category(c)})
		for _, a := range g.Motions.Library.Activities {
			if a.Category == c {
				add(a.Key, g.row(a, required[a.Key]))
			}
		}
	}
	add("", control.SheetRow{Heading: true, Name: g.Words.Phrase("target_recordings")})
	for _, r := range g.Motions.Recordings {
		add(r.Key, control.SheetRow{Boxed: true, Ticked: required[r.Key], Name: r.Name,
			Below: g.Words.Basis(motion.Own), Chosen: r.Key == g.chosen})
	}
	add(importKey, control.SheetRow{Name: g.Words.Phrase("target_import"), Help: g.Words.Phrase("target_import_help")})
	return rows
}

// importKey stands for the row that reads a recording; no motion has it.
const importKey = "+"

func (g *goals) row(a motion.Activity, ticked bool) control.SheetRow {
	w := g.Words
	below := w.Basis(a.Basis())
	if a.Open {
		below = w.Phrase("target_asked", "basis", below)
	}
	return control.SheetRow{
		Boxed: true, Ticked: ticked, Name: w.Activity(a), Below: below, Chosen: a.Key == g.chosen,
		Help: w.Phrase("target_motion_help", "name", w.Activity(a), "risk", w.Risk(a.Risk), "together", w.Together(a.Together),
			"zero", w.Zero(a.Zero), "zerobasis", w.Basis(a.Zero.Basis), "source", a.Source),
	}
}

// tick requires a motion, or no longer.
func (g *goals) tick(i int) {
	key := g.keys[i]
	g.Session.Edit(session.Step{Key: "motions", Design: -1}, func(c *kinematics.Case) {
		if c.Goal.Motions.Has(key) {
			c.Goal.Motions = c.Goal.Motions.Without(key)
		} else {
			c.Goal.Motions = c.Goal.Motions.With(key)
		}
	})
}

// choose shows a motion.
func (g *goals) choose(i int) {
	if key := g.keys[i]; key == importKey {
		if g.Import != nil {
			g.Import()
		}
	} else if g.Show != nil {
		g.Show(key)
	}
}

// mark says which motion is shown.
func (g *goals) mark(key string) {
	g.chosen = key
	g.sheet.Display(g.rows(g.Session.Now()))
}

type goalsLayout struct {
	g    *goals
	head *fyne.Container
}

func (l *goalsLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(l.g.panelWidth(), 300)
}

// panelWidth is the least width of the column: what the values need where they
// are shown; names of motions take another line.
func (g *goals) panelWidth() float32 {
	if g.values.Visible() {
		return max(g.values.MinSize().Width, 240)
	}
	return 240
}

func (l *goalsLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	const pad = 6
	g := l.g
	place := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	h := g.tabs[0].MinSize().Height
	place(l.head, pad, pad, size.Width-2*pad, h)
	y := h + 2*pad
	place(g.values, 0, y, size.Width, size.Height-y)
	p := g.sets.MinSize().Height
	m := g.setsName.MinSize()
	place(g.setsName, 2, y+(p-m.Height)/2, m.Width, m.Height)
	place(g.sets, m.Width+4, y, size.Width-m.Width-14, p)
	y += p + pad
	place(g.scroll, 0, y, size.Width, size.Height-y)
}
