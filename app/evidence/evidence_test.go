package evidence

import (
	"math"
	"strings"
	"sync"
	"testing"

	"rimclear/app/present"
)

var gathered = sync.OnceValue(Gather)

func TestEveryPublishedValueIsMet(t *testing.T) {
	r := gathered()
	for _, x := range r.Relations {
		if len(x.Values) == 0 {
			t.Errorf("%s has no values", x.Key)
		}
		for _, v := range x.Values {
			if !v.Holds() {
				t.Errorf("%s, %s: published %v%s, computed %v%s, tolerance %g", x.Key, v.What, v.Published, v.Told, v.Computed, v.ComputedAsText, v.Tolerance)
			}
		}
	}
}

func TestEveryGoldenRowIsMet(t *testing.T) {
	rows := map[string]int{}
	for _, c := range gathered().Golden {
		rows[c.Set] += c.Rows
		if c.Failed > 0 {
			t.Errorf("%s, %s: %d of %d rows are off, by up to %g", c.Set, c.Name, c.Failed, c.Rows, c.Worst)
		}
	}
	if rows["contact"] != 316 || rows["own"] < 40 {
		t.Errorf("rows by set: %v, want 316 and at least 40", rows)
	}
}

func TestAValueThatIsOffDoesNotHold(t *testing.T) {
	for _, v := range []Value{
		{Published: 1, Computed: 1.02, Tolerance: 0.01},
		{Published: 1, Computed: math.NaN(), Tolerance: 10},
		{Published: 1, Computed: 0.9, Bound: AtLeast},
		{Published: 1, Computed: 1.1, Bound: AtMost},
		{Told: "in contact", ComputedAsText: "free"},
	} {
		if v.Holds() {
			t.Errorf("%+v holds", v)
		}
		r := Report{Relations: []Relation{{Key: "relation_jump", Values: []Value{v, {}}}}, Golden: []Category{{Failed: 2}}}
		if r.Failed() != 3 {
			t.Errorf("%d of the report fail, want 3", r.Failed())
		}
		if page := r.Markdown(present.English()); strings.Count(page, "| FAILS |") < 2 {
			t.Errorf("the page does not show the failure of %+v", v)
		}
	}
}

func TestAGoldenRowThatIsOffDoesNotHold(t *testing.T) {
	row := goldenRow{line{map[string]string{
		"head_d": "32", "neck_d": "12", "arc": "180", "wall": "5", "ri": "40", "ra": "15", "fa": "15", "ccd": "135",
		"motion": "flexion", "end": "180", "status": "limit", "limit_deg": "128.71", "tol_deg": "0.01", "contact_intervals": "128.71:180",
	}}, false}
	if off, ok := row.compare(); !ok || off > 0.005 {
		t.Fatalf("the usual hip: off by %g, met %v", off, ok)
	}
	for column, wrong := range map[string]string{
		"status": "none", "limit_deg": "128.8", "contact_intervals": "128.71:170", "neck_d": "13",
	} {
		right := row.Row[column]
		row.Row[column] = wrong
		if _, ok := row.compare(); ok {
			t.Errorf("met with %s %s", column, wrong)
		}
		row.Row[column] = right
	}
}

func TestThePageNamesEverySourceAndEveryDoubt(t *testing.T) {
	r := gathered()
	page := r.Markdown(present.English())
	if strings.Contains(page, "[phrase.") || strings.Contains(page, "[source.") {
		t.Error("a word is missing on the page")
	}
	for _, want := range []string{"Murray", "Widmer", "Yoshimine", "Sariali", "Kluess", "Langston", "from memory", "common practice, no source", "not a medical device"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	kinds := map[Kind]bool{}
	for _, d := range r.Doubts {
		kinds[d.Kind] = true
		if d.Basis.Doubtful() == false && d.Zero.Doubtful() == false {
			t.Errorf("%v is listed and not in doubt", d)
		}
		if d.Kind != OfMobility && d.From(present.English()) == "" {
			t.Errorf("%v has no source", d)
		}
	}
	for _, k := range []Kind{OfActivity, OfCriteria, OfZone, OfScatter, OfLoad, OfTotal, OfMobility} {
		if !kinds[k] {
			t.Errorf("no doubt of kind %s is listed", k.Key())
		}
	}
}

func TestThePageIsTheSameEachTime(t *testing.T) {
	if a, b := gathered().Markdown(present.English()), Gather().Markdown(present.English()); a != b {
		t.Error("two pages of one program differ")
	}
}
