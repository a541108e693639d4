package chart

import (
	"rimclear/app/figure"
	"rimclear/kinematics/hip"
)

// directions holds the keys of the words for the negative and the positive
// sense of each joint angle.
var directions = [3][2]string{
	hip.Flexion:          {"chart_extension", "chart_flexion"},
	hip.Adduction:        {"chart_abduction", "chart_adduction"},
	hip.InternalRotation: {"chart_external_rotation", "chart_internal_rotation"},
}

// towards returns the words for the sense of a value of a joint angle.
func (l Look) towards(a hip.JointAngle, v float64) string {
	if v < 0 {
		return l.Words(directions[a][0])
	}
	return l.Words(directions[a][1])
}

// unsigned returns marks every step degrees whose labels have no sign: the
// words at the ends of the axis say the direction.
func unsigned(lo, hi, step float64) []figure.Tick {
	ticks := figure.Ticks(lo, hi, step, "°")
	for i := range ticks {
		ticks[i].Label = figure.Number(max(ticks[i].At, -ticks[i].At), 0) + "°"
	}
	return ticks
}
