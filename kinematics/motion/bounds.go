package motion

import (
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Range returns how far a joint angle of a recording may go, either way: what
// goes further is refused as a wrong unit.
func Range(a hip.JointAngle) unit.Angle { return ranges[a] }

// FarthestStep is how far a joint angle may jump between two samples: more is a
// break in the recording.
const FarthestStep = farthestStep
