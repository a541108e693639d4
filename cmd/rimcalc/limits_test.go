package main

import (
	"encoding/json"
	"flag"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rimclear/app/casefile"
	"rimclear/assets"
	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

var update = flag.Bool("update", false, "write the golden files anew")

// sameAsGolden compares text with a file of testdata.
func sameAsGolden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs; got\n%s", name, got)
	}
}

func demoCase() string { return string(assets.Demo().Data) }

func TestTheTableOfTheDemoIsGolden(t *testing.T) {
	r := calc(t, demoCase(), "limits", "--case", "-")
	if r.code != fine || r.errs != "" {
		t.Fatalf("code %d, errors %q", r.code, r.errs)
	}
	sameAsGolden(t, "limits.txt", r.out)
	if r := calc(t, demoCase(), "limits", "--case", "-", "--csv"); r.code == fine {
		sameAsGolden(t, "limits.csv", r.out)
	} else {
		t.Errorf("--csv: code %d, errors %q", r.code, r.errs)
	}
}

func decoded(t *testing.T, r result) limitsRecord {
	t.Helper()
	var got limitsRecord
	if err := json.Unmarshal([]byte(r.out), &got); err != nil || r.code != fine {
		t.Fatalf("code %d, errors %q, %v", r.code, r.errs, err)
	}
	return got
}

func TestJSONHasEveryAnswerOfTheLibrary(t *testing.T) {
	r := calc(t, demoCase(), "limits", "--case", "-", "--json")
	got := decoded(t, r)
	if got.Format != "rimclear-limits" || got.Version != 1 || !strings.Contains(got.Caution, "not a medical device") || len(got.Designs) != 2 {
		t.Errorf("got %+v", got)
	}
	f, err := casefile.Decode(got.Case)
	if err != nil {
		t.Fatalf("the case in it: %v", err)
	}
	for i, d := range got.Designs {
		j := kinematics.NewJoint(f.Case.Hip, f.Case.Designs[i])
		if theta, round := j.Aperture.Theta(); round != (d.Oscillation != nil) {
			t.Errorf("%s: round is %v, but its oscillation is %v", d.Design, round, d.Oscillation)
		} else if round && math.Abs(*d.Oscillation-2*theta.Degrees()) > 1e-5 {
			t.Errorf("%s: oscillation %v", d.Design, *d.Oscillation)
		}
		for k, a := range j.Answers(f.Case.Hip) {
			l := d.Limits[k]
			if l.Question != a.Question.Key || l.Beyond != a.BeyondNative() {
				t.Errorf("%s: %+v is not the answer to %s", d.Design, l, a.Question.Key)
			}
			if (l.Limit != nil) != (a.Reached && a.Limit.Status == kinematics.Stopped) {
				t.Errorf("%s %s: limit %v, status %s", d.Design, l.Question, l.Limit, l.Status)
			} else if l.Limit != nil && math.Abs(*l.Limit-a.Reading.Degrees()) > 1e-5 {
				t.Errorf("%s %s: limit %v, want %v", d.Design, l.Question, *l.Limit, a.Reading.Degrees())
			}
			if l.Status == "not_reached" && (l.StoppedBy == "" || l.StoppedAt == nil) {
				t.Errorf("%s %s: not reached, but not what stopped", d.Design, l.Question)
			}
		}
	}
	if again := calc(t, demoCase(), "limits", "--case", "-", "--json"); again != r {
		t.Error("asked twice the JSON differs")
	}
}

func TestFlagsChangeTheChosenDesignOnly(t *testing.T) {
	got := decoded(t, calc(t, demoCase(), "limits", "--case", "-", "--design", "B", "--json", "--cup-anteversion-deg", "-5.5", "--side", "left"))
	f, err := casefile.Decode(got.Case)
	if err != nil || len(got.Designs) != 1 || got.Designs[0].Design != "B" {
		t.Fatalf("%v, designs %+v", err, got.Designs)
	}
	a, b := f.Case.Designs[0].Cup.Anteversion, f.Case.Designs[1].Cup.Anteversion
	if a != 15*unit.Degree || math.Abs(b.Degrees()+5.5) > 1e-9 || f.Case.Hip.Side != 1 {
		t.Errorf("anteversion %v and %v, side %v", a.Degrees(), b.Degrees(), f.Case.Hip.Side)
	}
}

