package view

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"rimclear/app/casefile"
	"rimclear/app/present"
)

func TestAnAnswerIsKeptInTheCaseAndUndone(t *testing.T) {
	a := compare(t, 1280, 776, 2)
	v := a.choices.weighing
	v.group.SetOpen(true)
	v.choose(1)
	a.stage.window.Canvas().Focus(v.answer)
	test.Type(v.answer, "mild")
	test.Type(v.rule, "CT first")
	a.settled(t)
	key := present.WeighedKeys()[1]
	if got := a.Session.File().Weighing[key]; got != (casefile.Answer{Rule: "CT first", Answer: "mild"}) {
		t.Errorf("kept: %+v", got)
	}
	if r := v.sheet.Rows()[1]; !r.Ticked || r.Value != "answered" {
		t.Errorf("the list shows %+v", r)
	}
	a.Session.Undo()
	a.settled(t)
	if len(a.Session.File().Weighing) != 0 || v.answer.Text != "" || v.rule.Text != "" {
		t.Errorf("after undo %v is kept, the entries read %q and %q", a.Session.File().Weighing, v.rule.Text, v.answer.Text)
	}
	for _, r := range v.sheet.Rows() {
		if r.Ticked || r.Value != "not answered" {
			t.Errorf("nothing is answered, and the list shows %+v", r)
		}
	}
}

func TestEachQuestionHasAnAnswerOfItsOwn(t *testing.T) {
	a := compare(t, 1280, 776, 1)
	v := a.choices.weighing
	for i := range present.WeighedKeys() {
		v.choose(i)
		if v.answer.Text != "" {
			t.Errorf("question %d opens with %q", i, v.answer.Text)
		}
		v.answer.SetText(strings.Repeat("x", i+1))
	}
	a.settled(t)
	for i, key := range present.WeighedKeys() {
		v.choose(i)
		if got := a.Session.File().Weighing[key].Answer; len(got) != i+1 || v.answer.Text != got {
			t.Errorf("%s is kept as %q and shown as %q", key, got, v.answer.Text)
		}
	}
}

func TestWhatIsWrittenCanBeKeptInAFile(t *testing.T) {
	a := compare(t, 1280, 776, 1)
	v := a.choices.weighing
	v.rule.SetText(strings.Repeat("ä", casefile.MaxAnswer+7) + "\x1b")
	v.answer.SetText("one\ttwo\nthree\x00")
	if _, err := casefile.Encode(a.Session.File()); err != nil {
		t.Error(err)
	}
	if got := a.Session.File().Weighing[present.WeighedKeys()[0]].Answer; got != "onetwo\nthree" {
		t.Errorf("kept: %q", got)
	}
}
