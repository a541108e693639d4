package chart

import (
	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

var jointAngles = [3]hip.JointAngle{hip.Flexion, hip.Adduction, hip.InternalRotation}

// senses returns the movements in the negative and the positive sense of a
// joint angle.
func senses(a hip.JointAngle) (lower, upper kinematics.Movement) {
	return kinematics.Movement(2*a + 1), kinematics.Movement(2 * a)
}

// towards returns the words for the sense of a value of a joint angle.
func (l Look) towards(a hip.JointAngle, degree float64) string {
	lower, upper := senses(a)
	if degree < 0 {
		return l.Words.Movement(lower)
	}
	return l.Words.Movement(upper)
}

// ends returns the words for both ends of the axis of a joint angle.
func (l Look) ends(a hip.JointAngle) (lower, upper string) {
	return l.Phrase("chart_to_lower", "movement", l.towards(a, -1)), l.Phrase("chart_to_upper", "movement", l.towards(a, 1))
}

// reading returns the parts of a phrase on a joint angle: its size and the
// movement it belongs to.
func (l Look) reading(a hip.JointAngle, v unit.Angle) []string {
	degree := v.Degrees()
	if max(degree, -degree) < 0.5 {
		degree = 0
	}
	return []string{"angle", unsignedLabel(degree), "movement", l.towards(a, degree)}
}

// unsigned returns marks every step degrees whose labels have no sign: the
// words at the ends of the axis say the direction.
func unsigned(lo, hi, step float64) []figure.Tick {
	ticks := figure.Ticks(lo, hi, step, "°")
	for i := range ticks {
		ticks[i].Label = unsignedLabel(ticks[i].At)
	}
	return ticks
}

func unsignedLabel(degree float64) string { return figure.Number(max(degree, -degree), 0) + "°" }
