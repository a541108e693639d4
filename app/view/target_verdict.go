package view

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
)

// verdict is the right column: the answer in sentences, and in tabs the motions,
// the placements, how the head is held, and sizes.
type verdict struct {
	*Context
	serves *widget.Label
	aims   *widget.Label
	status *widget.Label
	stop   *control.Chip
	tabs   [4]*control.Chip
	sheet  *control.Sheet
	scroll *container.Scroll
	object *fyne.Container

	open   int
	solver *session.Targets
	asked  session.TargetQuestion
	known  session.TargetQuestion // what answer answers
	answer session.TargetAnswer
	said   session.TargetQuestion // what the words on the best cup are of, wherever it is placed
	saidOf int                    // the design they are of
	atBest kinematics.Verdict
	halted bool
	pace   *pacer
	found  func(session.TargetQuestion, session.TargetAnswer)
	keys   []string // of the motion in each row
	// Show is asked to show a motion.
	Show func(key string)
}

// The tabs of the right column.
const (
	verdictMotions = iota
	verdictShare
	verdictHold
	verdictSizes
)

func newVerdict(c *Context) *verdict {
	v := &verdict{Context: c, sheet: control.NewSheet()}
	serves, aims := c.told(func() string { return "motion_margin" }), c.told(func() string { return "best_cup" })
	v.serves, v.aims, v.status = &serves.Label, &aims.Label, widget.NewLabel("")
	v.serves.SizeName, v.status.SizeName = theme.SizeNameSubHeadingText, theme.SizeNameCaptionText
	v.serves.TextStyle.Bold = true
	v.status.Wrapping, v.status.Truncation, v.status.Importance = fyne.TextWrapOff, fyne.TextTruncateEllipsis, widget.LowImportance
	v.stop = control.NewChip(c.Words.Phrase("target_stop"), c.Words.Phrase("target_stop_help"), v.halt)
	v.stop.Hint = c.Hint
	for i, key := range [4]string{"target_tab_motions", "target_tab_share", "target_tab_hold", "target_tab_sizes"} {
		v.tabs[i] = control.NewChip(c.Words.Phrase(key), c.Words.Phrase(key+"_help"), func() { v.turn(i) })
		v.tabs[i].Hint = c.Hint
	}
	v.tabs[0].SetChosen(true)
	v.sheet.Hint, v.sheet.OnAsk, v.sheet.AskHint = c.Hint, c.ask, c.Words.Phrase("about_hint")
	v.sheet.OnChoose = func(i int) {
		switch key := v.keys[i]; {
		case key == "":
			c.ask(v.sheet.Rows()[i].About)
		case v.Show != nil:
			v.Show(key)
		}
	}
	v.scroll = container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, 0, 10), v.sheet))
	v.sheet.OnCursor = func(top, bottom float32) { reveal(v.scroll, top, bottom) }
	v.pace = &pacer{Context: c, every: askEvery, do: func() {
		if q := v.question(c.Session.Now()); !q.Same(v.asked) {
			v.ask(q)
		}
	}}
	v.solver = session.NewTargets(c.Post, v.solved, v.progress)
	row := container.New(control.Flow{Gap: 4}, v.tabs[0], v.tabs[1], v.tabs[2], v.tabs[3])
	v.object = container.New(&verdictLayout{v, row}, serves, aims, row, v.status, v.stop, v.scroll)
	v.stop.Hide()
	return v
}

// turn opens a tab.
func (v *verdict) turn(i int) {
	v.open = i
	for k, t := range v.tabs {
		t.SetChosen(k == i)
	}
	v.write()
	v.scroll.ScrollToTop()
}

// question is what is on screen.
func (v *verdict) question(s *session.Snapshot) session.TargetQuestion {
	list, _ := v.Motions.Required(&s.Case)
	q := session.TargetQuestion{Hip: s.Case.Hip, Goal: s.Case.Goal, Design: *s.Design(), Required: list, Aperture: s.Joint.Aperture}
	q.Design.Name = ""
	return q
}

// display has the target worked out if it has changed.
func (v *verdict) display(s *session.Snapshot) {
	if q := v.question(s); !q.Same(v.asked) {
		v.solver.Stop()
		v.pace.wish()
	}
}

// askEvery is how often, at most, the best cup is looked for anew: it takes a
// processor some 50 ms, of which the map has need too.
const askEvery = time.Second / 3

func (v *verdict) ask(q session.TargetQuestion) {
	v.asked, v.halted = q, false
	v.solver.Ask(q)
}

