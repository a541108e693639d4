package main

import (
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rimclear/assets"
)

// checkOf checks one text and returns what was found.
func checkOf(t testing.TB, text string, code int, args ...string) checkFileRecord {
	t.Helper()
	r := calc(t, text, append(append([]string{"check", "--json"}, args...), "-")...)
	var got checkRecord
	if err := json.Unmarshal([]byte(r.out), &got); err != nil || r.code != code || len(got.Files) != 1 || r.errs != "" {
		t.Fatalf("code %d, want %d; errors %q, %v\n%s", r.code, code, r.errs, err, r.out)
	}
	return got.Files[0]
}

func TestEverythingBuiltInIsInOrder(t *testing.T) {
	for _, s := range assets.Cases() {
		if f := checkOf(t, string(s.Data), fine); f.Kind != "case" {
			t.Errorf("%s is %q: %v", s.Name, f.Kind, f.Problems)
		}
	}
	for _, data := range assets.Activities() {
		if f := checkOf(t, string(data), fine); f.Kind != "library" {
			t.Errorf("a library is %q: %v", f.Kind, f.Problems)
		}
	}
	for _, data := range assets.Bearings() {
		if f := checkOf(t, string(data), fine); f.Kind != "bearings" {
			t.Errorf("a catalogue is %q: %v", f.Kind, f.Problems)
		}
	}
}

func TestAllThatIsWrongIsSaidWithLineFieldValueAndWhatIsAllowed(t *testing.T) {
	text := `{
  "format": "rimclear-case", "version": 1,
  "side": "up",
  "tilt_supine_deg": "much",
  "designs": [
    {"head_diameter_mm": 320,
     "wall_mm": -1},
    {"cup_arc_deg": null, "cup_arc_deg": 170}
  ]
}`
	f := checkOf(t, text, failed)
	want := []finding{
		{3, "side", `"up"`, "must be one of right, left"},
		{4, "tilt_supine_deg", `"much"`, "must be a number from"},
		{6, "designs[0].head_diameter_mm", "320", "must be a number from 18 to 70 mm"},
		{7, "designs[0].wall_mm", "-1", "must be a number from"},
		{8, "designs[1].cup_arc_deg", "null", "must be a number from"},
	}
	for _, w := range want {
		found := false
		for _, p := range f.Problems {
			found = found || p.Line == w.Line && p.Field == w.Field && p.Value == w.Value && strings.HasPrefix(p.Must, w.Must)
		}
		if !found {
			t.Errorf("no %+v in %+v", w, f.Problems)
		}
	}
	if len(f.Problems) < 6 {
		t.Errorf("%d problems; a field that stands twice is one too: %v", len(f.Problems), f.Problems)
	}
}

func TestNotesSayWhatHasNoEffectAndWhatMayBeMeant(t *testing.T) {
	text := `{"format": "rimclear-case", "version": 1, "criteria": "sever",
  "motions": ["stoop",
    "low_chiar"],
  "designs": [{"head_diameter_mm": 32,
    "head_diamter_mm": 36}]}`
	f := checkOf(t, text, fine)
	if len(f.Problems) > 0 || len(f.Notes) != 3 {
		t.Fatalf("problems %v, notes %v", f.Problems, f.Notes)
	}
	for i, want := range []struct {
		line        int
		field, must string
	}{
		{5, "designs[0].head_diamter_mm", "did you mean head_diameter_mm?"},
		{3, "motions[1]", "did you mean low_chair?"},
		{1, "criteria", "there are strict, severe"},
	} {
		if n := f.Notes[i]; n.Line != want.line || n.Field != want.field || !strings.Contains(n.Must, want.must) {
			t.Errorf("note %+v, want %+v", n, want)
		}
	}
	checkOf(t, text, failed, "--strict")
}

