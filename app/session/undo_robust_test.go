package session

import (
	"math"
	"os"
	"testing"
	"time"

	"pgregory.net/rapid"

	"rimclear/kinematics"
	_ "rimclear/kinematics/seeded"
)

// edge draws a value of a parameter, often an end of its range or one that no
// parameter may have.
func edge(t *rapid.T, p *kinematics.Parameter) float64 {
	if p.Kind == kinematics.Choice {
		return float64(rapid.IntRange(-1, len(p.Choices)).Draw(t, p.Key))
	}
	return rapid.OneOf(
		rapid.SampledFrom([]float64{p.Min, p.Max, p.Min + p.Step, p.Max - p.Step, p.Default, 0, math.NaN(), math.Inf(1), p.Max + p.Step}),
		rapid.Float64Range(p.Min, p.Max),
	).Draw(t, p.Key)
}

// Whatever is set, in whatever order, the session's case is valid; undo brings
// each case back exactly as it was, and redo likewise.
func TestUndoAndRedoRestoreWhateverWasSetExactly(t *testing.T) {
	rounds := 1
	if os.Getenv("RIMCLEAR_LONG") == "1" {
		rounds = 50
	}
	for range rounds {
		rapid.Check(t, anyEdits)
	}
}

func anyEdits(t *rapid.T) {
	now := time.Unix(1e9, 0)
	s := New(kinematics.Default(), func(f func()) {}, func() time.Time { return now })
	defer s.Close()
	cases := []kinematics.Case{s.Now().Case}
	for range rapid.IntRange(1, 15).Draw(t, "edits") {
		now = now.Add(time.Minute) // each is a step of its own
		switch rapid.IntRange(0, 9).Draw(t, "act") {
		case 0:
			s.Duplicate()
		case 1:
			s.Remove()
		case 2:
			s.Activate(rapid.IntRange(0, kinematics.MaxDesigns-1).Draw(t, "design"))
		default:
			p := &kinematics.Parameters[rapid.IntRange(0, len(kinematics.Parameters)-1).Draw(t, "parameter")]
			before := s.Now().Case
			if faults := s.Set(p, edge(t, p)); len(faults) > 0 && s.Now().Case != before {
				t.Fatalf("%s is refused, and the case has changed", p.Key)
			}
		}
		c := s.Now().Case
		if faults := kinematics.Validate(&c); len(faults) > 0 {
			t.Fatalf("the session holds a case with faults: %+v", faults)
		}
		if c != cases[len(cases)-1] {
			cases = append(cases, c)
		}
	}
	for i := len(cases) - 2; i >= 0; i-- {
		if s.Undo(); s.Now().Case != cases[i] {
			t.Fatalf("undone to step %d: %+v, want %+v", i, s.Now().Case, cases[i])
		}
	}
	if _, more := s.Undoable(); more || s.Now().Unsaved {
		t.Fatalf("all is undone: more to undo %v, unsaved %v", more, s.Now().Unsaved)
	}
	for _, c := range cases[1:] {
		if s.Redo(); s.Now().Case != c {
			t.Fatalf("redone: %+v, want %+v", s.Now().Case, c)
		}
	}
}
