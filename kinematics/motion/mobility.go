package motion

import (
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Mobility classes a pelvis by how far it rolls back from standing to relaxed
// sitting: stiff under 10°, normal 10 to 30°, hypermobile over 30° (Innmann et
// al., Bone Joint J 2019;101-B:902-909).
type Mobility int

const (
	Stiff Mobility = iota
	NormalMobility
	Hypermobile
	MobilityCount
)

// MobilityKeys are the words for mobility in files, in their order.
var MobilityKeys = []string{"stiff", "normal", "hypermobile"}

// Key returns the word for the mobility in files.
func (m Mobility) Key() string { return MobilityKeys[m] }

// Change returns how far the preset of a class rolls the pelvis back from
// standing to relaxed sitting, and what that rests on. Normal: 22°, mean of 74
// patients (Ochi et al., Eur Spine J 2016;25:3699-3706). Stiff 5° and
// hypermobile 40° are assumed: values inside their class.
func (m Mobility) Change() Stated {
	switch m {
	case Stiff:
		return Stated{5 * unit.Degree, Assumed}
	case Hypermobile:
		return Stated{40 * unit.Degree, Assumed}
	}
	return Stated{22 * unit.Degree, Found}
}

// Mean tilts and changes of tilt of 1517 patients before replacement (Pierrepont
// et al., Bone Joint J 2017;99-B:184-191); anterior is positive.
const (
	MeanStanding             = -1.3 * unit.Degree
	meanSupineOverStanding   = 5.5 * unit.Degree
	meanStandingToFlexedSeat = 1.8 * unit.Degree
)

// Tilts returns the four tilts of a patient of this class who stands with a
// given tilt: relaxed sitting by the class's change, supine and flexed sitting
// by the mean changes of 1517 patients. Measured tilts are better than these.
func (m Mobility) Tilts(standing unit.Angle) hip.Tilts {
	return hip.Tilts{
		Supine:         standing + meanSupineOverStanding,
		Standing:       standing,
		RelaxedSitting: standing - m.Change().Angle,
		FlexedSitting:  standing + meanStandingToFlexedSeat,
	}
}
