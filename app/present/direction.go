package present

import (
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// directionKeys are the six directions of the body, positive then negative
// along X, Y and Z of a right hip, in which Z is lateral on both sides.
var directionKeys = [3][2]string{{"anterior", "posterior"}, {"superior", "inferior"}, {"lateral", "medial"}}

// DirectionKeys returns the one or two directions of the body nearest to a
// vector in the frame of a right hip, the nearest first. The second is named
// where it is more than half as far from the first as it could be: beyond 22.5°.
func DirectionKeys(v r3.Vec) []string {
	part := [3]float64{v.X, v.Y, v.Z}
	first := largest(part, -1)
	if part[first] == 0 || math.IsNaN(part[first]) {
		return nil
	}
	keys := []string{directionKey(first, part[first])}
	const apart = 0.41421356 // tan 22.5°
	if second := largest(part, first); math.Abs(part[second]) > apart*math.Abs(part[first]) {
		keys = append(keys, directionKey(second, part[second]))
	}
	return keys
}

func directionKey(axis int, part float64) string {
	if part < 0 {
		return directionKeys[axis][1]
	}
	return directionKeys[axis][0]
}

// largest returns the axis of the largest part, but not the one left out.
func largest(part [3]float64, except int) int {
	best := -1
	for i, x := range part {
		if i != except && (best < 0 || math.Abs(x) > math.Abs(part[best])) {
			best = i
		}
	}
	return best
}

// Direction says a vector in the frame of a right hip as directions of the
// body: "backwards and upwards".
func (w *Words) Direction(v r3.Vec) string {
	keys := DirectionKeys(v)
	switch len(keys) {
	case 0:
		return ""
	case 1:
		return w.word(directionSection, keys[0])
	}
	return w.Phrase("two_directions",
		"first", w.word(directionSection, keys[0]), "second", w.word(directionSection, keys[1]))
}

// Hour returns an azimuth on the rim as the nearest whole hour, 1 to 12.
func Hour(azimuth unit.Angle) int {
	h := int(math.Round(kinematics.Clock(azimuth))) % 12
	if h == 0 {
		h = 12
	}
	return h
}

// Clock says an azimuth on the rim as an hour: "1 o'clock".
func (w *Words) Clock(azimuth unit.Angle) string {
	return w.Phrase("clock", "hour", strconv.Itoa(Hour(azimuth)))
}

// movementKeys are the keys of the six movements.
var movementKeys = [kinematics.MovementCount]string{"flexion", "extension", "adduction", "abduction", "internal", "external"}

// MovementKey returns a movement's stable word, such as "internal".
func MovementKey(m kinematics.Movement) string { return movementKeys[m] }

// Movement returns the name of a movement as it stands inside a sentence.
func (w *Words) Movement(m kinematics.Movement) string {
	return w.word(movementSection, MovementKey(m))
}

// Signed says a joint angle with its sign as a movement: extension for a
// flexion below zero.
func Signed(a hip.JointAngle, v unit.Angle) (kinematics.Movement, unit.Angle) {
	if v < 0 {
		return kinematics.Movement(2*a) + 1, -v
	}
	return kinematics.Movement(2 * a), v
}
