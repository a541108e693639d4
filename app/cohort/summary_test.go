package cohort

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"rimclear/app/present"
)

func TestASummaryCountsEveryResultOnce(t *testing.T) {
	for _, f := range []Format{CSV, NDJSON} {
		s := settings()
		s.Format, s.Base.Count, s.Criteria = f, 2, "ordinary"
		s.Motions = []string{"low_chair"}
		s.Base.Designs[1].Rim.HeadDiameter = 40
		text := spoilt(400, 23)
		out, tally, _ := run(t, Settings{Base: s.Base, Workers: 1, Criteria: s.Criteria, Motions: s.Motions}, text)
		list := rows(t, out)
		if f == NDJSON {
			text = objects(sample(400, false)) // the same but for the faults
			out, tally, _ = run(t, s, text)
		}
		sum, err := Summarise(strings.NewReader(out))
		if err != nil {
			t.Fatal(err)
		}
		if sum.Answered+sum.Faults != tally.Answered || sum.Faults != tally.Faults || len(sum.Designs) != 2 {
			t.Fatalf("%d answered, %d at fault, want %+v", sum.Answered, sum.Faults, tally)
		}
		if f == NDJSON {
			continue
		}
		if sum.Fields["head_diameter_mm"] != tally.Faults {
			t.Errorf("fields at fault %v", sum.Fields)
		}
		for _, d := range sum.Designs {
			compareSpreads(t, d, list)
			compareShares(t, d, list)
		}
	}
}

// compareSpreads compares quantiles with those of the sorted angles.
func compareSpreads(t *testing.T, d DesignSummary, list []map[string]string) {
	t.Helper()
	for i := range d.Limits {
		spread := &d.Limits[i]
		var all []float64
		for _, r := range list {
			if r["status"] != answered {
				continue
			}
			switch r[d.Letter+".status_"+spread.Key] {
			case "limit":
				x, _ := strconv.ParseFloat(r[d.Letter+".limit_"+spread.Key+"_deg"], 64)
				all = append(all, x)
			case "none":
				all = append(all, math.Inf(1))
			default:
				all = append(all, math.Inf(-1))
			}
		}
		slices.Sort(all)
		if spread.Cases() != len(all) {
			t.Errorf("%s: %d cases, want %d", spread.Key, spread.Cases(), len(all))
		}
		for _, share := range []float64{0, 0.01, 0.25, 0.5, 0.75, 0.95, 1} {
			want := all[max(0, int(math.Ceil(share*float64(len(all))-1e-9))-1)]
			got := spread.Quantile(share)
			if math.IsInf(want, 0) && got != want || !math.IsInf(want, 0) && math.Abs(got-want) > 0.00501 {
				t.Errorf("%s: %.0f %% of the cases below %.4f, want %.4f", spread.Key, 100*share, got, want)
			}
		}
	}
}

func compareShares(t *testing.T, d DesignSummary, list []map[string]string) {
	t.Helper()
	serves, least := 0, map[string]int{}
	for _, r := range list {
		if r[d.Letter+".serves"] == "yes" {
			serves++
		}
		if key := r[d.Letter+".least_motion"]; key != "" {
			least[key]++
		}
	}
	if got := d.Serves.Cases() - d.Serves.Count[2]; got != serves {
		t.Errorf("%d served, want %d", got, serves)
	}
	for key, n := range least {
		if d.Least[key] != n {
			t.Errorf("%s has the least margin in %d cases, want %d", key, d.Least[key], n)
		}
	}
	if len(d.Criteria) != 5 {
		t.Errorf("%d requirements, want 5", len(d.Criteria))
	}
	for _, c := range d.Criteria {
		short := 0
		for _, r := range list {
			if r[d.Letter+".verdict_"+c.Key] == "short" {
				short++
			}
		}
		if c.Count[2] != short {
			t.Errorf("%s: %d short, want %d", c.Key, c.Count[2], short)
		}
	}
}

func TestQuantilesAreTrueToHalfAHundredth(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 52))
	var s Spread
	var all []float64
	for range 5000 {
		x := 60 + 30*r.NormFloat64()
		s.angles.add(x)
		s.Count[limited]++
		all = append(all, x)
	}
	slices.Sort(all)
	for i := range 101 {
		want := all[max(0, int(math.Ceil(float64(i)/100*5000-1e-9))-1)]
		if got := s.Quantile(float64(i) / 100); math.Abs(got-want) > 0.0050001 {
			t.Errorf("%d %% below %.5f, want %.5f", i, got, want)
		}
	}
}

func TestWhatIsNoResultIsRefused(t *testing.T) {
	good, _, _ := run(t, settings(), oneHeader+"a,32,12,40\nb,x,12,40\n")
	lines := strings.SplitAfter(good, "\n")
	for _, tt := range []struct{ name, in, want string }{
		{"empty", "", "empty"},
		{"a cohort", oneHeader + "a,32,12,40\n", "no result"},
		{"torn", good[:len(good)-60], "line 3"},
		{"other words", lines[0] + strings.Replace(lines[1], "limit", "ended", 1), "ended"},
		{"other status", lines[0] + strings.Replace(lines[1], "answered", "perhaps", 1), "no result"},
		{"no number", lines[0] + strings.Replace(lines[1], "135.95137,1", "135.95137,x", 1), "x"},
		{"ndjson", "{\"a\":1}\n", "no result"},
	} {
		if s, err := Summarise(strings.NewReader(tt.in)); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %+v, %v, want %q", tt.name, s, err, tt.want)
		}
	}
}

func TestEveryNameOfASummaryHasWords(t *testing.T) {
	s := settings()
	s.Criteria, s.Motions = "severe", []string{"low_chair"}
	out, _, _ := run(t, s, oneHeader+"a,32,12,40\n")
	sum, err := Summarise(strings.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	w := present.English()
	names := map[string]bool{}
	for _, l := range sum.Designs[0].Limits {
		names[LimitName(w, l.Key)] = true
	}
	for _, m := range sum.Designs[0].Margins {
		names[RequiredName(w, m.Key)] = true
	}
	if len(names) != len(sum.Designs[0].Limits)+len(sum.Designs[0].Margins) {
		t.Errorf("names are not told apart: %v", names)
	}
	for name := range names {
		if strings.ContainsAny(name, "_[]") {
			t.Errorf("no words but a key: %q", name)
		}
	}
	if c := sum.StandingsChart(w); len(c.Rows) != 6 || c.Rows[0].Bars[0][0]+c.Rows[0].Bars[0][1]+c.Rows[0].Bars[0][2] != 1 {
		t.Errorf("rows of the chart %+v", c.Rows)
	}
	if c := sum.LimitsChart(w); len(c.Rows) != 19 || c.Rows[1].End != 90 {
		t.Errorf("rows of the chart %+v", c.Rows)
	}
}
