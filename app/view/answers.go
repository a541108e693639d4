package view

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
)

// answers is the right column: the answer in a sentence, the limits, a chart.
// Where there is no room for the limits and the chart below each other they
// take turns.
type answers struct {
	*Context
	headline *widget.Label
	summary  *widget.Label
	limits   *limits
	plots    *plots
	tabs     [3]*control.Chip
	open     int
	beside   bool // the design's own figures stand beside the tabs
	info     *control.IconButton
	object   *fyne.Container

	Narrow bool // take turns whatever the height
}

// The tabs of the right column.
const (
	tabRulers = iota
	tabList
	tabChart
)

func newAnswers(c *Context) *answers {
	a := &answers{Context: c, limits: newLimits(c), plots: newPlots(c)}
	headline := c.told(func() string { return "tightest" })
	summary := c.told(func() string { return "oscillation_deg" })
	summary.Part = a.partOfSummary
	a.headline, a.summary = &headline.Label, &summary.Label
	a.headline.SizeName = theme.SizeNameSubHeadingText
	a.headline.TextStyle.Bold = true
	a.summary.SizeName, a.summary.Importance = theme.SizeNameCaptionText, widget.LowImportance
	a.summary.Wrapping, a.summary.Truncation = fyne.TextWrapOff, fyne.TextTruncateEllipsis
	for i, key := range [3]string{"window_tab_rulers", "window_tab_list", "window_tab_chart"} {
		a.tabs[i] = control.NewChip(c.Words.Phrase(key), c.Words.Phrase(key+"_help"), func() { a.choose(i) })
		a.tabs[i].Hint = c.Hint
	}
	tabs := container.New(tabFlow, a.tabs[0], a.tabs[1], a.tabs[2])
	a.info = c.infoButton(func() string { return present.NumberOfChart(a.plots.kind.Key) })
	a.object = container.New(&answersLayout{a, tabs}, headline, summary, tabs,
		a.limits.column, a.limits.scroll, a.plots.choose, a.info, a.plots.plot)
	a.limits.rulers.OnGrow = a.object.Refresh
	a.limits.scroll.Hide()
	return a
}

// tabFlow lays the tabs out, in two lines where there is no room in one.
var tabFlow = control.Flow{Gap: 4}

// choose opens a tab.
func (a *answers) choose(i int) {
	a.open = i
	a.object.Refresh()
	a.write()
	a.plots.display(a.Session.Now())
	a.plots.pace.wish()
}

// display moves what can be moved with each picture.
func (a *answers) display(s *session.Snapshot) {
	a.limits.display(s)
	a.plots.display(s)
}

// write puts the answers into words.
func (a *answers) write() {
	s := a.Session.Now()
	text := a.Words.Phrase("window_solving")
	if s.Answers != nil {
		text = a.Words.Headline(&s.Case, s.Answers)
	}
	setText(a.headline, text)
	line := ""
	for i, l := range a.Words.Summary(*s.Design(), s.Joint.Aperture) {
		if i > 0 {
			line += "   "
		}
		line += a.Words.Phrase("window_pair", "name", l.Name, "value", l.Value)
	}
	if s.Solving {
		line = a.Words.Phrase("window_solving")
	}
	setText(a.summary, line)
	l, inset := a.object.Layout.(*answersLayout), a.Theme.Size(theme.SizeNameInnerPadding)
	if l.fits(a.object.Size().Width-2*inset) != a.beside || crowded(a.headline) || crowded(a.summary) {
		a.object.Refresh()
	}
	a.limits.write(s)
}

// crowded reports whether the words of a label have come to need more lines than
// it has room for.
func crowded(l *widget.Label) bool { return l.MinSize().Height > l.Size().Height+1 }

func setText(l *widget.Label, s string) {
	if l.Text != s {
		l.SetText(s)
	}
}

type answersLayout struct {
	a    *answers
	tabs *fyne.Container
}

func (l *answersLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(280, 300) }

// headlineLines is the room kept for the answer, so that what is below it
// stays where it is while a slider is dragged.
const headlineLines = 5

// leastChart is the height under which a chart cannot be read.
const leastChart = 200

