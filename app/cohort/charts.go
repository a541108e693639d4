package cohort

import (
	"math"
	"strconv"

	"rimclear/app/chart"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
)

// givenPhrases name the movements at the adduction given.
var givenPhrases = map[string]string{
	"flexion_given_adduction":        "cohort_flexion_given_adduction",
	"internal_at_90_given_adduction": "cohort_internal_at_90_given_adduction",
	"external_given_adduction":       "cohort_external_given_adduction",
}

// LimitName returns the name of a movement by its question's key. The adduction
// given may differ from case to case, so it is not said.
func LimitName(w *present.Words, key string) string {
	if own, ok := givenPhrases[key]; ok {
		return w.Phrase(own)
	}
	for _, q := range kinematics.Questions {
		if q.Key == key {
			c := kinematics.Default()
			return w.Question(&c, q)
		}
	}
	return key
}

// RequiredName returns the name of a requirement by its key in the results, ""
// for all of them.
func RequiredName(w *present.Words, key string) string {
	switch key {
	case "":
		return w.Phrase("cohort_all")
	case "least":
		return w.Phrase("cohort_least_margin")
	}
	for _, r := range builtIn() {
		if present.RequirementKey(r) == key {
			return w.Requirement(r)
		}
	}
	return key
}

// builtIn returns all that can be required.
func builtIn() []motion.Requirement {
	l := session.BuiltIn()
	c := kinematics.Default()
	var list []motion.Requirement
	for _, a := range l.Activities {
		list = append(list, a.Requirement(c.Setting()))
	}
	for _, s := range l.Criteria {
		list = append(list, s.Requirements()...)
	}
	return list
}

// charted are the quantiles that a chart shows.
var charted = [5]float64{0.05, 0.25, 0.5, 0.75, 0.95}

// LimitsChart shows how the limits are spread.
func (s *Summary) LimitsChart(w *present.Words) chart.Distribution {
	d := chart.Distribution{
		Title:   w.Phrase("cohort_limits_title", "count", strconv.Itoa(s.Answered)),
		Designs: s.letters(), Ends: [2]float64{0, 180},
	}
	for i := range s.Designs[0].Limits {
		key := s.Designs[0].Limits[i].Key
		row := chart.DistributionRow{Name: LimitName(w, key), End: endOf(key)}
		for k := range s.Designs {
			spread := &s.Designs[k].Limits[i]
			bar := chart.DistributionBar{Note: spread.note(w)}
			for q, share := range charted {
				bar.Quantiles[q] = spread.Quantile(share)
			}
			row.Bars = append(row.Bars, bar)
		}
		d.Rows = append(d.Rows, row)
	}
	return d
}

// endOf returns how far the path of a question runs, in degrees.
func endOf(key string) float64 {
	for _, q := range kinematics.Questions {
		if q.Key == key {
			return q.End.Degrees()
		}
	}
	return math.Inf(1)
}

// leastNoted is the share below which a note would say 0.0 %.
const leastNoted = 0.0005

// note says what share of the cases has no angle.
func (s *Spread) note(w *present.Words) string {
	all := float64(s.Cases())
	free, none := "", ""
	if n := s.Free(); float64(n) >= leastNoted*all && n > 0 {
		free = w.Phrase("cohort_note_free", "share", w.Percent(float64(n)/all, 1))
	}
	if n := s.NotBegun(); float64(n) >= leastNoted*all && n > 0 {
		none = w.Phrase("cohort_note_not_begun", "share", w.Percent(float64(n)/all, 1))
	}
	if free == "" || none == "" {
		return free + none
	}
	return w.Phrase("list", "first", none, "rest", free)
}

// StandingsChart shows how the cases stand to what is required, all of it
// first. It has no rows where nothing is.
func (s *Summary) StandingsChart(w *present.Words) chart.Standings {
	d := chart.Standings{Title: w.Phrase("cohort_standings_title", "count", strconv.Itoa(s.Answered)), Designs: s.letters()}
	if len(s.Designs[0].Criteria) == 0 {
		return d
	}
	all := chart.StandingRow{Name: RequiredName(w, "")}
	for k := range s.Designs {
		all.Bars = append(all.Bars, s.Designs[k].Serves.parts())
	}
	d.Rows = append(d.Rows, all)
	for i, c := range s.Designs[0].Criteria {
		row := chart.StandingRow{Name: RequiredName(w, c.Key)}
		for k := range s.Designs {
			row.Bars = append(row.Bars, s.Designs[k].Criteria[i].parts())
		}
		d.Rows = append(d.Rows, row)
	}
	return d
}

// parts returns the shares met, close and short.
func (s Share) parts() (p [3]float64) {
	n := float64(s.Cases())
	for i := range p {
		if p[i] = math.NaN(); n > 0 {
			p[i] = float64(s.Count[i]) / n
		}
	}
	return p
}

func (s *Summary) letters() []string {
	list := make([]string, len(s.Designs))
	for i := range s.Designs {
		list[i] = s.Designs[i].Letter
	}
	return list
}
