package motion

import (
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// UsualTolerance is by how much each joint angle of an activity may be off: an
// assumed value. Motion captured under examination was within about 10°, apart
// from flexion and abduction, where it was farther off (Charbonnier et al., Hip
// Int 2015;25:82-90).
const UsualTolerance = 5 * unit.Degree

// Widened returns the activity with each of its joint angles uncertain by a
// tolerance: a box of separate maxima grows by it, and every route is gone
// eight times more, with all postures after the first shifted to a corner of
// the tolerance.
func (a Activity) Widened(by unit.Angle) Activity {
	if by <= 0 {
		return a
	}
	if a.Together == Separate {
		for k, s := range a.Maxima {
			if s.Least.Angle != 0 {
				a.Maxima[k].Least.Angle = within(k, s.Least.Angle-by)
			}
			if s.Most.Angle != 0 {
				a.Maxima[k].Most.Angle = within(k, s.Most.Angle+outward(s, by))
			}
		}
		return a
	}
	routes := a.Routes[:len(a.Routes):len(a.Routes)]
	for _, route := range a.Routes {
		for corner := range 8 {
			routes = append(routes, shifted(route, corner, by))
		}
	}
	a.Routes = routes
	return a
}

// outward is the step away from zero of the single value of a span, which may
// be negative; the second of two values always rises.
func outward(s Span, by unit.Angle) unit.Angle {
	if s.Least.Angle == 0 && s.Most.Angle < 0 {
		return -by
	}
	return by
}

func shifted(route []Waypoint, corner int, by unit.Angle) []Waypoint {
	list := append([]Waypoint(nil), route...)
	for i := 1; i < len(list); i++ {
		for k := range list[i].Angles {
			step := by
			if corner>>k&1 == 1 {
				step = -by
			}
			list[i].Angles[k].Angle = within(k, list[i].Angles[k].Angle+step)
		}
	}
	return list
}

// within holds a joint angle to its range.
func within(k int, a unit.Angle) unit.Angle {
	most := ranges[hip.JointAngle(k)]
	return max(-most, min(most, a))
}
