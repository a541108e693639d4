package present

import (
	"math"
	"strings"
	"testing"

	"rimclear/kinematics"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// comparison sets the usual hip beside the same with another head.
func comparison(t *testing.T, head float64, required []motion.Requirement) []ComparisonPart {
	t.Helper()
	c := kinematics.Default()
	c.Designs[1], c.Count = c.Designs[0], 2
	c = kinematics.ParameterByKey("head_diameter_mm").Set(c, 1, head)
	var list []Compared
	for i := range c.Count {
		list = append(list, Compare(c.Hip, c.Designs[i], required, kinematics.Goal{Closeness: 5 * unit.Degree}))
	}
	return English().Comparison(&c, required, list)
}

func comparedRow(t *testing.T, parts []ComparisonPart, key string) ComparisonRow {
	t.Helper()
	for _, p := range parts {
		for _, r := range p.Rows {
			if r.Key == key {
				return r
			}
		}
	}
	t.Fatalf("no row %s", key)
	return ComparisonRow{}
}

func TestADesignDiffersFromItselfInNothing(t *testing.T) {
	for _, p := range comparison(t, 32, nil) {
		for _, r := range p.Rows {
			if v, text, ok := English().Difference(r, 1, 0); ok && (v != 0 || strings.ContainsAny(text, "+−")) {
				t.Errorf("%s: difference %g, %q", r.Key, v, text)
			}
			if r.Values[0] != r.Values[1] {
				t.Errorf("%s: %+v and %+v", r.Key, r.Values[0], r.Values[1])
			}
		}
	}
}

func TestALargerHeadSwingsFartherAndTheDifferenceSaysSo(t *testing.T) {
	parts := comparison(t, 36, nil)
	r := comparedRow(t, parts, "oscillation_deg")
	v, text, ok := English().Difference(r, 1, 0)
	if !ok || v <= 0 || text[0] != '+' || math.Abs(v-(r.Values[1].Value-r.Values[0].Value)) > 1e-12 {
		t.Errorf("oscillation differs by %g, %q, %v", v, text, ok)
	}
	if _, text, _ := English().Difference(r, 0, 1); !strings.HasPrefix(text, "−") {
		t.Errorf("the other way round it differs by %q", text)
	}
}

func TestADifferenceCountsLimitsUpToTheNativeRangeOnly(t *testing.T) {
	for _, r := range comparison(t, 40, nil)[1].Rows {
		for i, q := range kinematics.Questions {
			if r.Key != "limit_"+q.Key+"_deg" || !kinematics.Questions[i].Native.Known() {
				continue
			}
			for _, v := range r.Values {
				if v.Counts && v.Counted > q.Native.Range.Degrees()+1e-9 {
					t.Errorf("%s counts %g of a native %g", r.Key, v.Counted, q.Native.Range.Degrees())
				}
			}
		}
	}
}

func TestComparedMotionsSayMarginStandingAndSource(t *testing.T) {
	required := []motion.Requirement{{
		Kind: motion.OfCriterion, Key: "internal_at_90", Set: "severe", Source: "a paper", Basis: motion.Quoted, Converted: true,
		Paths: []motion.Path{motion.Criterion{Movement: motion.InternalAt90, Least: motion.Stated{Angle: 20 * unit.Degree}}.Path(0)},
	}}
	r := comparedRow(t, comparison(t, 36, required), "margin_severe_internal_at_90_deg")
	if !strings.Contains(r.Note, "a paper") || r.Values[0].State == "" || !strings.Contains(r.Values[0].Text, "°") {
		t.Errorf("row %+v", r)
	}
	if v, _, ok := English().Difference(r, 1, 0); !ok || v <= 0 {
		t.Errorf("a larger head changes the margin by %g, %v", v, ok)
	}
}

func TestEveryZoneSaysWhetherItHoldsTheCupAndWhereItComesFrom(t *testing.T) {
	c := kinematics.Default()
	inside := 0
	for i, r := range English().ZoneRows(c.Hip, c.Designs[0]) {
		z := kinematics.Zones[i]
		if r.Key != z.Key || r.Inside != z.Holds(c.Hip, c.Designs[0].Cup, c.Designs[0].Stem.Anteversion) ||
			!strings.Contains(r.Note, English().Source(z.Source)) {
			t.Errorf("row %+v", r)
		}
		if r.Inside {
			inside++
		}
	}
	if inside == 0 || inside == len(kinematics.Zones) {
		t.Errorf("%d of %d zones hold a cup at 40 and 15", inside, len(kinematics.Zones))
	}
}

func TestANoteOnAMotionDoesNotRepeatWhatItsSourceSays(t *testing.T) {
	r := motion.Requirement{Basis: motion.Memory, Converted: true, Source: "A book (from memory)"}
	if got := English().RequirementNote(r); got != "A book (from memory)" {
		t.Errorf("note %q", got)
	}
	r.Source = "A book"
	if got := English().RequirementNote(r); got != "A book; from memory" {
		t.Errorf("note %q", got)
	}
}

func TestAMotionStoppedOnTheWayIsNotComparedWithOneThatIsNot(t *testing.T) {
	stopped := func(reached bool) kinematics.Outcome {
		return kinematics.Outcome{Standing: kinematics.Asked, Reached: reached, Limit: kinematics.Limit{Angle: 40 * unit.Degree}}
	}
	w := English()
	a, b := w.comparedMotion(stopped(true)), w.comparedMotion(stopped(false))
	if !a.Counts || !a.Known || b.Counts || b.Known || b.Text == "" {
		t.Errorf("values %+v and %+v", a, b)
	}
}
