package main

import (
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"

	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

// rowsOf reads a CSV answer as rows by column.
func rowsOf(t *testing.T, r result) []map[string]string {
	t.Helper()
	all, err := csv.NewReader(strings.NewReader(r.out)).ReadAll()
	if err != nil || r.code != fine || len(all) == 0 {
		t.Fatalf("code %d, errors %q, %v", r.code, r.errs, err)
	}
	var rows []map[string]string
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = cells[i]
		}
		if !strings.Contains(row["caution"], "not a medical device") {
			t.Errorf("row %v without the caution", cells)
		}
		rows = append(rows, row)
	}
	return rows
}

func TestTheTargetTextIsGolden(t *testing.T) {
	r := calc(t, "", "target", "--map", "--motion", "low_chair", "--criteria", "severe")
	if r.code != fine || r.errs != "" {
		t.Fatalf("code %d, errors %q", r.code, r.errs)
	}
	sameAsGolden(t, "target.txt", r.out)
}

func TestTargetIsTheLibrarysAnswer(t *testing.T) {
	got := jsonOf[targetRecord](t, demoCase(), "target", "--case", "-", "--criteria", "severe", "--motion", "none")
	set, _ := session.BuiltIn().Set("severe")
	s, err := sampleCase(sampleNames()[0])
	if err != nil || len(got.Designs) != 2 {
		t.Fatal(err, len(got.Designs))
	}
	for i, d := range got.Designs {
		c := s.Case
		j := kinematics.NewJoint(c.Hip, c.Designs[i])
		want, err := kinematics.FindTarget(t.Context(), kinematics.Search{Hip: c.Hip, Design: c.Designs[i], Required: set.Requirements(), Bounds: c.Goal.Bounds(c.Hip, c.Designs[i])})
		if err != nil {
			t.Fatal(err)
		}
		if want.Round != (d.Demanded != nil) || want.Round && math.Abs(*d.Demanded-want.Demanded.Degrees()) > 1e-5 {
			t.Errorf("%s: demanded %v, want %v", d.Design, d.Demanded, want.Demanded.Degrees())
		}
		if math.Abs(*d.Constrained.Margin-want.Constrained.Margin.Degrees()) > 1e-5 || len(d.Constrained.Binding) == 0 || len(d.Zones) != len(kinematics.Zones) {
			t.Errorf("%s: constrained %+v", d.Design, d.Constrained)
		}
		v := j.Judge(set.Requirements(), c.Goal.Closeness)
		if d.Serves != v.Serves() || d.Met+d.Close+d.Short != d.Asked || d.Asked != 4 || d.Short != v.Count[kinematics.Short] {
			t.Errorf("%s: serves %v, %d met, %d close, %d short of %d", d.Design, d.Serves, d.Met, d.Close, d.Short, d.Asked)
		}
		for k, m := range d.Motions {
			if m.Source == "" || math.Abs(*m.Margin-v.Outcomes[k].Least.Margin.Degrees()) > 1e-5 || (m.Standing == "short") != (m.StoppedAt != nil) {
				t.Errorf("%s: motion %+v", d.Design, m)
			}
		}
	}
}

func TestWhereNoCupServesItIsSaidWhy(t *testing.T) {
	r := calc(t, "", "target", "--criteria", "strict", "--motion", "none", "--head-diameter-mm", "22", "--neck-diameter-mm", "13")
	if r.code != fine || !strings.Contains(r.out, "No cup position serves, because these motions need a total swing of") {
		t.Errorf("code %d, out\n%s", r.code, r.out)
	}
	if r := calc(t, "", "target", "--motion", "none"); r.code != fine || !strings.Contains(r.out, "No motion is required") {
		t.Errorf("nothing asked: code %d, out\n%s", r.code, r.out)
	}
}