func (l *answersLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	a, y := l.a, float32(0)
	row := func(o fyne.CanvasObject, h float32) {
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, h))
		y = ceil(y + h)
	}
	th := a.Theme
	line := fyne.MeasureText("A", th.Size(theme.SizeNameSubHeadingText), fyne.TextStyle{Bold: true}).Height
	a.headline.Resize(fyne.NewSize(size.Width, 1))
	row(a.headline, max(a.headline.MinSize().Height, headlineLines*line+2*th.Size(theme.SizeNameInnerPadding)))
	inset := th.Size(theme.SizeNameInnerPadding)
	size.Width -= 2 * inset
	rulers := a.limits.rulers.MinSize().Height
	tabs := a.tabs[0].MinSize().Height
	both := !a.Narrow && size.Height-y-tabs-rulers-a.plots.choose.MinSize().Height-16 >= leastChart
	setVisible(a.tabs[tabChart], !both)
	open := a.open
	if both && open == tabChart {
		open = tabRulers
	}
	for i, t := range a.tabs {
		t.SetChosen(i == open)
	}
	tabs = tabFlow.HeightFor(l.tabs.Objects, size.Width)
	// The design's own figures stand beside the tabs where there is room.
	beside := l.width()
	a.beside = l.fits(size.Width)
	if a.beside {
		wrap(a.summary, false)
		m := a.summary.MinSize()
		a.summary.Move(fyne.NewPos(beside+inset, y+(tabs-m.Height)/2))
		a.summary.Resize(fyne.NewSize(size.Width-beside, m.Height))
		align(a.summary, fyne.TextAlignTrailing)
	} else {
		align(a.summary, fyne.TextAlignLeading)
		wrap(a.summary, true)
		a.summary.Resize(fyne.NewSize(size.Width, 1))
		row(a.summary, a.summary.MinSize().Height)
	}
	row(l.tabs, tabs)
	l.tabs.Move(fyne.NewPos(inset, l.tabs.Position().Y))
	y += 6
	body := size.Height - y
	if legend := a.limits.rulers.LegendHeight(); !both || body-rulers-legend-a.plots.choose.MinSize().Height-10 >= leastChart {
		rulers += legend
	}
	if both {
		body = rulers
	}
	setVisible(a.limits.column, open == tabRulers)
	setVisible(a.limits.scroll, open == tabList)
	setVisible(a.plots.choose, both || open == tabChart)
	setVisible(a.info, both || open == tabChart)
	setVisible(a.plots.plot, both || open == tabChart)
	switch open {
	case tabRulers:
		row(a.limits.column, min(rulers, size.Height-y))
		a.limits.column.Move(a.limits.column.Position().AddXY(inset, 0))
	case tabList:
		row(a.limits.scroll, body)
		a.limits.scroll.Move(a.limits.scroll.Position().AddXY(inset, 0))
	}
	if both {
		y += 8
	}
	if both || open == tabChart {
		info := a.info.MinSize()
		a.info.Resize(info)
		a.info.Move(fyne.NewPos(inset+size.Width-info.Width, y+(a.plots.choose.MinSize().Height-info.Height)/2))
		row(a.plots.choose, a.plots.choose.MinSize().Height)
		a.plots.choose.Resize(fyne.NewSize(size.Width-info.Width-4, a.plots.choose.Size().Height))
		y += 2
		row(a.plots.plot, min(size.Height-y, 1.1*size.Width))
		a.plots.choose.Move(a.plots.choose.Position().AddXY(inset, 0))
		a.plots.plot.Move(a.plots.plot.Position().AddXY(inset, 0))
	}
}

// wrap lets the words of a label go on in a second line, or cuts them.
func wrap(l *widget.Label, on bool) {
	w, t := fyne.TextWrapOff, fyne.TextTruncateEllipsis
	if on {
		w, t = fyne.TextWrapWord, fyne.TextTruncateOff
	}
	if l.Wrapping != w {
		l.Wrapping, l.Truncation = w, t
		l.Refresh()
	}
}

// fits reports whether the design's own figures have room beside the tabs.
func (l *answersLayout) fits(width float32) bool { return l.width()+l.summaryWidth() <= width }

func ceil(v float32) float32 { return float32(math.Ceil(float64(v))) }

func align(l *widget.Label, a fyne.TextAlign) {
	if l.Alignment != a {
		l.Alignment = a
		l.Refresh()
	}
}

// width returns how wide the tabs are that are shown.
func (l *answersLayout) width() float32 {
	w := float32(0)
	for _, t := range l.a.tabs {
		if t.Visible() {
			w += t.MinSize().Width + 4
		}
	}
	return w
}

func (l *answersLayout) summaryWidth() float32 {
	th := l.a.Theme
	return fyne.MeasureText(l.a.summary.Text, th.Size(theme.SizeNameCaptionText), fyne.TextStyle{}).Width +
		3*th.Size(theme.SizeNameInnerPadding)
}

func setVisible(o fyne.CanvasObject, on bool) {
	switch {
	case on == o.Visible():
	case on:
		o.Show()
	default:
		o.Hide()
	}
}
