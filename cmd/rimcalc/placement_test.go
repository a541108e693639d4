package main

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

// jsonOf runs the program and reads its JSON.
func jsonOf[T any](t *testing.T, in string, args ...string) T {
	t.Helper()
	var got T
	r := calc(t, in, append(args, "--json")...)
	if err := json.Unmarshal([]byte(r.out), &got); err != nil || r.code != fine {
		t.Fatalf("rimcalc %v: code %d, errors %q, %v", args, r.code, r.errs, err)
	}
	return got
}

// few is a small simulation of placements.
func few(args ...string) []string {
	return append([]string{"placement", "--placements", "512", "--no-best"}, args...)
}

func TestTheSameSeedGivesTheSamePlacementsOnAnyNumberOfCores(t *testing.T) {
	one := calc(t, "", few("--json", "--workers", "1")...)
	for _, n := range []string{"2", "5"} {
		if other := calc(t, "", few("--json", "--workers", n)...); other != one || one.code != fine {
			t.Errorf("%s workers differ from one (code %d)", n, other.code)
		}
	}
	if other := calc(t, "", few("--json", "--seed", "2")...); other.out == one.out {
		t.Error("another seed gives the same")
	}
}

func TestPlacementIsTheLibrarysAnswer(t *testing.T) {
	got := jsonOf[placementRecord](t, "", few("--scatter", "bosker", "--scatter", "tilt_5", "--scatter-stem-deg", "3", "--criteria", "severe", "--motion", "none")...)
	d := got.Designs[0]
	set, _ := session.BuiltIn().Set("severe")
	c := kinematics.Default()
	scatter := kinematics.Scatter{SD: [4]unit.Angle{6.7 * unit.Degree, 8.1 * unit.Degree, 3 * unit.Degree, 5 * unit.Degree}}
	want, err := kinematics.Placement(context.Background(), kinematics.Simulation{Scatter: scatter, Seed: 1, Points: 32, Randomisations: 16,
		Search: kinematics.Search{Hip: c.Hip, Design: c.Designs[0], Required: set.Requirements(), Bounds: c.Goal.Bounds(c.Hip, c.Designs[0])}})
	if err != nil || len(d.Motions) != 4 || math.Abs(*d.Share-want.Share) > 1e-5 || math.Abs(*d.StandardError-want.StandardError) > 1e-5 {
		t.Fatalf("%v, %d motions, share %g, want %g", err, len(d.Motions), *d.Share, want.Share)
	}
	for i, want := range []float64{6.7, 8.1, 3, 5} {
		if math.Abs(*got.Scatter[i].SD-want) > 1e-9 {
			t.Errorf("scatter of %s is %g, want %g", got.Scatter[i].Variable, *got.Scatter[i].SD, want)
		}
	}
	if len(got.Presets) != 2 || got.Presets[0].Source != "Bosker et al. 2007" || got.Presets[1].Basis != "assumed" {
		t.Errorf("sources %+v", got.Presets)
	}
	first := 0.0
	for i, m := range d.Motions {
		first += *m.First
		if i > 0 && *m.First > *d.Motions[i-1].First {
			t.Errorf("%s stands after one that fails first less often", m.Motion)
		}
		if *m.First > *m.Short+1e-9 || m.Source == "" {
			t.Errorf("motion %+v", m)
		}
	}
	if math.Abs(first+*d.Share-1) > 1e-4 {
		t.Errorf("share %g and first failures %g do not make a whole", *d.Share, first)
	}
	if d.Placements != 512 || d.Best != nil || *d.StandardError <= 0 {
		t.Errorf("design %+v", d)
	}
}

func TestTheBestPlacementIsNoWorseThanTheOneGiven(t *testing.T) {
	d := jsonOf[placementRecord](t, "", "placement", "--placements", "512").Designs[0]
	if d.Best == nil || *d.Best.Share < *d.Share {
		t.Errorf("share %g, best %+v", *d.Share, d.Best)
	}
}

func TestPlacementTextHasSourcesMarksAndTheCaution(t *testing.T) {
	r := calc(t, "", few("--scatter", "dorr_stem")...)
	for _, want := range []string{"standard error", "fail first", "from memory", "assumed", "Not a share of successes", "not a medical device", "Seed 1"} {
		if r.code != fine || !strings.Contains(r.out, want) {
			t.Errorf("code %d, no %q in\n%s", r.code, want, r.out)
		}
	}
}

func TestAnInterruptEndsPlacementWithoutAnAnswer(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	var out, errs bytes.Buffer
	code := run(ctx, []string{"rimcalc", "placement"}, strings.NewReader(""), &out, &errs)
	if code != failed || out.Len() > 0 || !strings.Contains(errs.String(), "stopped before it was done") {
		t.Errorf("code %d, out %q, errors %q", code, out.String(), errs.String())
	}
}

func TestProgressTellsRateAndTimeLeftOnlyWhereItIsWatched(t *testing.T) {
	var quiet bytes.Buffer
	tt := &terminal{errs: &quiet}
	p := tt.progress("work", "rows", 10)
	p.of(5, 10)
	p.clear()
	if quiet.Len() > 0 {
		t.Errorf("told %q where nobody watches", quiet.String())
	}
	var watched bytes.Buffer
	p = newProgress(&watched, "work", "rows", 10)
	time.Sleep(120 * time.Millisecond) // it is drawn ten times a second
	p.of(5, 10)
	p.clear()
	for _, want := range []string{"work", "5 of 10", "rows a second", "left"} {
		if !strings.Contains(watched.String(), want) {
			t.Errorf("no %q in %q", want, watched.String())
		}
	}
}
