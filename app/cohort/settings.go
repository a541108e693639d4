package cohort

import (
	"fmt"
	"slices"
	"strings"

	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
)

// Format is how cases and results are written.
type Format int

const (
	CSV Format = iota
	NDJSON
)

// FormatKeys are the words for a format, in their order.
var FormatKeys = []string{"csv", "ndjson"}

// Settings are what a run is asked for.
type Settings struct {
	Base     kinematics.Case // gives all values that a line leaves out, and the number of designs
	Format   Format
	Carry    []string // columns copied into the results
	Motions  []string // keys of activities that are required of each case
	Criteria string   // key of a set of criteria that is required besides
	Target   bool     // find the cup position of greatest margin too
	Shard    int      // answer the lines of this shard alone, from 1
	Shards   int      // 0 and 1 are one for all

	StopAtFault bool
	Workers     int                 // at least 1
	Harmless    func(string) string // makes a text harmless to spreadsheets; nil leaves it
}

// Check returns what cannot be asked for.
func (s *Settings) Check() error {
	if faults := kinematics.Validate(&s.Base); len(faults) > 0 {
		return fmt.Errorf("the base case is at fault: %s", faults[0].Key)
	}
	if s.Workers < 1 {
		return fmt.Errorf("%d workers: must be at least 1", s.Workers)
	}
	if s.Shards > 1 && (s.Shard < 1 || s.Shard > s.Shards) {
		return fmt.Errorf("shard %d/%d: must be from 1 to %d", s.Shard, s.Shards, s.Shards)
	}
	bare := *s
	bare.Carry = nil
	ours := resultNames(&bare)
	for i, name := range s.Carry {
		if name == "" || slices.Contains(s.Carry[:i], name) || slices.Contains(ours, name) {
			return fmt.Errorf("%q cannot be carried: the result has a column of that name", name)
		}
		if strings.ContainsAny(name, "\",;\t\\") {
			return fmt.Errorf("%q cannot be carried: it must be a plain name", name)
		}
	}
	list, lost := s.required(session.NewMotions(), &s.Base)
	if len(lost) > 0 {
		return fmt.Errorf("no motion or set of criteria %s", strings.Join(lost, ", "))
	}
	for _, r := range list {
		if r.Open {
			return fmt.Errorf("motion %s asks how far the hip goes and cannot be failed; name one with a target", r.Key)
		}
	}
	if s.Target && len(list) == 0 {
		return fmt.Errorf("a target needs motions or criteria")
	}
	return nil
}

// required returns what a case must do, made ready for its patient.
func (s *Settings) required(m *session.Motions, c *kinematics.Case) ([]motion.Requirement, []string) {
	if !s.judges() {
		return nil, nil
	}
	c.Goal.Motions, c.Goal.Criteria = kinematics.JoinMotions(s.Motions...), s.Criteria
	return m.Required(c)
}

func (s *Settings) judges() bool { return len(s.Motions) > 0 || s.Criteria != "" }

// own reports whether a line is of this shard; index counts lines from 0, the
// header not counted. Lines go to the shards in turn.
func (s *Settings) own(index int) bool {
	return s.Shards <= 1 || index%s.Shards == s.Shard-1
}
