package form

import (
	"strings"
	"testing"
)

func TestAProblemNamesLinePlaceValueAndWhatIsAllowed(t *testing.T) {
	file := "{\n \"format\": \"f\", \"version\": 1,\n \"list\": [\n  {\"x\": 3},\n  {\"x\": 12}\n ]\n}"
	v, err := Read(strings.NewReader(file), 1000)
	if err != nil {
		t.Fatal(err)
	}
	var r Reader
	top := r.Fields(v, "format", "version", "list")
	if !top.IsFormat("f", 1) {
		t.Errorf("IsFormat refused: %v", r.Problems)
	}
	for _, item := range top.List("list", 1, 9) {
		x, _ := r.Fields(item, "x").Need("x")
		r.Number(x, 0, 10)
	}
	if got, want := r.Problems.Err().Error(), "line 5: list[1].x: 12: must be from 0 to 10"; got != want {
		t.Errorf("problems = %q, want %q", got, want)
	}
}

func TestWhatIsNotJSONIsRefusedWithItsLine(t *testing.T) {
	for file, want := range map[string]string{
		"{\n\"a\": 1,\n}":        "line 3",
		"{\"a\": [1, 2":          "ends too early",
		"{} {}":                  "nothing may follow",
		"\xff":                   "UTF-8",
		strings.Repeat("[", 99):  "nested",
		strings.Repeat(" ", 999): "at most 500 bytes",
		"":                       "ends too early",
		"{\n\n\"a\" 1}":          "line 3",
	} {
		if _, err := Read(strings.NewReader(file), 500); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Read(%.20q) = %v, want an error with %q", file, err, want)
		}
	}
}

func TestUnknownAndRepeatedFieldsAreNamed(t *testing.T) {
	v, err := Read(strings.NewReader(`{"a": 1, "b": 2, "a": 3}`), 100)
	if err != nil {
		t.Fatal(err)
	}
	var r Reader
	r.Fields(v, "a", "c")
	if got := r.Problems.Error(); !strings.Contains(got, "b: no such field; there are a, c") || !strings.Contains(got, "a: stands twice") {
		t.Errorf("problems = %q", got)
	}
}

func TestEveryKindOfValueIsCheckedForItsKind(t *testing.T) {
	v, err := Read(strings.NewReader(`{"n": "1", "t": 1, "k": "A b", "w": "blue", "l": {}, "b": 0, "big": 1e999, "c": "a\nb", "f": null}`), 1000)
	if err != nil {
		t.Fatal(err)
	}
	var r Reader
	f := r.Fields(v, "n", "t", "k", "w", "l", "b", "big", "c", "f", "missing")
	n, _ := f.Find("n")
	big, _ := f.Find("big")
	null, _ := f.Find("f")
	for place, read := range map[string]func(){
		"n":       func() { r.Number(n, 0, 9) },
		"t":       func() { f.OneLine("t", 9) },
		"k":       func() { f.Key("k") },
		"w":       func() { f.Word("w", []string{"red"}, 0) },
		"l":       func() { f.List("l", 0, 9) },
		"b":       func() { f.True("b") },
		"big":     func() { r.Number(big, 0, 9) },
		"c":       func() { f.OneLine("c", 9) },
		"f":       func() { r.Number(null, 0, 9) },
		"missing": func() { f.Need("missing") },
	} {
		r.Problems = nil
		if read(); len(r.Problems) != 1 || r.Problems[0].Place != place {
			t.Errorf("reading %s: problems %v, want one there", place, r.Problems)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add(`{"a": [1, "x", true, null, {"b": 1e9}]}`)
	f.Add("\ufeff[\r\n]")
	f.Fuzz(func(t *testing.T, file string) {
		v, err := Read(strings.NewReader(file), 10000)
		if err != nil && !strings.Contains(err.Error(), " ") {
			t.Errorf("error without words: %q", err)
		}
		if err == nil && (v.Line < 1 || v.Line > strings.Count(file, "\n")+1) {
			t.Errorf("line %d of %q", v.Line, file)
		}
	})
}
