package casefile

import (
	"maps"
	"strings"
	"testing"
)

func TestAnswersComeBackAsTheyWereWritten(t *testing.T) {
	want := varied(t)
	want.Weighing = Weighing{}.
		With("bone_density", Answer{Rule: "T score below −2.5: no", Answer: "measured\n\"−1.2\""}).
		With("renal_function", Answer{Answer: "eGFR 85"})
	data, err := Encode(want)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	if !maps.Equal(got.Weighing, want.Weighing) || !got.Same(want) {
		t.Errorf("answers %q, want %q", got.Weighing, want.Weighing)
	}
}

func TestAnAnswerTakenBackLeavesTheOthersAndTheCopies(t *testing.T) {
	both := Weighing(nil).With("a", Answer{Rule: "x"}).With("b", Answer{Answer: "y"})
	one := both.With("a", Answer{})
	if len(both) != 2 || len(one) != 1 || one["b"].Answer != "y" {
		t.Errorf("both %q, one %q", both, one)
	}
}

func TestAnswersThatCannotBeKeptAreRefusedBothWays(t *testing.T) {
	for name, c := range map[string]struct {
		w          Weighing
		file, want string
	}{
		"key":     {Weighing{"A b": {Rule: "x"}}, `{"A b":{"rule":"x"}}`, "a to z"},
		"length":  {Weighing{"a": {Rule: strings.Repeat("é", 2001)}}, `{"a":{"rule":"` + strings.Repeat("é", 2001) + `"}}`, "2000 characters"},
		"control": {Weighing{"a": {Answer: "\x1b[2J"}}, `{"a":{"answer":"\u001b[2J"}}`, "control"},
		"type":    {nil, `{"a":3}`, `an object of "rule" and "answer"`},
		"field":   {nil, `{"a":{"rule":"x","later":1}}`, `only "rule" and "answer"`},
		"list":    {nil, `[]`, "object of at most 40 questions"},
		"twice":   {nil, `{"a":{"rule":"x"},"a":{}}`, "stands twice"},
	} {
		_, err := Decode([]byte(`{"format":"rimclear-case","version":2,"designs":[{}],"weighing":` + c.file + `}`))
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), "line 1: weighing") {
			t.Errorf("%s: read: %v, want %q", name, err, c.want)
		}
		if c.w == nil {
			continue
		}
		f := varied(t)
		f.Weighing = c.w
		if _, err := Encode(f); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: written: %v, want %q", name, err, c.want)
		}
	}
}

func TestAnEarlierVersionIsReadAndSavedAsThisOne(t *testing.T) {
	f, err := Decode([]byte(`{"format":"rimclear-case","version":1,"label":"old","weighing":[1],"weighing_of_version_1":2,"later":3,"designs":[{"head_diameter_mm":40}]}`))
	if err != nil {
		t.Fatal(err)
	}
	if f.Case.Label != "old" || f.Case.Designs[0].Rim.HeadDiameter != 40 {
		t.Errorf("read as %+v", f.Case)
	}
	const want = "weighing_of_version_1_of_version_1 weighing_of_version_1 later"
	if got := strings.Join(f.Unknown(), " "); got != want {
		t.Errorf("unknown fields %q, want %q", got, want)
	}
	data, err := Encode(f)
	if err != nil || !strings.Contains(string(data), `"version": 2,`) {
		t.Fatalf("saved as %.80s, %v", data, err)
	}
	again, err := Decode(data)
	if err != nil || !again.Same(f) {
		t.Errorf("read again: same %v, %v", again.Same(f), err)
	}
}

func TestAFaultInAnEarlierVersionStillNamesItsLine(t *testing.T) {
	_, err := Decode([]byte("{\"format\":\"rimclear-case\",\n\"version\":1,\n\"weighing\":0,\n\"side\":\"up\",\"designs\":[{}]}"))
	if err == nil || !strings.Contains(err.Error(), "line 4: side") {
		t.Errorf("error %v, want line 4", err)
	}
}
