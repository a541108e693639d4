package view

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/kinematics"
)

// ask shows what there is to know of a number.
func (c *Context) ask(key string) {
	if c.Ask != nil && key != "" {
		c.Ask(key)
	}
}

// inquiry is for a widget that shows the number of says.
func (c *Context) inquiry(of func() string) control.Inquiry {
	return control.Inquiry{Of: of, Ask: c.ask}
}

// told returns a label that says a number, and can be asked about it.
func (c *Context) told(of func() string) *control.Told {
	t := control.NewTold()
	t.Inquiry, t.Hint, t.Help = c.inquiry(of), c.Hint, c.Words.Phrase("about_hint")
	return t
}

// infoButton returns a button that asks about a number.
func (c *Context) infoButton(of func() string) *control.IconButton {
	b := control.NewIconButton(theme.QuestionIcon(), c.Words.Phrase("about_help"), func() { c.ask(of()) })
	b.Hint = c.Hint
	return b
}

// numberOfRow returns what number a row of the table of limits shows.
func numberOfRow(r present.Row) string {
	if r.Grey {
		return "native_range"
	}
	return "limit"
}

// partOfSummary returns which of a design's own figures stands at a place of
// their line.
func (a *answers) partOfSummary(x float32) string {
	th := a.Theme
	s := a.Session.Now()
	lines := a.Words.Summary(*s.Design(), s.Joint.Aperture)
	pair := a.Words.Phrase("window_pair", "name", lines[0].Name, "value", lines[0].Value)
	size := th.Size(theme.SizeNameCaptionText)
	first := fyne.MeasureText(pair, size, fyne.TextStyle{}).Width + th.Size(theme.SizeNameInnerPadding)
	if a.summary.Alignment == fyne.TextAlignTrailing {
		first += max(a.summary.Size().Width-a.summaryText(size)-2*th.Size(theme.SizeNameInnerPadding), 0)
	}
	if x <= first {
		return present.NumberOf(lines[0].Key)
	}
	return present.NumberOf(lines[1].Key)
}

func (a *answers) summaryText(size float32) float32 {
	return fyne.MeasureText(a.summary.Text, size, fyne.TextStyle{}).Width
}

// number returns what the map is of.
func (m *aim) number() string {
	if m.shared && m.kind == kinematics.CupMap {
		return "map_share"
	}
	return "map_margin"
}
