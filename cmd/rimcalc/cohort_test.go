package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

const smallCohort = "id,head_diameter_mm,cup_inclination_deg,note\na,32,40,=1+1\nb,wide,40,\nc,36,45,x\n"

func TestACohortIsAnsweredAndItsFaultsAreTold(t *testing.T) {
	path := filepath.Join(t.TempDir(), "cohort.csv")
	if err := os.WriteFile(path, []byte(smallCohort), 0o644); err != nil {
		t.Fatal(err)
	}
	r := calc(t, "", "cohort", "--in", path, "--carry", "note", "--criteria", "ordinary")
	got := table(t, r.out)
	if r.code != failed || len(got) != 3 || got[1]["status"] != "error" || got[0]["note"] != "'=1+1" || got[0]["serves"] == "" {
		t.Errorf("code %d, results\n%s", r.code, r.out)
	}
	for _, want := range []string{path + `: line 3 (id b): head_diameter_mm "wide": must be a number`, "1 of 3 lines could not"} {
		if !strings.Contains(r.errs, want) {
			t.Errorf("errors\n%s\nwant %q", r.errs, want)
		}
	}
	limits := table(t, calc(t, "", "limits", "--csv", "--head-diameter-mm", "36", "--cup-inclination-deg", "45").out)
	for _, l := range limits {
		if got[2]["limit_"+l["question"]+"_deg"] != l["limit_deg"] {
			t.Errorf("%s is %s, and %s as a single case", l["question"], got[2]["limit_"+l["question"]+"_deg"], l["limit_deg"])
		}
	}
	for name, again := range map[string]result{
		"standard input": calc(t, smallCohort, "cohort", "--carry", "note", "--criteria", "ordinary"),
		"an argument":    calc(t, "", "cohort", path, "--carry", "note", "--criteria", "ordinary", "--workers", "1"),
	} {
		if again.out != r.out || again.code != r.code {
			t.Errorf("by %s: code %d\n%s", name, again.code, again.errs)
		}
	}
	if r := calc(t, smallCohort, "cohort", "--carry", "note", "--stop-at-fault"); r.code != failed || strings.Count(r.out, "\n") != 2 || !strings.Contains(r.errs, "stopped") {
		t.Errorf("stopping: code %d\n%s%s", r.code, r.out, r.errs)
	}
}

func TestManyFaultsAreNotAllTold(t *testing.T) {
	r := calc(t, "side\n"+strings.Repeat("up\n", 100), "cohort")
	if lines := strings.Count(r.errs, "\n"); lines != mostTold+2 || !strings.Contains(r.errs, "100 of 100 lines") {
		t.Errorf("%d lines of errors\n%s", lines, r.errs)
	}
}

func TestACohortThatCannotBeIsMisuse(t *testing.T) {
	for _, tt := range []struct{ args, in, want string }{
		{"cohort --in /nowhere/at/all", "", "/nowhere/at/all"},
		{"cohort a b", "", `"b": only one file`},
		{"cohort --shard 3/2 -", "", `--shard "3/2"`},
		{"cohort --shard x -", "", `--shard "x"`},
		{"cohort --format xml -", "", `--format "xml"`},
		{"cohort --criteria nonsense -", "id\n", "nonsense"},
		{"cohort --designs 5 -", "", "--designs 5"},
		{"cohort --workers 999 -", "", "--workers"},
		{"cohort --head-diameter-mm 500 -", "", "--head-diameter-mm"},
		{"cohort -", "id,hed_diameter_mm\n", "head_diameter_mm?"},
		{"cohort -", "", "empty"},
		{"cohort --merge", "", "no shards"},
		{"summary -", "id\n", "no result"},
		{"summary a b", "", `"b": only one file`},
		{"summary --json --csv -", "", "exclude"},
	} {
		r := calc(t, tt.in, strings.Fields(tt.args)...)
		if r.code != misuse || r.out != "" || !strings.Contains(r.errs, tt.want) {
			t.Errorf("rimcalc %s: code %d, out %q, errors %q, want %q", tt.args, r.code, r.out, r.errs, tt.want)
		}
	}
}

func TestHelpOfCohortsHasExamplesAndTheCaution(t *testing.T) {
	for _, command := range []string{"cohort", "summary"} {
		r := calc(t, "", command, "--help")
		for _, want := range []string{"rimcalc " + command, "Exit codes: 0", "not a medical device"} {
			if r.code != fine || !strings.Contains(r.out, want) {
				t.Errorf("rimcalc %s --help: code %d, no %q", command, r.code, want)
			}
		}
	}
	if r := calc(t, "", "cohort", "--columns"); !strings.Contains(r.out, "head_diameter_mm") || !strings.Contains(r.out, "from 18 mm to 70 mm; 32 mm if left out") {
		t.Errorf("columns\n%s", r.out)
	}
}

