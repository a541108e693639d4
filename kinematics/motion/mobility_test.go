package motion

import (
	"testing"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

func TestEveryPresetOfTiltsBelongsToItsOwnClass(t *testing.T) {
	for m := range MobilityCount {
		for standing := -20 * unit.Degree; standing < 21*unit.Degree; standing += 5 * unit.Degree {
			tilts := m.Tilts(standing)
			if got := classOf(tilts); got != m {
				t.Errorf("tilts of a %s pelvis are classed as %s", m.Key(), got.Key())
			}
			if !(tilts.RelaxedSitting < tilts.Standing && tilts.Standing < tilts.Supine) {
				t.Errorf("%s: %+v, want the pelvis to roll back when sitting, forward when lying", m.Key(), tilts)
			}
		}
	}
}

// classOf is the class of a patient's tilts by its published limits.
func classOf(t hip.Tilts) Mobility {
	switch change := (t.Standing - t.RelaxedSitting).Abs(); {
	case change < 10*unit.Degree:
		return Stiff
	case change > 30*unit.Degree:
		return Hypermobile
	}
	return NormalMobility
}
