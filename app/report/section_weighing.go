package report

import (
	"strings"

	"rimclear/app/present"
)

// mostAnswer is how much of an answer is printed, in characters; the table as
// data has all.
const mostAnswer = 400

// weighingSection has what the shapes do not decide, as the user answered it;
// what was not answered is named.
func weighingSection(f *Facts, st *sheet) []block {
	w := f.Words
	g := &grid{set: st.typeset, width: st.width, first: 0.2 * st.width, titles: []entry{
		{text: w.Phrase("report_column_question")}, {text: w.Phrase("weighing_rule_name")}, {text: w.Phrase("weighing_answer_name")},
	}}
	var open []string
	for _, r := range f.weighing() {
		if !r.Answered && r.Rule == "" {
			open = append(open, r.Question)
			continue
		}
		answer := entry{text: cut(r.Answer)}
		if !r.Answered {
			answer.tone = softTone
		}
		rule := entry{text: cut(r.Rule)}
		if rule.text == "" {
			rule = entry{text: w.Phrase("weighing_rule"), tone: softTone}
		}
		g.add(entry{text: r.Question}, rule, answer)
	}
	list := []block{st.heading(w.Phrase("report_weighing")), textBlock(w.WeighingNote(), st.soft(noteSize), st.width, 0)}
	if len(g.rows) > 0 {
		list = append(list, g.blocks(3)...)
	}
	if len(open) > 0 {
		list = append(list, textBlock(w.Phrase("report_open_questions", "questions", strings.Join(open, "; ")), st.ink(tableSize), st.width, 3))
	}
	return list
}

// weighing are the questions that geometry does not decide.
func (f *Facts) weighing() []present.WeighingRow {
	written := f.Weighing
	if written == nil {
		written = func(string) (rule, answer string) { return "", "" }
	}
	return f.Words.WeighingRows(written)
}

// cut returns a text that is not too long to be printed, on one line.
func cut(text string) string {
	letters := []rune(strings.Join(strings.Fields(text), " "))
	if len(letters) <= mostAnswer {
		return string(letters)
	}
	return string(letters[:mostAnswer]) + "…"
}

func weighingTable(f *Facts, t *Table) {
	t.Columns = []string{"question", "title", "rule", "answer", "answered", "why", "source"}
	for _, r := range f.weighing() {
		answer := r.Answer
		if !r.Answered {
			answer = ""
		}
		t.add(r.Key, r.Question, r.Rule, answer, r.Answered, r.Why, r.Source)
	}
}
