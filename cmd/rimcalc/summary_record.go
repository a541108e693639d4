package main

import (
	"math"

	"rimclear/app/cohort"
	"rimclear/app/present"
	"rimclear/kinematics"
)

// summaryRecord is the JSON form of a summary.
type summaryRecord struct {
	head
	Answered int             `json:"answered"`
	Faults   int             `json:"faults"`
	Fields   map[string]int  `json:"faults_by_field"`
	Designs  []summaryDesign `json:"designs"`
}

type summaryDesign struct {
	Design   string         `json:"design"` // "" where there is one
	Limits   []spreadRecord `json:"limits"`
	Margins  []spreadRecord `json:"margins,omitempty"`
	Required []servedRecord `json:"required,omitempty"`
}

// spreadRecord has a quantile as null where it falls on cases without an angle;
// then the counts say which.
type spreadRecord struct {
	Key        string   `json:"key"`
	Cases      int      `json:"cases"`
	Limited    int      `json:"limit"`
	Free       int      `json:"none"`
	AtStart    int      `json:"contact_at_start"`
	NotReached int      `json:"not_reached"`
	P05        *float64 `json:"p05_deg"`
	P25        *float64 `json:"p25_deg"`
	P50        *float64 `json:"p50_deg"`
	P75        *float64 `json:"p75_deg"`
	P95        *float64 `json:"p95_deg"`
	Least      *float64 `json:"least_deg"`
	Most       *float64 `json:"most_deg"`
}

// servedRecord is of one requirement, or with the key "all" of all of them.
type servedRecord struct {
	Key    string   `json:"key"`
	Cases  int      `json:"cases"`
	Met    int      `json:"met"`
	Close  int      `json:"close"`
	Short  int      `json:"short"`
	Served *float64 `json:"served_share"`
	First  int      `json:"least_margin_in"`
}

func (r *summaryReply) record(w *present.Words) (any, error) {
	s := summaryRecord{Answered: r.Answered, Faults: r.Faults, Fields: r.Fields}
	s.Format, s.Version, s.Caution = "rimclear-cohort-summary", 1, w.Caution()
	for i := range r.Designs {
		d := &r.Designs[i]
		one := summaryDesign{Design: d.Letter, Limits: spreads(d.Limits), Margins: spreads(d.Margins)}
		if len(d.Criteria) > 0 {
			one.Required = served(d)
		}
		s.Designs = append(s.Designs, one)
	}
	return s, nil
}

func spreads(list []cohort.Spread) []spreadRecord {
	var records []spreadRecord
	for i := range list {
		s := &list[i]
		c := s.Count
		r := spreadRecord{Key: s.Key, Cases: s.Cases(), Limited: c[0], Free: c[1], AtStart: c[2], NotReached: c[3],
			P05: finite(s.Quantile(0.05)), P25: finite(s.Quantile(0.25)), P50: finite(s.Quantile(0.5)),
			P75: finite(s.Quantile(0.75)), P95: finite(s.Quantile(0.95))}
		if least, most, ok := s.Extremes(); ok {
			r.Least, r.Most = rounded(least), rounded(most)
		}
		records = append(records, r)
	}
	return records
}

// finite returns a number rounded, nil where it is none.
func finite(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return rounded(x)
}

func served(d *cohort.DesignSummary) []servedRecord {
	var records []servedRecord
	for _, c := range append([]cohort.Share{d.Serves}, d.Criteria...) {
		key := c.Key
		if key == "" {
			key = "all"
		}
		records = append(records, servedRecord{Key: key, Cases: c.Cases(), Met: c.Count[kinematics.Met], Close: c.Count[kinematics.Close],
			Short: c.Count[kinematics.Short], Served: finite(c.Served()), First: d.Least[c.Key]})
	}
	return records
}

// sheet has one row for each limit, margin and requirement of each design;
// columns that do not apply are empty.
func (r *summaryReply) sheet() sheet {
	t := sheet{columns: []string{"design", "of", "key", "cases", "limit", "none", "contact_at_start", "not_reached",
		"p05_deg", "p25_deg", "p50_deg", "p75_deg", "p95_deg", "least_deg", "most_deg",
		"met", "close", "short", "served_share", "least_margin_in"}}
	t.add("", "lines", "answered", r.Answered)
	t.add("", "lines", "error", r.Faults)
	for i := range r.Designs {
		d := &r.Designs[i]
		for k, list := range [][]spreadRecord{spreads(d.Limits), spreads(d.Margins)} {
			of := [2]string{"limit", "margin"}[k]
			for _, s := range list {
				t.add(d.Letter, of, s.Key, s.Cases, s.Limited, s.Free, s.AtStart, s.NotReached, s.P05, s.P25, s.P50, s.P75, s.P95, s.Least, s.Most)
			}
		}
		if len(d.Criteria) == 0 {
			continue
		}
		for _, s := range served(d) {
			t.add(d.Letter, "required", s.Key, s.Cases, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, s.Met, s.Close, s.Short, s.Served, s.First)
		}
	}
	for i := range t.rows {
		for len(t.rows[i]) < len(t.columns) {
			t.rows[i] = append(t.rows[i], nil)
		}
	}
	return t
}