// layer has the share over the map worked out too, or no longer.
func (v *verdict) layer(on bool) {
	v.solver.Layer = on
	if on {
		v.ask(v.question(v.Session.Now()))
	}
}

// halt ends what is being worked out.
func (v *verdict) halt() {
	v.solver.Stop()
	v.halted = true
	setVisible(v.stop, false)
	setText(v.status, v.Words.Phrase("target_stopped"))
}

// solved takes a part of the answer.
func (v *verdict) solved(q session.TargetQuestion, a session.TargetAnswer) {
	v.known, v.answer = q, a
	v.atBest = kinematics.Verdict{}
	if a.Target.Asked && a.Target.Fits && a.Target.Reachable {
		d := q.Design
		d.Cup = q.Hip.Restated(a.Target.Constrained.Cup, d.Cup.Definition, q.Hip.CupPlane)
		v.atBest = kinematics.Assemble(q.Hip, d, q.Aperture).Judge(q.Required, q.Goal.Closeness)
	}
	v.progress(a.Known, 0, 1)
	if v.found != nil {
		v.found(q, a)
	}
	v.write()
}

// partKeys name what is being worked out.
var partKeys = [session.PartCount]string{"target_part_aim", "target_part_share", "target_part_most", "target_part_layer"}

// progress says how far the work is.
func (v *verdict) progress(part session.Part, done, all int) {
	if v.halted {
		return
	}
	last := session.MostPart
	if v.solver.Layer {
		last = session.LayerPart
	}
	if part > last || len(v.known.Required) == 0 {
		setVisible(v.stop, false)
		setText(v.status, "")
		return
	}
	setVisible(v.stop, true)
	setText(v.status, v.Words.Phrase(partKeys[part], "done", v.Words.Percent(float64(done)/float64(max(all, 1)), 0)))
}

// aim says where the cup should point. While that is worked out anew for another
// place of the same cup and stem, what was said stays; of all else it is not
// said any more.
func (v *verdict) aim(f present.Serve, q session.TargetQuestion) string {
	q.Design.Cup, q.Design.Stem = kinematics.Cup{}, hip.Stem{}
	active, text := v.Session.Now().Active, v.Words.Aim(f)
	switch {
	case text != "" || len(f.Required) == 0 || f.Known:
		v.said, v.saidOf = q, active
	case active == v.saidOf && q.Same(v.said):
		text = v.aims.Text
	default:
		text = v.Words.Phrase("target_wait")
	}
	return text
}

// write puts the answer into words.
func (v *verdict) write() {
	s := v.Session.Now()
	list, lost := v.Motions.Required(&s.Case)
	verdict := s.Joint.Judge(list, s.Case.Goal.Closeness)
	q := v.question(s)
	f := present.Serve{Required: list, Lost: len(lost), Verdict: verdict, Cup: s.Design().Cup,
		Known: q.Same(v.known) && v.answer.Known > session.AimPart, Target: v.answer.Target, AtBest: v.atBest, SD: s.Case.Goal.SD}
	setText(v.serves, v.Words.Serves(f))
	setText(v.aims, v.aim(f, q))
	var rows []control.SheetRow
	v.keys = v.keys[:0]
	switch v.open {
	case verdictMotions:
		rows = v.motionRows(f)
	case verdictShare:
		rows = v.shareRows(list, q)
	case verdictHold:
		rows = lineRows(v.Words.StabilityLines(s.Joint, *s.Design()))
		if verdict.First >= 0 {
			rows = append(rows, lineRows(v.Words.LeverLines(s.Joint, s.Case.Hip, verdict.Outcomes[verdict.First]))...)
		}
	case verdictSizes:
		rows = append(v.sizeRows(f), v.zoneRows(s)...)
	}
	for len(v.keys) < len(rows) {
		v.keys = append(v.keys, "")
	}
	v.sheet.Display(rows)
	v.object.Refresh()
}

// states are the marks of the standings.
var states = [kinematics.StandingCount]control.State{control.StateFree, control.StateClose, control.StateContact, control.StateFree}