func TestThePostureOfTheCaseIsAnsweredToo(t *testing.T) {
	r := calc(t, "", "limits", "--flexion-deg", "90", "--internal-rotation-deg", "80")
	if r.code != fine || !strings.Contains(r.out, "In this posture the neck would be") {
		t.Errorf("code %d, out\n%.600s", r.code, r.out)
	}
	p := decoded(t, calc(t, "", "limits", "--json", "--flexion-deg", "60")).Designs[0].Posture
	if p.Margin <= 0 || p.Clearance <= 0 || !strings.Contains(p.Text, "clear of the rim") {
		t.Errorf("posture %+v", p)
	}
}

func TestALeftHipHasTheLimitsOfARightOneAndTheMirroredEscape(t *testing.T) {
	right := decoded(t, calc(t, "", "limits", "--json")).Designs[0].Limits
	left := decoded(t, calc(t, "", "limits", "--json", "--side", "left")).Designs[0].Limits
	for i, r := range right {
		l := left[i]
		if *r.Limit != *l.Limit || *r.Clock != *l.Clock || r.EscapeVector[0] != l.EscapeVector[0] || r.EscapeVector[2] != -l.EscapeVector[2] {
			t.Errorf("%s: right %v %v, left %v %v", r.Question, *r.Limit, *r.EscapeVector, *l.Limit, *l.EscapeVector)
		}
	}
}

func TestABadCaseFileIsNamedByLineAndField(t *testing.T) {
	path := filepath.Join(t.TempDir(), "bad.json")
	text := strings.Replace(demoCase(), `"head_diameter_mm": 32`, `"head_diameter_mm": 320`, 1)
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	r := calc(t, "", "limits", "--case", path)
	if r.code != misuse || r.out != "" || !strings.Contains(r.errs, path+": line ") ||
		!strings.Contains(r.errs, "designs[0].head_diameter_mm: 320: must be a number from 18 to 70 mm") {
		t.Errorf("code %d, errors\n%s", r.code, r.errs)
	}
}

func TestUnknownFieldsOfACaseAreTold(t *testing.T) {
	text := strings.Replace(demoCase(), `"version": 1,`, `"version": 1, "shoe_size": 9,`, 1)
	if r := calc(t, text, "limits", "--case", "-"); r.code != fine || !strings.Contains(r.errs, "shoe_size is not known") {
		t.Errorf("code %d, errors\n%s", r.code, r.errs)
	}
}

func TestANameCannotBecomeASpreadsheetFormula(t *testing.T) {
	text := strings.Replace(demoCase(), `"name": "Stemmed 32 mm"`, `"name": "=1+1"`, 1)
	if r := calc(t, text, "limits", "--case", "-", "--csv"); !strings.Contains(r.out, "A,'=1+1,") {
		t.Errorf("out\n%.200s", r.out)
	}
}

func TestTheDemoIsWholeAndSaysWhere(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and what it asks is raced elsewhere")
	}
	folder := filepath.Join(t.TempDir(), "new", "demo")
	r := calc(t, "", "demo", "--out", folder)
	if r.code != fine || r.errs != "" {
		t.Fatalf("code %d, errors %q", r.code, r.errs)
	}
	entries, err := os.ReadDir(folder)
	if err != nil || len(entries) < 10 {
		t.Fatalf("%d files, %v", len(entries), err)
	}
	for _, e := range entries {
		path := filepath.Join(folder, e.Name())
		if !strings.Contains(r.out, path+"\n") {
			t.Errorf("%s is not named", path)
		}
		data, err := os.ReadFile(path)
		if err != nil || len(data) == 0 {
			t.Errorf("%s: %d bytes, %v", path, len(data), err)
		}
		if strings.HasSuffix(path, ".png") {
			img, err := png.Decode(strings.NewReader(string(data)))
			if err != nil || img.Bounds().Dx() < 1000 {
				t.Errorf("%s is no picture: %v", path, err)
			}
		}
	}
	if _, err := casefile.Open(filepath.Join(folder, "case"+casefile.Extension)); err != nil {
		t.Error(err)
	}
	if r := calc(t, "", "demo", "--out", filepath.Join(folder, "limits.txt", "x")); r.code != failed || r.errs == "" {
		t.Errorf("into a file: code %d, errors %q", r.code, r.errs)
	}
}
