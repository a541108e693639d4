package report

import (
	"bytes"
	"context"
	"testing"

	"rimclear/app/casefile"
	"rimclear/app/session"
	"rimclear/assets"
	"rimclear/kinematics"
)

// sample is the demo with one design, with both, or with four: a lipped liner
// and a dual mobility bearing beside them.
func sample(t testing.TB, designs int) Question {
	t.Helper()
	f, err := casefile.Decode(assets.Demo().Data)
	if err != nil {
		t.Fatal(err)
	}
	c := f.Case
	catalogue := map[string]int{"lipped_20": 2, "dual_mobility_22": 3}
	for _, b := range bearings(t) {
		if i, wanted := catalogue[b.Key]; wanted {
			c.Designs[i] = c.Designs[0]
			c.Count = 4
			c = b.Apply(c, i)
			c.Designs[i].Name = b.Key
		}
	}
	c.Count = designs
	return question(t, c)
}

func bearings(t testing.TB) (all []kinematics.Bearing) {
	t.Helper()
	for _, data := range assets.Bearings() {
		list, err := kinematics.ReadCatalogue(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, list...)
	}
	return all
}

// question asks for a report on a case.
func question(t testing.TB, c kinematics.Case) Question {
	t.Helper()
	data, err := casefile.Encode(casefile.File{Case: c})
	if err != nil {
		t.Fatal(err)
	}
	list, lost := session.NewMotions().Required(&c)
	return Question{Case: c, Required: list, Lost: lost, Fingerprint: Fingerprint(data), Program: "Rimclear 0.0", Date: "2026-11-25"}
}

// known are facts that were worked out, by their count of designs: tests only
// read them.
var known = map[int]*Facts{}

func worked(t testing.TB, designs int) *Facts {
	t.Helper()
	if known[designs] == nil {
		f, err := Work(context.Background(), sample(t, designs))
		if err != nil {
			t.Fatal(err)
		}
		known[designs] = f
	}
	return known[designs]
}
