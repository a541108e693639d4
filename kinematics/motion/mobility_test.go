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
			if got := MobilityOf(tilts); got != m {
				t.Errorf("tilts of a %s pelvis are classed as %s", m.Key(), got.Key())
			}
			if !(tilts.RelaxedSitting < tilts.Standing && tilts.Standing < tilts.Supine) {
				t.Errorf("%s: %+v, want the pelvis to roll back when sitting, forward when lying", m.Key(), tilts)
			}
		}
	}
}

func TestMobilityTurnsAtTenAndThirtyDegrees(t *testing.T) {
	for change, want := range map[float64]Mobility{9.9: Stiff, 10.1: NormalMobility, 29.9: NormalMobility, 30.1: Hypermobile} {
		if got := MobilityOf(hip.Tilts{RelaxedSitting: -unit.Angle(change) * unit.Degree}); got != want {
			t.Errorf("a change of %g° is %s, want %s", change, got.Key(), want.Key())
		}
	}
}
