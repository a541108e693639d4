package present

import (
	"strings"
	"testing"
)

func TestAQuestionWithoutAnAnswerSaysSo(t *testing.T) {
	w := English()
	rows := w.WeighingRows(func(key string) (rule, answer string) {
		switch key {
		case "dysplasia":
			return "CT first", " mild, on the left "
		case "bone_density":
			return "scan over 65", "  \n"
		}
		return "", ""
	})
	if len(rows) != len(WeighedKeys()) {
		t.Fatalf("%d rows for %d questions", len(rows), len(WeighedKeys()))
	}
	for _, r := range rows {
		if r.Question == "" || r.Why == "" || r.Source == "" || strings.HasPrefix(r.Question+r.Why+r.Source, "[") {
			t.Errorf("%s: %+v lacks words", r.Key, r)
		}
		want, answered := "not answered", r.Key == "dysplasia"
		if answered {
			want = "mild, on the left"
		}
		if r.Answer != want || r.Answered != answered {
			t.Errorf("%s is answered %q, %v; want %q, %v", r.Key, r.Answer, r.Answered, want, answered)
		}
	}
}

func TestWeighingSaysThatContactIsNotDislocation(t *testing.T) {
	if note := English().WeighingNote(); !strings.Contains(note, "resurfaced") || !strings.Contains(note, "not by itself dislocation") {
		t.Errorf("the note reads %q", note)
	}
}
