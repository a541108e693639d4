package main

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
)

func TestEveryActivityAndCriterionIsListedWithBasisAndSource(t *testing.T) {
	l := session.BuiltIn()
	got := jsonOf[libraryRecord](t, "", "activities")
	count := len(l.Activities)
	for _, s := range l.Criteria {
		count += len(s.Criteria)
	}
	if len(got.Entries) != count || got.Case != nil {
		t.Fatalf("%d entries of %d, case %s", len(got.Entries), count, got.Case)
	}
	text := calc(t, "", "activities").out
	for _, e := range got.Entries {
		if e.Source == "" || e.Basis == "" || e.ZeroBasis == "" || len(e.Verdicts) > 0 || e.Doubtful != (e.Basis == "memory" || e.Basis == "assumed") {
			t.Errorf("entry %+v", e)
		}
		if !strings.Contains(text, e.Source) || !strings.Contains(text, e.Name) || !strings.Contains(text, e.Key) {
			t.Errorf("the text lacks %s, its name or source", e.Key)
		}
	}
	for _, want := range []string{"from memory", "assumed", "internal rotation until contact", "not a medical device"} {
		if !strings.Contains(text, want) {
			t.Errorf("the text lacks %q", want)
		}
	}
}

func TestVerdictsOnACaseAreTheLibrarysAnswers(t *testing.T) {
	got := jsonOf[libraryRecord](t, demoCase(), "activities", "--case", "-")
	f, err := sampleCase(sampleNames()[0])
	if err != nil {
		t.Fatal(err)
	}
	c, l := f.Case, session.BuiltIn()
	checked := 0
	for _, e := range got.Entries {
		if len(e.Verdicts) != c.Count {
			t.Fatalf("%s has %d verdicts", e.Key, len(e.Verdicts))
		}
		a, ok := l.Activity(e.Key)
		if !ok || e.Kind != "activity" {
			continue
		}
		for i, v := range e.Verdicts {
			o := kinematics.NewJoint(c.Hip, c.Designs[i]).Judge([]motion.Requirement{a.Requirement(c.Setting())}, c.Goal.Closeness).Outcomes[0]
			if v.Standing != o.Standing.Key() || v.Margin != nil && math.Abs(*v.Margin-o.Least.Margin.Degrees()) > 1e-5 {
				t.Errorf("%s, %s: %+v", e.Key, v.Design, v)
			}
			checked++
		}
	}
	if checked != 2*len(l.Activities) {
		t.Errorf("%d verdicts checked", checked)
	}
	rows := rowsOf(t, calc(t, demoCase(), "activities", "--case", "-", "--csv"))
	if len(rows) != 2*len(got.Entries) || rows[1]["design"] != "B" || rows[1]["standing"] == "" {
		t.Errorf("%d rows; %v", len(rows), rows[1])
	}
	if rows := rowsOf(t, calc(t, "", "activities", "--csv")); len(rows) != len(got.Entries) || rows[0]["standing"] != "" {
		t.Errorf("without a case: %d rows; %v", len(rows), rows[0])
	}
}

// ownLibrary is a library of one activity.
const ownLibrary = `{"format": "rimclear-motions", "version": 1, "activities": [{
  "key": "own_reach", "name": "=reach", "category": "everyday", "simultaneous": "yes", "risk": "posterior",
  "zero": {"from": "pelvis", "basis": "assumed"},
  "through": [{"flexion_deg": 100, "adduction_deg": 5, "internal_rotation_deg": 0}], "source": "measured by hand"}]}`

func TestALibraryOfOnesOwnIsListedRequiredAndRefusedByLine(t *testing.T) {
	path := filepath.Join(t.TempDir(), "own.json")
	write := func(text string) {
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	write(ownLibrary)
	if r := calc(t, "", "activities", "--library", path, "--csv"); r.code != fine || !strings.Contains(r.out, "own_reach,'=reach,") {
		t.Errorf("code %d, errors %q", r.code, r.errs)
	}
	d := jsonOf[targetRecord](t, "", "target", "--library", path, "--motion", "own_reach").Designs[0]
	if d.Asked != 1 || d.Motions[0].Basis != "own" || d.Motions[0].Source != "measured by hand" {
		t.Errorf("%+v", d.Motions)
	}
	write(strings.Replace(ownLibrary, `"flexion_deg": 100`, `"flexion_deg": 1000`, 1))
	r := calc(t, "", "target", "--library", path)
	if r.code != misuse || !strings.Contains(r.errs, path+": line 4: activities[0].through[0].flexion_deg: 1000") {
		t.Errorf("code %d, errors\n%s", r.code, r.errs)
	}
}

func TestARecordingIsRequiredByItsHeadings(t *testing.T) {
	path := filepath.Join(t.TempDir(), "chair rise.csv")
	table := "time (s),hip flexion (deg),hip adduction (deg),hip internal rotation (deg)\n0,0,0,0\n0.5,40,2,1\n1,80,4,2\n1.5,130,10,25\n"
	if err := os.WriteFile(path, []byte(table), 0o666); err != nil {
		t.Fatal(err)
	}
	d := jsonOf[targetRecord](t, "", "target", "--motion", "none", "--recording", path).Designs[0]
	if d.Asked != 1 || d.Motions[0].Name != "chair rise" || d.Motions[0].Standing != "short" || d.Motions[0].Converted {
		t.Errorf("%+v", d.Motions)
	}
	if d.Motions[0].Basis != "own" {
		t.Errorf("a recording of the user's is said to rest on %q", d.Motions[0].Basis)
	}
	if err := os.WriteFile(path, []byte("a,b\n1,2\n2,3\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	if r := calc(t, "", "target", "--recording", path); r.code != misuse || !strings.Contains(r.errs, "must name a column of time and of flexion") {
		t.Errorf("code %d, errors\n%s", r.code, r.errs)
	}
}

// A motion that is only asked about, to see where it stops, has no angle to
// reach: saying that none is missing would read as if it had been met.
func TestNothingIsMissingOfAMotionThatIsOnlyAskedAbout(t *testing.T) {
	asked, short := 0, 0
	for _, e := range jsonOf[libraryRecord](t, "", "activities", "--json", "--cup-anteversion-deg", "-45").Entries {
		for _, v := range e.Verdicts {
			switch missing := v.Missing; v.Standing {
			case "asked":
				asked++
				if missing != nil || v.Margin != nil {
					t.Errorf("%s is asked about, yet lacks %g", e.Key, *missing)
				}
			case "short":
				short++
				if missing == nil || *missing <= 0 {
					t.Errorf("%s is short of nothing", e.Key)
				}
			}
		}
	}
	if asked == 0 || short == 0 {
		t.Errorf("%d asked, %d short", asked, short)
	}
}
