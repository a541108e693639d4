package chart

import (
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// reach is the passive range of native hips in one joint angle.
type reach struct{ From, To unit.Angle }

func (r reach) holds(v unit.Angle) bool { return r.From <= v && v <= r.To }

// nativeReach returns the passive range of a joint angle at a flexion. The
// values and their sources are those of kinematics.Questions. Ranges of
// rotation were measured at some flexions; between these they are joined
// linearly, and outside them the nearest one holds.
func nativeReach(a hip.JointAngle, flexion unit.Angle) reach {
	lower, upper := senses(a)
	return reach{
		From: -nativeRange(lower, flexion),
		To:   nativeRange(upper, flexion),
	}
}

func nativeRange(m kinematics.Movement, flexion unit.Angle) unit.Angle {
	var below, above *kinematics.Question
	for i := range kinematics.Questions {
		q := &kinematics.Questions[i]
		if q.Movement != m || q.Given || !q.Native.Known() {
			continue
		}
		if q.Flexion <= flexion && (below == nil || q.Flexion > below.Flexion) {
			below = q
		}
		if q.Flexion >= flexion && (above == nil || q.Flexion < above.Flexion) {
			above = q
		}
	}
	switch {
	case below == nil && above == nil:
		return 180 * unit.Degree
	case below == nil:
		return above.Native.Range
	case above == nil || above.Flexion == below.Flexion:
		return below.Native.Range
	}
	f := (flexion - below.Flexion) / (above.Flexion - below.Flexion)
	return below.Native.Range + f*(above.Native.Range-below.Native.Range)
}

// native reports whether each joint angle of a posture is within its passive
// range.
func native(p hip.Posture) bool {
	for _, a := range jointAngles {
		if !nativeReach(a, p.Flexion).holds(p.Angle(a)) {
			return false
		}
	}
	return true
}

// nativeRing returns the outline, in degrees, of the part of a slice within
// the passive ranges; it is empty where the angle held is beyond its own.
func nativeRing(s kinematics.Slice) [][2]float64 {
	held := 3 - s.Across.Angle - s.Up.Angle
	if held != hip.InternalRotation && !nativeReach(held, s.Held.Flexion).holds(s.Held.Angle(held)) {
		return nil
	}
	across := nativeReach(s.Across.Angle, s.Held.Flexion)
	stops := []unit.Angle{across.From, across.To}
	if s.Across.Angle == hip.Flexion {
		stops = []unit.Angle{across.From, -10 * unit.Degree, 0, 90 * unit.Degree, across.To}
	}
	var low, ring [][2]float64
	for _, x := range stops {
		flexion := s.Held.Flexion
		if s.Across.Angle == hip.Flexion {
			flexion = x
		}
		if held == hip.InternalRotation && !nativeReach(held, flexion).holds(s.Held.InternalRotation) {
			continue
		}
		up := nativeReach(s.Up.Angle, flexion)
		low = append(low, [2]float64{x.Degrees(), up.From.Degrees()})
		ring = append(ring, [2]float64{x.Degrees(), up.To.Degrees()})
	}
	for i := len(low) - 1; i >= 0; i-- {
		ring = append(ring, low[i])
	}
	return ring
}
