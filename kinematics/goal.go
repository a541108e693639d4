package kinematics

import (
	"slices"
	"strings"

	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Goal is what a hip is asked to do, and what its cups are held to besides.
// Like the case it stands in it is a value that can be compared.
type Goal struct {
	Motions   Motions    // activities and recordings that are required
	Criteria  string     // key of a set of criteria that is required besides, "" for none
	Closeness unit.Angle // a margin below it counts as close
	// Mechanical is the angle from the shaft to the mechanical axis of the femur,
	// to which recorded angles belong.
	Mechanical  unit.Angle
	SD          [VariableCount]unit.Angle // scatter of placements
	Inclination Range                     // of cups that are looked for, in the map's definition and plane
	Anteversion Range
	LeastJump   float64 // mm, 0 for no bound
	LeastPatch  float64 // mm, 0 for no bound
}

// Motions is a list of keys joined by commas, sorted, each once, so that equal
// lists are equal values.
type Motions string

// JoinMotions returns the list of some keys.
func JoinMotions(keys ...string) Motions {
	sorted := slices.Compact(slices.Sorted(slices.Values(keys)))
	return Motions(strings.Join(sorted, ","))
}

// Keys returns the keys.
func (m Motions) Keys() []string {
	if m == "" {
		return nil
	}
	return strings.Split(string(m), ",")
}

// Has reports whether a key is in the list.
func (m Motions) Has(key string) bool { return slices.Contains(m.Keys(), key) }

// With returns the list with a key put in.
func (m Motions) With(key string) Motions { return JoinMotions(append(m.Keys(), key)...) }

// Without returns the list with a key taken out.
func (m Motions) Without(key string) Motions {
	return JoinMotions(slices.DeleteFunc(m.Keys(), func(k string) bool { return k == key })...)
}

// MostMotions is how many motions a goal may name.
const MostMotions = 200

// usualMotions are what most people want of a hip: our own choice.
var usualMotions = JoinMotions(
	"sit_to_stand", "low_chair", "stoop", "shoe_ankle_on_knee", "leg_crossed",
	"pivot_standing", "roll_in_bed", "extension_turned_out", "heel_strike", "toe_off", "stairs_up")

// Bounds returns what a cup that is looked for is held to, its ranges read in
// the definition of a design and the plane of the hip. A range as wide as all
// that is looked at bounds nothing.
func (g Goal) Bounds(h Hip, d Design) Bounds {
	b := Bounds{
		Definition: d.Cup.Definition, Plane: h.CupPlane, LeastJump: g.LeastJump, LeastPatch: g.LeastPatch,
		Load: Loads[0],
	}
	if !g.Inclination.covers(allInclination) {
		b.Inclination = g.Inclination
	}
	if !g.Anteversion.covers(allAnteversion) {
		b.Anteversion = g.Anteversion
	}
	return b
}

// covers reports whether a range holds all of another, within rounding.
func (r Range) covers(o Range) bool { return r.Least <= o.Least+1e-9 && r.Most >= o.Most-1e-9 }

// Scatter returns the scatter of placements, without correlations.
func (g Goal) Scatter() Scatter { return Scatter{SD: g.SD} }

// Setting returns what motions need to know of the patient.
func (c *Case) Setting() motion.Setting {
	return motion.Setting{Tilts: c.Hip.Tilts, Mechanical: c.Goal.Mechanical}
}

// faults returns what is wrong between the values of a goal.
func (g Goal) faults() []Fault {
	var list []Fault
	check := func(key string, r Range) {
		if !(r.Most > r.Least) {
			list = append(list, Fault{Key: key, Design: -1, Value: degrees(r.Most), Min: degrees(r.Least), Reason: RangeReversed})
		}
	}
	check("bound_inclination_most_deg", g.Inclination)
	check("bound_anteversion_most_deg", g.Anteversion)
	return list
}
