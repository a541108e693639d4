package cohort

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"
)

// fuzzed answers what a fuzzer thought of with one worker and with three, and
// holds the results to what must be true of any: one for each line that is not
// blank, well formed, and understood by whatever reads results.
func fuzzed(t *testing.T, f Format, in string) {
	if len(in) > 3000 || strings.Count(in, "lip") > 8 || strings.Count(in, "\n") > 8 {
		return
	}
	s := settings()
	s.Format, s.Carry = f, []string{"note"}
	if f == CSV {
		s.Carry = nil
	}
	var one, three bytes.Buffer
	s.Workers = 1
	tally, err := Run(context.Background(), s, strings.NewReader(in), &one, Report{Fault: func(f Fault) {
		if f.Line < 1 || f.Reason == "" {
			t.Fatalf("%+v", f)
		}
	}})
	s.Workers = 3
	if again, err3 := Run(context.Background(), s, strings.NewReader(in), &three, Report{}); again != tally || one.String() != three.String() || (err == nil) != (err3 == nil) {
		t.Fatalf("1 worker: %+v, %v\n3 workers: %+v, %v", tally, err, again, err3)
	}
	if err != nil {
		return
	}
	lines := strings.Split(strings.TrimSuffix(one.String(), "\n"), "\n")
	if f == CSV {
		if _, err := csv.NewReader(&one).ReadAll(); err != nil {
			t.Fatalf("the results are no CSV: %v\n%s", err, three.String())
		}
		lines = lines[1:]
	} else if tally.Answered == 0 {
		lines = nil
	}
	if len(lines) != tally.Answered {
		t.Fatalf("%d results, %d answered", len(lines), tally.Answered)
	}
	if tally.Answered == 0 {
		return
	}
	for _, line := range lines {
		if f == NDJSON && !json.Valid([]byte(line)) {
			t.Fatalf("the result is no JSON: %s", line)
		}
		if _, _, ok := front([]byte(line), f); !ok {
			t.Fatalf("the result does not begin as one: %s", line)
		}
	}
	sum, err := Summarise(bytes.NewReader(three.Bytes()))
	if err != nil || sum.Answered+sum.Faults != tally.Answered || sum.Faults != tally.Faults {
		t.Fatalf("%v: summary %+v of %+v\n%s", err, sum, tally, three.String())
	}
}

func FuzzCohortCSV(f *testing.F) {
	f.Add(oneHeader + "a,32,12,40\nb,\"3\"\"2\",12,40\n,,,\n\nx,1e2,12,40")
	f.Add("\xef\xbb\xbfid;side;cup_inclination_deg\r\n\"ä;b\";left;40,5\r\n=1;RIGHT;1.234,5\r\n")
	f.Add("sep=\t\nid\thead_diameter_mm\n1\t32\n")
	f.Add("id,lip_height_deg,lip_plateau_deg,lip_ramp_deg,lip_centre_deg\nl,12,60,20,-100\n")
	f.Add("bearing,head_diameter_mm,cup_definition,cup_inclination_deg,cup_anteversion_deg,outer_cup_mm\nresurfacing,48,operative,40,10,54\n")
	f.Add("taper_start_diameter_mm,taper_end_diameter_mm,taper_end_mm,neck_diameter_mm,chamfer_width_mm,posture_plane\n11,14,30,0,1,standing\n")
	f.Fuzz(func(t *testing.T, in string) { fuzzed(t, CSV, in) })
}

func FuzzCohortNDJSON(f *testing.F) {
	f.Add(`{"id":"a","head_diameter_mm":32,"note":"x\u00e4\"y","side":"left"}` + "\n" + `{}` + "\n\n" + `{"side":null}`)
	f.Add(`{"format":"rimclear-case","version":1,"designs":[{"head_diameter_mm":36}]}` + "\r\n")
	f.Add(` { "cup_definition" : "anatomic" , "cup_inclination_deg" : 4.5e1, "cup_anteversion_deg":-0 } ` + "\n[]\n{\"a\":")
	f.Add(`{"lip_height_deg":9,"lip_plateau_deg":50,"lip_ramp_deg":10,"A.neck_diameter_mm":12}`)
	f.Fuzz(func(t *testing.T, in string) { fuzzed(t, NDJSON, in) })
}

// FuzzCohortResults reads what may be no results, and the front of a result.
func FuzzCohortResults(f *testing.F) {
	out, _, _ := run(f, settings(), oneHeader+"a,32,12,40\nb,x,12,40\n")
	f.Add(out)
	f.Add(strings.SplitAfter(out, "\n")[0] + "2\n")
	s := settings()
	s.Format = NDJSON
	out, _, _ = run(f, s, `{"id":"a"}`+"\n{")
	f.Add(out)
	f.Add(strings.SplitAfter(out, "\n")[0] + "{\"line\":2}\n")
	f.Fuzz(func(t *testing.T, in string) {
		sum, err := Summarise(strings.NewReader(in))
		if err == nil && sum.Answered+sum.Faults > strings.Count(in, "\n")+1 {
			t.Fatalf("%+v of %q", sum, in)
		}
		for _, format := range []Format{CSV, NDJSON} {
			s := settings()
			s.Format = format
			if w, err := survey(strings.NewReader(in), &s); err == nil && (w.bytes > int64(len(in)) || w.rows > strings.Count(in, "\n")) {
				t.Fatalf("%+v of %q", w, in)
			}
		}
	})
}
