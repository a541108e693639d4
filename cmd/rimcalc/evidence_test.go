package main

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"rimclear/app/evidence"
)

func TestEvidenceIsWrittenThreeWaysAndHolds(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and what it asks is raced elsewhere")
	}
	text, page, record := calc(t, "", "evidence"), calc(t, "", "evidence", "--markdown"), calc(t, "", "evidence", "--json")
	for _, r := range []result{text, page, record} {
		if r.code != fine || r.errs != "" {
			t.Fatalf("code %d, errors\n%s", r.code, r.errs)
		}
	}
	if !strings.HasPrefix(page.out, "# Evidence\n") || !strings.Contains(text.out, "0 do not hold") {
		t.Errorf("page begins\n%.80s\ntext is\n%s", page.out, text.out)
	}
	var e evidenceRecord
	if err := json.Unmarshal([]byte(record.out), &e); err != nil {
		t.Fatal(err)
	}
	if e.Format != "rimclear-evidence" || e.Failed != 0 || len(e.Relations) < 25 || len(e.Golden) < 15 || len(e.Doubts) < 20 {
		t.Errorf("format %q, %d failed, %d relations, %d categories, %d doubts", e.Format, e.Failed, len(e.Relations), len(e.Golden), len(e.Doubts))
	}
}

func TestEvidenceThatDoesNotHoldIsAnError(t *testing.T) {
	off := evidence.Report{Relations: []evidence.Relation{{Key: "relation_jump", Values: []evidence.Value{
		{What: "a", Published: 1, Computed: 2}, {What: "b", Published: 1, Computed: math.NaN()}}}}}
	for _, form := range [][2]bool{{false, false}, {true, false}, {false, true}} {
		var out, errs bytes.Buffer
		x := &terminal{out: &out, errs: &errs}
		if code := x.code(x.writeEvidence(off, form[0], form[1])); code != failed || !strings.Contains(errs.String(), "2 values") {
			t.Errorf("code %d, errors %q", code, errs.String())
		}
		if out.Len() == 0 {
			t.Error("nothing is written")
		}
	}
	if r := calc(t, "", "evidence", "--json", "--markdown"); r.code != misuse {
		t.Errorf("code %d for two forms at once", r.code)
	}
}