// motionRows are the least margins to both sides, and the motions.
func (v *verdict) motionRows(f present.Serve) []control.SheetRow {
	var rows []control.SheetRow
	for _, l := range v.Words.Flanks(f.Required, f.Verdict) {
		rows = append(rows, control.SheetRow{Name: l.Name, Value: l.Margin, Below: l.Motion, About: "flank",
			Marked: l.Standing != kinematics.Asked, State: states[l.Standing]})
		v.keys = append(v.keys, "")
	}
	for i, r := range v.Words.OutcomeRows(f.Required, f.Verdict) {
		below := v.Words.Phrase("target_row", "state", r.State, "detail", r.Detail, "basis", r.Basis)
		rows = append(rows, control.SheetRow{Marked: r.Standing != kinematics.Asked, State: states[r.Standing], Name: r.Name, Value: r.Margin,
			Below: below, Grey: r.Standing == kinematics.Asked, Help: f.Required[i].Source, About: "motion_margin"})
		v.keys = append(v.keys, r.Key)
	}
	return rows
}

func (v *verdict) shareRows(list []motion.Requirement, q session.TargetQuestion) []control.SheetRow {
	if !q.Same(v.known) || v.answer.Known <= session.SharePart || len(list) == 0 {
		return []control.SheetRow{{Name: v.Words.Phrase("target_wait"), Grey: true}}
	}
	lines := v.Words.ShareLines(list, v.answer.Share)
	if v.answer.Known > session.MostPart {
		lines = append([]present.Line{lines[0], v.Words.MostLine(v.answer.Share, v.answer.Most)}, lines[1:]...)
	}
	return append(lineRows(lines), control.SheetRow{Grey: true, Name: v.Words.Phrase("target_never_success"), Below: v.Words.Phrase("target_never_success_why")})
}

func (v *verdict) sizeRows(f present.Serve) []control.SheetRow {
	if !f.Known || !f.Target.Asked {
		return []control.SheetRow{{Name: v.Words.Phrase("target_wait"), Grey: true}}
	}
	a := v.answer
	return lineRows(append(v.Words.Demand(a.Target), v.Words.SizeLines(a.Head, a.Neck, a.HeadHere, a.NeckHere)...))
}

// zoneRows say of each published zone whether it holds the cup as placed, and
// what it rests on.
func (v *verdict) zoneRows(s *session.Snapshot) []control.SheetRow {
	rows := []control.SheetRow{{Heading: true, Name: v.Words.Phrase("target_zones_published")}}
	for _, z := range kinematics.Zones {
		key := "zone_outside"
		if z.Holds(s.Case.Hip, s.Design().Cup, s.Design().Stem.Anteversion) {
			key = "zone_inside"
		}
		rows = append(rows, control.SheetRow{Name: v.Words.Zone(z), Value: v.Words.Phrase(key), Below: v.Words.ZoneNote(z), About: "zone"})
	}
	return rows
}

// lineRows shows lines with a long value under their name.
func lineRows(lines []present.Line) []control.SheetRow {
	const long = 22
	rows := make([]control.SheetRow, len(lines))
	for i, l := range lines {
		rows[i] = control.SheetRow{Name: l.Name, Value: l.Value, About: present.NumberOf(l.Key)}
		if len([]rune(l.Value)) > long {
			rows[i].Value, rows[i].Below = "", l.Value
		}
	}
	return rows
}

type verdictLayout struct {
	v    *verdict
	tabs *fyne.Container
}

func (l *verdictLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(280, 300) }

func (l *verdictLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	v, y := l.v, float32(0)
	inset := v.Theme.Size(theme.SizeNameInnerPadding)
	for _, t := range []*widget.Label{v.serves, v.aims} {
		t.Resize(fyne.NewSize(size.Width, 1))
		h := t.MinSize().Height
		t.Move(fyne.NewPos(0, y))
		t.Resize(fyne.NewSize(size.Width, h))
		if t.Text != "" {
			y += h - inset
		}
	}
	y += inset
	h := control.Flow{Gap: 4}.HeightFor(l.tabs.Objects, size.Width-2*inset)
	l.tabs.Move(fyne.NewPos(inset, y))
	l.tabs.Resize(fyne.NewSize(size.Width-2*inset, h))
	y += h
	s, k := v.status.MinSize().Height, v.stop.MinSize()
	foot := size.Height - max(s, k.Height)
	v.status.Move(fyne.NewPos(0, foot))
	v.status.Resize(fyne.NewSize(size.Width-k.Width-inset, s))
	v.stop.Move(fyne.NewPos(size.Width-k.Width-inset, foot))
	v.stop.Resize(k)
	v.scroll.Move(fyne.NewPos(0, y+4))
	v.scroll.Resize(fyne.NewSize(size.Width, max(foot-y-4, 1)))
}
