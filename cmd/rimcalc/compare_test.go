package main

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

func TestDesignsStandSideBySideWithTheirDifferencesFromTheBase(t *testing.T) {
	args := []string{"compare", "--sample", "stemmed-and-resurfacing", "--no-share"}
	a := jsonOf[comparisonRecord](t, "", args...)
	b := jsonOf[comparisonRecord](t, "", append(args, "--base", "B")...)
	if a.Base != "A" || b.Base != "B" || len(a.Rows) < 30 || len(a.Rows) != len(b.Rows) {
		t.Fatalf("bases %s, %s, %d rows", a.Base, b.Base, len(a.Rows))
	}
	if a.Designs[0].Differs != "" || !strings.Contains(a.Designs[1].Differs, "loses") || b.Designs[1].Differs != "" || b.Designs[0].Differs == "" {
		t.Errorf("in words: %+v and %+v", a.Designs, b.Designs)
	}
	counted := 0
	for i, row := range a.Rows {
		if len(row.Values) != 2 || row.Values[0].Design != "A" || row.Values[0].Text == "" {
			t.Fatalf("row %+v", row)
		}
		other := b.Rows[i]
		if row.Key != other.Key || (row.Values[1].Difference == nil) != (other.Values[0].Difference == nil) {
			t.Errorf("rows %+v and %+v", row, other)
			continue
		}
		if d := row.Values[1].Difference; d != nil {
			counted++
			if math.Abs(*d+*other.Values[0].Difference) > 1e-9 || *row.Values[0].Difference != 0 {
				t.Errorf("%s differs by %g one way and %g the other", row.Key, *d, *other.Values[0].Difference)
			}
		}
		if row.Part == "motions" && row.Values[0].State == "" {
			t.Errorf("%s has no standing", row.Key)
		}
	}
	if counted < 20 {
		t.Errorf("only %d differences", counted)
	}
}

func TestComparedRowsAreTheSameAsCSVAndHaveNoFormula(t *testing.T) {
	text := strings.Replace(demoCase(), `"name": "Stemmed 32 mm"`, `"name": "=1+1"`, 1)
	rows := rowsOf(t, calc(t, text, "compare", "--case", "-", "--no-share", "--csv"))
	a := jsonOf[comparisonRecord](t, text, "compare", "--case", "-", "--no-share")
	if len(rows) != 2*len(a.Rows) {
		t.Fatalf("%d rows of CSV, %d of JSON", len(rows), len(a.Rows))
	}
	for i, row := range rows {
		want := a.Rows[i/2].Values[i%2]
		if got, err := strconv.ParseFloat(row["value"], 64); (want.Value == nil) != (row["value"] == "") || want.Value != nil && (err != nil || got != *want.Value) {
			t.Errorf("%s %s: CSV %q, JSON %v", row["quantity"], row["design"], row["value"], want.Value)
		}
		if row["design"] == "A" && row["design_name"] != "'=1+1" {
			t.Errorf("name %q", row["design_name"])
		}
	}
}

// A resurfacing that stops short of 90° flexion cannot turn there; a dash alone
// would look as if it had not been asked.
func TestALimitThatIsNotReachedIsSaidInTheComparison(t *testing.T) {
	a := jsonOf[comparisonRecord](t, "", "compare", "--sample", "stemmed-and-resurfacing", "--no-share")
	said := 0
	for _, row := range a.Rows {
		for _, v := range row.Values {
			if row.Part == "limits" && v.State == "not_reached" {
				said++
				if v.Text != "not reached" {
					t.Errorf("%s of %s reads %q", row.Name, v.Design, v.Text)
				}
			}
		}
	}
	if said == 0 {
		t.Error("every limit of the resurfacing is reached: the test looks at nothing")
	}
}

// The window and the terminal say the same of a difference: 3.8° of turning in
// is less than the hand's own scatter moves that limit.
func TestADifferenceWithinPlacementErrorIsCalledSo(t *testing.T) {
	a := jsonOf[comparisonRecord](t, "", "compare", "--sample", "stiff-spine", "--no-share")
	if got := a.Designs[1].Differs; !strings.Contains(got, "within placement error") {
		t.Errorf("B differs: %q", got)
	}
	sure := jsonOf[comparisonRecord](t, "", "compare", "--sample", "stiff-spine", "--no-share",
		"--scatter-inclination-deg", "0.1", "--scatter-anteversion-deg", "0.1", "--scatter-stem-deg", "0.1")
	if got := sure.Designs[1].Differs; strings.Contains(got, "within placement error") {
		t.Errorf("with a scatter of 0.1° B differs: %q", got)
	}
}

func TestTheComparisonTextSaysVerdictsDifferencesAndSources(t *testing.T) {
	r := calc(t, "", "compare", "--motion", "low_chair", "--seed", "3")
	for _, want := range []string{"Serves the one motion required", "Does not serve the one motion required", "short (−", "± ", "Roach and Miles", "assumed", "ISO 21535, from memory", "not a medical device"} {
		if r.code != fine || !strings.Contains(r.out, want) {
			t.Errorf("code %d, no %q in\n%s", r.code, want, r.out)
		}
	}
	if again := calc(t, "", "compare", "--motion", "low_chair", "--seed", "3", "--workers", "1"); again != r {
		t.Error("another number of cores gives another answer")
	}
}
