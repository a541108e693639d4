package view

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/chart"
	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
)

// contest is the right column: how the designs differ, in a sentence, in a
// table, and in a chart. Where there is no room for both table and chart they
// take turns.
type contest struct {
	*Context
	headline *widget.Label
	tabs     [2]*control.Chip
	table    *control.Grid
	scroll   *container.Scroll
	plots    *plots
	info     *control.IconButton
	open     int
	base     int
	object   *fyne.Container

	comparer *comparer
	asked    compareKey
	known    compareKey
	rivals   []present.Rival
	written  worded
	pace     *pacer
}

// worded is what the words on screen say.
type worded struct {
	rivals       *present.Rival // the first; another list has another
	base, active int
}

// The tabs of the right column.
const (
	contestTable = iota
	contestChart
)

// comparedCharts are the charts that set designs side by side, by their keys.
var comparedCharts = []string{"limit_rulers", "head_neck_ratio", "cup_arc", "envelope_flexion_rotation"}

func newContest(c *Context) *contest {
	headline := c.told(func() string { return "difference" })
	v := &contest{Context: c, headline: &headline.Label, table: control.NewGrid()}
	v.headline.SizeName, v.headline.TextStyle.Bold = theme.SizeNameText, true
	for i, key := range [2]string{"compare_tab_table", "compare_tab_chart"} {
		v.tabs[i] = control.NewChip(c.Words.Phrase(key), c.Words.Phrase(key+"_help"), func() { v.turn(i) })
		v.tabs[i].Hint = c.Hint
	}
	v.table.Base, v.table.BaseHelp = c.Words.Phrase("compare_base_word"), c.Words.Phrase("compare_base_help")
	v.table.Hint, v.table.OnBase, v.table.OnAsk = c.Hint, v.setBase, c.ask
	v.scroll = container.NewVScroll(v.table)
	var list []chart.Chart
	for _, key := range comparedCharts {
		if k, ok := chart.Find(key); ok {
			list = append(list, k)
		}
	}
	v.plots = newPlotsOf(c, list)
	v.info = c.infoButton(func() string { return present.NumberOfChart(v.plots.kind.Key) })
	v.comparer = newComparer(c.Post, v.solved)
	v.pace = &pacer{Context: c, every: askEvery, do: v.ask}
	row := container.New(control.Flow{Gap: 4}, v.tabs[0], v.tabs[1])
	v.object = container.New(&contestLayout{v, row}, headline, row, v.scroll, v.plots.choose, v.info, v.plots.plot)
	return v
}

func (v *contest) close() {
	v.comparer.Close()
	v.plots.solver.Close()
}

// turn opens a tab.
func (v *contest) turn(i int) {
	v.open = i
	v.object.Refresh()
	v.plots.display(v.Session.Now())
	v.plots.pace.wish()
}

// setBase compares with another design.
func (v *contest) setBase(i int) {
	if i != v.base {
		v.base = i
		v.write()
	}
}

// display has the designs compared anew if they have changed.
func (v *contest) display(s *session.Snapshot) {
	v.base = min(v.base, s.Case.Count-1)
	if v.key(s) != v.asked {
		v.comparer.Stop()
		v.pace.wish()
	}
	v.plots.display(s)
}

func (v *contest) key(s *session.Snapshot) compareKey {
	k := compareKey{hip: s.Case.Hip, goal: s.Case.Goal, count: s.Case.Count}
	copy(k.designs[:], s.Case.Active())
	for i := range k.designs {
		k.designs[i].Name = ""
	}
	if list, _ := v.Motions.Required(&s.Case); len(list) > 0 {
		k.required = &list[0]
	}
	return k
}

func (v *contest) ask() {
	s := v.Session.Now()
	q := compareQuestion{key: v.key(s)}
	if q.key == v.asked {
		return
	}
	v.asked = q.key
	q.required, _ = v.Motions.Required(&s.Case)
	for i := range s.Case.Active() {
		q.joints = append(q.joints, v.Session.Joint(i))
	}
	v.comparer.Ask(q)
}

func (v *contest) solved(k compareKey, list []present.Rival) {
	v.known, v.rivals = k, list
	v.write()
}

// write puts the differences into words.
func (v *contest) write() {
	s := v.Session.Now()
	if len(v.rivals) != s.Case.Count || v.base >= len(v.rivals) {
		return // designs have come or gone; the answer is on its way
	}
	now := worded{&v.rivals[0], v.base, s.Active}
	if now == v.written {
		return
	}
	v.written = now
	text := v.Words.Differs(v.rivals, v.base, s.Active)
	if text == "" {
		text = v.Words.Phrase("compare_alone")
	}
	setText(v.headline, text)
	var heads []string
	for i := range v.rivals {
		heads = append(heads, present.Letter(i))
	}
	v.table.Display(heads, gridRows(v.Words.CompareRows(v.rivals, v.base)), v.base)
	v.object.Refresh()
}

func gridRows(list []present.CompareRow) []control.GridRow {
	rows := make([]control.GridRow, len(list))
	for i, r := range list {
		rows[i] = control.GridRow{Name: r.Name, Help: r.Help, About: r.Number}
		for _, c := range r.Cells {
			rows[i].Cells = append(rows[i].Cells, control.GridCell{Value: c.Value, Change: c.Change, Grey: c.Grey})
		}
	}
	return rows
}

type contestLayout struct {
	v   *contest
	row *fyne.Container
}

func (l *contestLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(280, 300) }

// comparisonLines is the room kept for the answer, so that what is below it
// stays where it is.
const comparisonLines = 7

// Heights under which a chart of up to two designs, and of more, cannot be read.
const (
	leastComparison = 320
	leastOfMany     = 440
)

func (l *contestLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	v, th := l.v, l.v.Theme
	inset := th.Size(theme.SizeNameInnerPadding)
	y := float32(0)
	put := func(o fyne.CanvasObject, x, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
		y = ceil(y + h)
	}
	line := fyne.MeasureText("A", th.Size(theme.SizeNameText), fyne.TextStyle{Bold: true}).Height
	v.headline.Resize(fyne.NewSize(size.Width, 1))
	put(v.headline, 0, size.Width, max(v.headline.MinSize().Height, comparisonLines*line+2*inset))
	wide := size.Width - 2*inset
	tabs, choose := v.tabs[0].MinSize().Height, v.plots.choose.MinSize().Height
	least := float32(leastComparison)
	if len(v.rivals) > 2 {
		least = leastOfMany
	}
	v.table.Dense = true
	known := len(v.rivals) > 0 // before that there is no telling what has room
	both := known && size.Height-y-v.table.MinSize().Height-choose-12 >= least
	v.table.Dense = both
	table := v.table.MinSize().Height
	setVisible(l.row, known && !both)
	for i, t := range v.tabs {
		t.SetChosen(i == v.open)
	}
	if !both {
		put(l.row, inset, wide, tabs)
		y += 6
	}
	setVisible(v.scroll, both || v.open == contestTable)
	charted := both || known && v.open == contestChart
	setVisible(v.plots.choose, charted)
	setVisible(v.info, charted)
	setVisible(v.plots.plot, charted)
	if both || v.open == contestTable {
		put(v.scroll, inset, wide, min(table, size.Height-y))
		y += 8
	}
	if charted {
		m := v.info.MinSize()
		v.info.Move(fyne.NewPos(inset+wide-m.Width, y+(choose-m.Height)/2))
		v.info.Resize(m)
		put(v.plots.choose, inset, wide-m.Width-4, choose)
		y += 2
		put(v.plots.plot, inset, wide, max(min(size.Height-y-4, 1.2*wide), 1))
	}
}