// wideCohort writes a cohort of so many lines, one in a hundred at fault.
func wideCohort(t testing.TB, path string, count int) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	w := bufio.NewWriter(f)
	r := rand.New(rand.NewPCG(61, 62))
	fmt.Fprintln(w, "id,side,head_diameter_mm,neck_diameter_mm,cup_inclination_deg,cup_anteversion_deg,stem_anteversion_deg,neck_shaft_deg,tilt_standing_deg")
	for i := range count {
		head := "32"
		switch i % 200 {
		case 50:
			head = "wide"
		case 150:
			head = "32,5"
		}
		fmt.Fprintf(w, "case-%07d,%s,%s,%.1f,%.1f,%.1f,%.1f,%.1f,%.1f\n", i, []string{"right", "left"}[i%2], head,
			11+3*r.Float64(), 42+7*r.NormFloat64()/2, 16+8*r.NormFloat64()/2, 14+7*r.NormFloat64()/2, 125+15*r.Float64(), 6*r.NormFloat64())
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
}

func TestShardsByGNUParallelGiveWhatOneRunGives(t *testing.T) {
	parallel, err := exec.LookPath("parallel")
	if err != nil {
		t.Skip("GNU parallel is not installed")
	}
	if version, _ := exec.Command(parallel, "--version").Output(); !strings.Contains(string(version), "GNU parallel") {
		t.Skip("parallel is another program of that name")
	}
	folder := t.TempDir()
	wideCohort(t, filepath.Join(folder, "cohort.csv"), 500)
	line := "seq 4 | parallel rimcalc cohort --in cohort.csv --workers 1 --shard {}/4 --out part-{} ; rimcalc cohort --merge part-*"
	cmd := exec.Command("sh", "-c", line)
	cmd.Dir, cmd.Env = folder, append(program(t), "HOME="+folder)
	want := succeeds(t, process(t, "cohort", "--in", filepath.Join(folder, "cohort.csv")))
	if got := succeeds(t, cmd); got != want {
		t.Errorf("%d bytes, want %d", len(got), len(want))
	}
}

func TestASummaryIsWrittenInThreeWaysAndDrawn(t *testing.T) {
	results := calc(t, smallCohort, "cohort", "--carry", "note", "--criteria", "ordinary").out
	folder := t.TempDir()
	limits, served := filepath.Join(folder, "limits.svg"), filepath.Join(folder, "served.png")
	text := calc(t, results, "summary", "--limits", limits, "--served", served, "-")
	for _, want := range []string{"2 cases answered, 1 lines at fault", "at fault: head_diameter_mm 1", "Flexion", "everything required", "not a medical device"} {
		if text.code != fine || !strings.Contains(text.out, want) {
			t.Errorf("code %d, no %q in\n%s%s", text.code, want, text.out, text.errs)
		}
	}
	for path, front := range map[string]string{limits: "<", served: "\x89PNG"} {
		if data, err := os.ReadFile(path); err != nil || !strings.HasPrefix(string(data), front) {
			t.Errorf("%s: %v", path, err)
		}
	}
	var record summaryRecord
	if err := json.Unmarshal([]byte(calc(t, results, "summary", "--json").out), &record); err != nil || record.Answered != 2 || record.Faults != 1 || len(record.Designs) != 1 {
		t.Errorf("%v, %+v", err, record)
	}
	rows := table(t, calc(t, results, "summary", "--csv").out)
	if rows[0]["cases"] != "2" || rows[2]["key"] != "flexion" || rows[2]["least_deg"] == "" || rows[len(rows)-1]["of"] != "required" {
		t.Errorf("rows %v", rows)
	}
	if r := calc(t, calc(t, smallCohort, "cohort", "--carry", "note").out, "summary", "--served", served); r.code != misuse || !strings.Contains(r.errs, "held to nothing") {
		t.Errorf("nothing required: code %d, %s", r.code, r.errs)
	}
	if r := calc(t, results, "summary", "--limits", "limits.gif"); r.code != misuse || !strings.Contains(r.errs, ".svg") {
		t.Errorf("a name without a format: code %d, %s", r.code, r.errs)
	}
}