func TestWhatAFileIsIsToldFromItsContents(t *testing.T) {
	for _, tt := range []struct{ text, kind, must string }{
		{"", "", "is empty"},
		{"{", "", "must be JSON"},
		{"[1]", "", "must be an object"},
		{`{"format": "other-case", "version": 1}`, "", `must be "rimclear-case"`},
		{`{"format": "rimclear-case", "version": 99, "designs": [{}]}`, "case", "later version"},
		{`{"format": "rimclear-motions", "version": 1, "activities": 3}`, "library", "list"},
		{`{"format": "rimclear-bearings", "version": 1, "bearings": [{"key": "Über"}]}`, "bearings", "must"},
		{"time,flexion\n0,1\n", "recording", "must name a column"},
		{"time (s),hip flexion (deg),hip adduction (deg),hip internal rotation (deg)\n0,0,0,0\n1,a,0,0\n", "recording", "number"},
		{"\xff\xfe\x00", "recording", "UTF-8"},
	} {
		f := checkOf(t, tt.text, failed)
		said := ""
		for _, p := range f.Problems {
			said += p.String() + "\n"
		}
		if f.Kind != tt.kind || !strings.Contains(said, tt.must) {
			t.Errorf("%q is %q: %s; want %q: %s", tt.text, f.Kind, said, tt.kind, tt.must)
		}
	}
	recording := "time;hip flexion;hip adduction;hip internal rotation\n0,0;1,5;0;0\n0,1;2,5;0;0\n"
	if f := checkOf(t, recording, fine); f.Kind != "recording" {
		t.Errorf("a recording is %q: %v", f.Kind, f.Problems)
	}
}

func TestFilesAreCheckedOneByOneAndNamed(t *testing.T) {
	folder := t.TempDir()
	good, bad := filepath.Join(folder, "good.json"), filepath.Join(folder, "=bad.json")
	for path, text := range map[string]string{good: demoCase(), bad: strings.Replace(demoCase(), `"version": 1`, `"version": 0`, 1)} {
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	r := calc(t, "", "check", good, bad, filepath.Join(folder, "absent.json"))
	for _, want := range []string{good + ": a case, nothing is wrong", bad + ": line 3: version: 0: must be", "absent.json: cannot be read: ", "not a medical device"} {
		if r.code != failed || !strings.Contains(r.out, want) {
			t.Errorf("code %d, no %q in\n%s%s", r.code, want, r.out, r.errs)
		}
	}
	t.Chdir(folder)
	if r := calc(t, "", "check", "--csv", "=bad.json"); r.code != failed || !strings.Contains(r.out, "'=bad.json,case,wrong,3,version,0,") {
		t.Errorf("code %d, out\n%s", r.code, r.out)
	}
}

func FuzzCheck(f *testing.F) {
	f.Add(demoCase())
	f.Add(ownLibrary)
	f.Add(string(assets.Bearings()[0])[:2000])
	f.Add(`{"format": "rimclear-case", "version": 2, "designs": [{"head_diameter_mm": 3e1}], "motions": [1, "a"]}`)
	f.Add("time (s);hip flexion;hip adduction;hip rotation\n0;1,5;0;0\n")
	f.Add("\xef\xbb\xbf{}\r\n")
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 20000 {
			return
		}
		r := calc(t, text, "check", "--json", "-")
		var got checkRecord
		if err := json.Unmarshal([]byte(r.out), &got); err != nil || len(got.Files) != 1 || r.code != fine && r.code != failed || r.errs != "" {
			t.Fatalf("code %d, errors %q, %v", r.code, r.errs, err)
		}
		file := got.Files[0]
		if (r.code == failed) != (len(file.Problems) > 0) || got.Wrong != len(file.Problems) {
			t.Fatalf("code %d with %d problems", r.code, len(file.Problems))
		}
		lines := 1 + strings.Count(text, "\n") + strings.Count(text, "\r")
		for _, p := range append(file.Problems, file.Notes...) {
			if p.Line < 0 || p.Line > lines || p.Must == "" {
				t.Fatalf("%+v in a file of %d lines", p, lines)
			}
		}
		if file.Kind == "case" {
			in := &terminal{in: strings.NewReader(text), errs: io.Discard}
			if _, err := in.readFile("-"); (err == nil) != (r.code == fine) {
				t.Fatalf("check ends with %d, other commands say %v", r.code, err)
			}
		}
	})
}
