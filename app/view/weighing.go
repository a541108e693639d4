package view

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/casefile"
	"rimclear/app/control"
	"rimclear/app/present"
)

// weighing lists what the shapes of the parts do not decide, each question with
// the rule that holds where the user works and the answer for this case.
type weighing struct {
	*Context
	group  *control.Group
	note   *widget.Label
	sheet  *control.Sheet
	asked  *widget.Label // the question that is open
	rule   *widget.Entry
	answer *widget.Entry

	// chosen is told that a question was opened: where its entries are.
	chosen func(top, bottom float32)

	open   int
	silent bool
	kept   casefile.Weighing
	rows   []present.WeighingRow
}

func newWeighing(c *Context) *weighing {
	v := &weighing{Context: c, sheet: control.NewSheet()}
	label := func(text string) *widget.Label {
		l := widget.NewLabel(text)
		l.Wrapping, l.SizeName = fyne.TextWrapWord, theme.SizeNameCaptionText
		return l
	}
	v.note, v.asked = label(c.Words.WeighingNote()), label("")
	v.asked.TextStyle.Bold = true
	v.rule, v.answer = v.entry(c.Words.Phrase("weighing_rule")), v.entry(c.Words.Phrase("weighing_answer"))
	v.sheet.Hint = c.Hint
	v.sheet.OnChoose = func(i int) { v.choose(i) }
	v.group = control.NewGroup(v.title(0), "", []fyne.CanvasObject{
		v.note, v.sheet, v.asked, label(c.Words.Phrase("weighing_rule_name")), v.rule, label(c.Words.Phrase("weighing_answer_name")), v.answer}, nil)
	v.group.SetOpen(false)
	c.explainGroup(v.group)
	v.display(nil)
	return v
}

// entry returns a place for some lines of text.
func (v *weighing) entry(empty string) *widget.Entry {
	e := widget.NewMultiLineEntry()
	e.Wrapping, e.PlaceHolder = fyne.TextWrapWord, empty
	e.SetMinRowsVisible(2)
	e.OnChanged = func(string) { v.keep() }
	return e
}

// keep keeps what is written, as far as a file takes it.
func (v *weighing) keep() {
	if v.silent {
		return
	}
	v.Session.Answer(v.rows[v.open].Key, casefile.Answer{Rule: bounded(v.rule.Text), Answer: bounded(v.answer.Text)})
}

// bounded returns a text as a file takes it: not too long, and without control
// characters but line ends.
func bounded(s string) string {
	var out []rune
	for _, c := range s {
		if len(out) == casefile.MaxAnswer {
			break
		}
		if c == '\n' || c >= ' ' && c != 0x7f && !(c >= 0x80 && c < 0xa0) {
			out = append(out, c)
		}
	}
	return string(out)
}

// choose opens a question.
func (v *weighing) choose(i int) {
	if i < 0 || i >= len(v.rows) {
		return
	}
	v.open = i
	v.fill()
	if v.chosen != nil {
		v.chosen(v.asked.Position().Y, v.answer.Position().Y+v.answer.Size().Height)
	}
}

// title says how many questions are not answered.
func (v *weighing) title(open int) string {
	switch open {
	case 0:
		return v.Words.Phrase("weighing_title")
	case 1:
		return v.Words.Phrase("weighing_title_one")
	}
	return v.Words.Phrase("weighing_title_open", "count", strconv.Itoa(open))
}

// display shows what is kept.
func (v *weighing) display(kept casefile.Weighing) {
	v.kept = kept
	v.fill()
}

func (v *weighing) fill() {
	v.rows = v.Words.WeighingRows(func(key string) (rule, answer string) {
		a := v.kept[key]
		return a.Rule, a.Answer
	})
	var list []control.SheetRow
	open := 0
	for i, r := range v.rows {
		state := v.Words.Phrase("weighing_answered")
		if !r.Answered {
			state = r.Answer
			open++
		}
		list = append(list, control.SheetRow{Boxed: true, Ticked: r.Answered, Name: r.Question, Value: state, Grey: !r.Answered,
			Below: v.Words.Phrase("weighing_because", "why", r.Why, "source", r.Source), Chosen: i == v.open})
	}
	v.sheet.Display(list)
	v.group.SetTitle(v.title(open))
	a := v.kept[v.rows[v.open].Key]
	v.silent = true
	setText(v.asked, v.rows[v.open].Question)
	write := func(e *widget.Entry, s string) {
		if bounded(e.Text) != s {
			e.SetText(s)
		}
	}
	write(v.rule, a.Rule)
	write(v.answer, a.Answer)
	v.silent = false
}
