package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"github.com/urfave/cli/v3"

	"rimclear/app/evidence"
	"rimclear/app/present"
)

func (t *terminal) evidence() *cli.Command {
	return &cli.Command{
		Name:      "evidence",
		Usage:     "published values beside those computed now, and what is from memory or assumed",
		UsageText: "rimcalc evidence [--json | --markdown]",
		Description: described(
			"Exit code 1 when a value does not hold.",
			"",
			"rimcalc evidence",
			"rimcalc evidence --json > evidence.json",
		),
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "json", Usage: "write JSON"},
			&cli.BoolFlag{Name: "markdown", Usage: "write the evidence page"},
		},
		Action: func(_ context.Context, cmd *cli.Command) error {
			if cmd.Args().Present() {
				return misused("%q is no option of evidence", cmd.Args().First())
			}
			if cmd.Bool("json") && cmd.Bool("markdown") {
				return misused("--json and --markdown exclude each other")
			}
			return t.writeEvidence(evidence.Gather(), cmd.Bool("json"), cmd.Bool("markdown"))
		},
	}
}

func (t *terminal) writeEvidence(r evidence.Report, asJSON, asPage bool) error {
	w := present.English()
	var err error
	switch {
	case asJSON:
		err = writeEvidenceJSON(t.out, w, r)
	case asPage:
		_, err = io.WriteString(t.out, r.Markdown(w))
	default:
		_, err = io.WriteString(t.out, r.Text(w))
	}
	if n := r.Failed(); n > 0 {
		err = errors.Join(err, fmt.Errorf("%d values do not hold", n))
	}
	return err
}

// evidenceRecord is the JSON form of the evidence.
type evidenceRecord struct {
	Format    string           `json:"format"`
	Version   int              `json:"version"`
	Caution   string           `json:"caution"`
	Failed    int              `json:"failed"`
	Relations []relationRecord `json:"relations"`
	Golden    []goldenRecord   `json:"golden"`
	Doubts    []doubtRecord    `json:"from_memory_or_assumed"`
}

type relationRecord struct {
	Relation string        `json:"relation"`
	Source   string        `json:"source"`
	Status   string        `json:"status"` // found, quoted, derived, memory, common_practice
	Holds    bool          `json:"holds"`
	Values   []valueRecord `json:"values"`
}

// valueRecord is in degrees or mm; told where the value is a word.
type valueRecord struct {
	Of         string  `json:"of"`
	Published  any     `json:"published"`
	Computed   any     `json:"computed"`
	Difference float64 `json:"difference"`
	Tolerance  float64 `json:"tolerance"`
	Bound      string  `json:"bound"` // equal, at_least, at_most
	Holds      bool    `json:"holds"`
}

type goldenRecord struct {
	Set      string  `json:"set"`
	Category string  `json:"category"`
	Rows     int     `json:"rows"`
	Worst    float64 `json:"largest_difference"` // degrees; in the set "own" degrees or mm
	Failed   int     `json:"failed"`
}

type doubtRecord struct {
	Kind   string `json:"kind"`
	Key    string `json:"key"`
	Values string `json:"values,omitempty"`              // what the values rest on, if in doubt
	Zero   string `json:"plane_or_definition,omitempty"` // what the angles' plane or definition rests on, if in doubt
	Source string `json:"source,omitempty"`
}

func writeEvidenceJSON(out io.Writer, w *present.Words, r evidence.Report) error {
	e := evidenceRecord{Format: "rimclear-evidence", Version: 1, Caution: w.Caution(), Failed: r.Failed()}
	for _, x := range r.Relations {
		record := relationRecord{Relation: w.Phrase(x.Key), Source: w.Phrase(x.Key + "_source"), Status: x.Status.Key(), Holds: x.Failed() == 0}
		for _, v := range x.Values {
			record.Values = append(record.Values, recordOf(v))
		}
		e.Relations = append(e.Relations, record)
	}
	for _, c := range r.Golden {
		e.Golden = append(e.Golden, goldenRecord{c.Set, c.Name, c.Rows, c.Worst, c.Failed})
	}
	for _, d := range r.Doubts {
		record := doubtRecord{Kind: d.Kind.Key(), Key: d.Key, Source: d.From(w)}
		if d.Basis.Doubtful() {
			record.Values = d.Basis.Key()
		}
		if d.Zero.Doubtful() {
			record.Zero = d.Zero.Key()
		}
		e.Doubts = append(e.Doubts, record)
	}
	to := json.NewEncoder(out)
	to.SetEscapeHTML(false)
	to.SetIndent("", "  ")
	return to.Encode(e)
}

func recordOf(v evidence.Value) valueRecord {
	r := valueRecord{Of: v.What, Published: v.Published, Computed: v.Computed, Difference: v.Difference(), Tolerance: v.Tolerance,
		Bound: v.Bound.Key(), Holds: v.Holds()}
	switch {
	case v.Told != "":
		r.Published, r.Computed = v.Told, v.ComputedAsText
	case v.Computed != v.Computed: // no number, which JSON cannot hold
		r.Computed, r.Difference = nil, 0
	}
	return r
}
