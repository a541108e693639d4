package chart

import (
	"cmp"
	"slices"

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

// nativePoint is a passive range measured at a flexion.
type nativePoint struct{ flexion, reach unit.Angle }

// nativePoints are the passive ranges known of each movement, by rising
// flexion.
var nativePoints = func() (points [kinematics.MovementCount][]nativePoint) {
	for _, q := range kinematics.Questions {
		if !q.Given && q.Native.Known() {
			points[q.Movement] = append(points[q.Movement], nativePoint{q.Flexion, q.Native.Range})
		}
	}
	for _, p := range points {
		slices.SortFunc(p, func(a, b nativePoint) int { return cmp.Compare(a.flexion, b.flexion) })
	}
	return points
}()

// nativeRange returns the passive range of a movement at a flexion; a movement
// of which none is known is not limited.
func nativeRange(m kinematics.Movement, flexion unit.Angle) unit.Angle {
	points := nativePoints[m]
	if len(points) == 0 {
		return 180 * unit.Degree
	}
	last := points[0]
	if flexion <= last.flexion {
		return last.reach
	}
	for _, p := range points[1:] {
		if flexion <= p.flexion {
			f := (flexion - last.flexion) / (p.flexion - last.flexion)
			return last.reach + f*(p.reach-last.reach)
		}
		last = p
	}
	return last.reach
}

// nativeRing returns the outline, in degrees, of the part of a slice within
// the passive ranges; it is empty where the angle held is beyond its own.
func nativeRing(s kinematics.Slice) [][2]float64 {
	held := 3 - s.Across.Angle - s.Up.Angle
	heldAt := func(x unit.Angle) bool {
		return nativeReach(held, flexionAt(s, x)).holds(s.Held.Angle(held))
	}
	var low, ring [][2]float64
	for _, x := range nativeStops(s, heldAt) {
		if heldAt(x) {
			up := nativeReach(s.Up.Angle, flexionAt(s, x))
			low = append(low, [2]float64{x.Degrees(), up.From.Degrees()})
			ring = append(ring, [2]float64{x.Degrees(), up.To.Degrees()})
		}
	}
	slices.Reverse(low)
	return append(ring, low...)
}

// flexionAt returns the flexion at a value on the axis across.
func flexionAt(s kinematics.Slice, x unit.Angle) unit.Angle {
	if s.Across.Angle == hip.Flexion {
		return x
	}
	return s.Held.Flexion
}

// nativeStops returns the values across at which the outline has corners:
// those at which ranges were measured, and where the angle held enters or
// leaves its own range.
func nativeStops(s kinematics.Slice, heldAt func(unit.Angle) bool) []unit.Angle {
	across := nativeReach(s.Across.Angle, s.Held.Flexion)
	stops := []unit.Angle{across.From, across.To}
	if s.Across.Angle != hip.Flexion {
		return stops
	}
	for _, m := range []kinematics.Movement{kinematics.Internal, kinematics.External} {
		for _, p := range nativePoints[m] {
			if across.holds(p.flexion) {
				stops = append(stops, p.flexion)
			}
		}
	}
	slices.Sort(stops)
	for i, n := 1, len(stops); i < n; i++ {
		if in, out := stops[i-1], stops[i]; heldAt(in) != heldAt(out) {
			stops = append(stops, edge(in, out, heldAt))
		}
	}
	slices.Sort(stops)
	return slices.Compact(stops)
}

// edge returns the last value at which a condition holds between two values,
// at one of which it does.
func edge(a, b unit.Angle, holds func(unit.Angle) bool) unit.Angle {
	if !holds(a) {
		a, b = b, a
	}
	for range 50 {
		if m := (a + b) / 2; holds(m) {
			a = m
		} else {
			b = m
		}
	}
	return a
}
