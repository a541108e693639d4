package cohort

import (
	"math"
	"sort"

	"rimclear/kinematics"
)

// Summary is what the results of a cohort come to, design by design. Its size
// does not grow with the cohort.
type Summary struct {
	Answered int            // cases with answers
	Faults   int            // lines at fault, which count nowhere else
	Fields   map[string]int // faults by their field, "" for the line as a whole
	Designs  []DesignSummary
}

// DesignSummary is what the results of one design come to.
type DesignSummary struct {
	Letter   string // "" where there is one design
	Limits   []Spread
	Margins  []Spread // of each requirement, the least over all of them first
	Criteria []Share
	Serves   Share          // every requirement met or close
	Least    map[string]int // by requirement: cases in which it has the least margin
}

// Spread is how one angle is spread over the cases. Cases without an angle
// count below all others where the movement was not begun, and above all
// others where it was free to its end.
type Spread struct {
	Key    string
	Count  [4]int // by ending, in the order of EndingKeys
	angles histogram
}

// Cases returns how many cases there are.
func (s *Spread) Cases() int {
	n := 0
	for _, c := range s.Count {
		n += c
	}
	return n
}

// Quantile returns the least angle, to 0.005°, at or below which a share of the
// cases lies; -Inf where that is one in which the movement was not begun, +Inf
// where it is one that is free to its end.
func (s *Spread) Quantile(share float64) float64 {
	n := s.Cases()
	if n == 0 {
		return math.NaN()
	}
	rank := max(0, int(math.Ceil(share*float64(n)-1e-9))-1)
	rank -= s.Count[atStart] + s.Count[notReached]
	switch {
	case rank < 0:
		return math.Inf(-1)
	case rank >= s.Count[limited]:
		return math.Inf(1)
	}
	return s.angles.at(rank)
}

// Extremes returns the least and the greatest angle, and whether there is any.
func (s *Spread) Extremes() (least, most float64, ok bool) {
	return s.angles.least, s.angles.most, s.angles.count > 0
}

// Share is how many cases stand how to one requirement, or to all.
type Share struct {
	Key   string
	Count [kinematics.StandingCount]int
}

// Cases returns how many cases were held to it.
func (s Share) Cases() int {
	return s.Count[kinematics.Met] + s.Count[kinematics.Close] + s.Count[kinematics.Short]
}

// Served returns the share of the cases that meet it, with whatever margin.
func (s Share) Served() float64 {
	if s.Cases() == 0 {
		return math.NaN()
	}
	return float64(s.Cases()-s.Count[kinematics.Short]) / float64(s.Cases())
}

// FieldNames returns the fields at fault, the most frequent first.
func (s *Summary) FieldNames() []string {
	var names []string
	for name := range s.Fields {
		names = append(names, name)
	}
	sort.Slice(names, func(i, j int) bool {
		if s.Fields[names[i]] != s.Fields[names[j]] {
			return s.Fields[names[i]] > s.Fields[names[j]]
		}
		return names[i] < names[j]
	})
	return names
}

// Free returns in how many cases the movement was free to its end.
func (s *Spread) Free() int { return s.Count[free] }

// NotBegun returns in how many cases there was contact before the movement.
func (s *Spread) NotBegun() int { return s.Count[atStart] + s.Count[notReached] }