func TestTheMapOfTwoValuesIsWhatEachPlaceAnswersForItself(t *testing.T) {
	for _, xy := range [][2]string{
		{"cup_inclination_deg:30:50:3", "cup_anteversion_deg:5:25:3"},
		{"neck-diameter-mm:10:14:3", "head-diameter-mm:28:36:3"},
		{"tilt_standing_deg:-10:10:3", "stem_anteversion_deg:0:30:3"},
		{"cup_arc_deg:160:180:2", "tilt_relaxed_sitting_deg:-30:0:2"},
	} {
		motions := []string{"--motion", "stoop", "--motion", "pivot_standing", "--motion", "sit_at_ease"}
		rows := rowsOf(t, calc(t, "", append([]string{"target", "--x", xy[0], "--y", xy[1], "--csv"}, motions...)...))
		for _, row := range rows {
			flag := func(axis string) string { return "--" + flagName(row[axis+"_key"]) + "=" + row[axis] }
			d := jsonOf[targetRecord](t, "", append([]string{"target", flag("x"), flag("y")}, motions...)...).Designs[0]
			got, err := strconv.ParseFloat(row["margin_deg"], 64)
			if err != nil || math.Abs(got-*d.Least) > 1e-3 {
				t.Errorf("at %s %s, %s %s the map has %s, the case itself %g", row["x_key"], row["x"], row["y_key"], row["y"], row["margin_deg"], *d.Least)
			}
		}
		if len(rows) < 4 {
			t.Errorf("%v: %d rows", xy, len(rows))
		}
	}
}

func TestAMapIsTheSameOnAnyNumberOfCoresAndSaysWhereThereIsNoBearing(t *testing.T) {
	args := []string{"target", "--x", "neck_diameter_mm:8:40:9", "--y", "head_diameter_mm:22:36:8", "--json"}
	one := calc(t, "", append(args, "--workers", "1")...)
	if other := calc(t, "", append(args, "--workers", "3")...); other != one || one.code != fine {
		t.Errorf("code %d; workers change the answer", one.code)
	}
	m := jsonOf[targetRecord](t, "", args[:len(args)-1]...).Designs[0].Map
	if m.Margin[0][8] != nil || m.Margin[7][0] == nil || m.Motion[0][8] != "" || len(m.X.Values) != 9 || len(m.Y.Values) != 8 {
		t.Errorf("map %+v", m)
	}
}

// The neck of the sample's resurfacing is an oval: its diameter decides nothing.
func TestAValueWithoutEffectIsSaidAndMakesNoMap(t *testing.T) {
	args := []string{"target", "--sample", "stemmed-and-resurfacing", "--x", "neck_diameter_mm:9:40:4", "--y", "head_diameter_mm:44:56:4"}
	if r := calc(t, "", args...); r.code != misuse || !strings.Contains(r.errs, "--x neck_diameter_mm: has no effect in design B, where oval_width_mm") {
		t.Errorf("code %d, %q", r.code, r.errs)
	}
	if r := calc(t, "", append(args, "--design", "A")...); r.code != fine {
		t.Errorf("of A alone: code %d, %q", r.code, r.errs)
	}
	b := []string{"--sample", "stemmed-and-resurfacing", "--design", "B"}
	if r := calc(t, "", append([]string{"limits", "--neck-diameter-mm", "20"}, b...)...); !strings.Contains(r.out, "Neck diameter 20 mm has no effect here") {
		t.Errorf("a neck diameter beside an oval is not remarked on in\n%s", r.out)
	}
	if r := calc(t, "", append([]string{"target"}, b...)...); strings.Count(r.out, "the neck is no cylinder") != 2 {
		t.Errorf("the widest neck of an oval is not called moot in\n%s", r.out)
	}
}

func TestMapTextNeverCallsContactFree(t *testing.T) {
	m := kinematics.Map{Grid: kinematics.Grid{Across: kinematics.Scale{Count: 5}, Up: kinematics.Scale{Count: 1}},
		Margin: []unit.Angle{-0.2 * unit.Degree, 0, 0.9 * unit.Degree, 7.99 * unit.Degree, kinematics.NoBearing}, Motion: make([]int16, 5)}
	for i, want := range []string{"−1", "−0", "0", "7", "·"} {
		if got := marginText(&m, i, 0); got != want {
			t.Errorf("margin %v reads %s, want %s", m.Margin[i], got, want)
		}
	}
}

func TestTheBestAxisOfALeftHipIsTheMirrorImage(t *testing.T) {
	right := jsonOf[targetRecord](t, "", "target").Designs[0].Best
	left := jsonOf[targetRecord](t, "", "target", "--side", "left").Designs[0].Best
	if right.Axis[0] != left.Axis[0] || right.Axis[2] != -left.Axis[2] || *right.Margin != *left.Margin {
		t.Errorf("right %+v, left %+v", right, left)
	}
}
