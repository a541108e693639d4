package kinematics

import (
	"math"

	"rimclear/kinematics/unit"
)

var planes = []string{"app", "supine", "standing", "relaxed_sitting", "flexed_sitting"}

func millimetres(key string, g Group, lo, hi, step, def float64, source string, at func(*Design) *float64) Parameter {
	return Parameter{Key: key, Unit: Millimetre, Scope: OfDesign, Group: g,
		Min: lo, Max: hi, Step: step, Default: def, Source: source,
		get: func(_ *Case, d *Design) float64 { return *at(d) },
		set: func(_ *Case, d *Design, v float64) { *at(d) = v }}
}

func angle(key string, g Group, lo, hi, step, def float64, source string, at func(*Design) *unit.Angle) Parameter {
	return Parameter{Key: key, Unit: Degrees, Scope: OfDesign, Group: g,
		Min: lo, Max: hi, Step: step, Default: def, Source: source,
		get: func(_ *Case, d *Design) float64 { return degrees(*at(d)) },
		set: func(_ *Case, d *Design, v float64) { *at(d) = unit.Angle(v) * unit.Degree }}
}

// setBy replaces how a design's value is set, where others follow it.
func (p Parameter) setBy(set func(d *Design, v float64)) Parameter {
	p.set = func(_ *Case, d *Design, v float64) { set(d, v) }
	return p
}

func caseMillimetres(key string, lo, hi, def float64, source string, at func(*Case) *float64) Parameter {
	return Parameter{Key: key, Unit: Millimetre, Scope: OfCase, Group: HipGroup,
		Min: lo, Max: hi, Step: 0.5, Default: def, Source: source,
		get: func(c *Case, _ *Design) float64 { return *at(c) },
		set: func(c *Case, _ *Design, v float64) { *at(c) = v }}
}

// derived is another reading of values that are stored elsewhere.
func derived(key string, u Unit, g Group, lo, hi, step float64, source string, get func(*Design) float64, set func(*Design, float64)) Parameter {
	return Parameter{Key: key, Unit: u, Scope: OfDesign, Group: g,
		Min: lo, Max: hi, Step: step, Source: source, Derived: true,
		get: func(_ *Case, d *Design) float64 { return math.Round(get(d)*1e9) / 1e9 },
		set: func(_ *Case, d *Design, v float64) { set(d, v) }}
}

func caseAngle(key string, g Group, lo, hi, def float64, source string, at func(*Case) *unit.Angle) Parameter {
	return Parameter{Key: key, Unit: Degrees, Scope: OfCase, Group: g,
		Min: lo, Max: hi, Step: 0.5, Default: def, Source: source,
		get: func(c *Case, _ *Design) float64 { return degrees(*at(c)) },
		set: func(c *Case, _ *Design, v float64) { *at(c) = unit.Angle(v) * unit.Degree }}
}

func goalAngle(key string, lo, hi, step, def float64, source string, at func(*Case) *unit.Angle) Parameter {
	p := caseAngle(key, GoalGroup, lo, hi, def, source, at)
	p.Step = step
	return p
}

// goalLength is a least length in mm, 0 for none.
func goalLength(key string, lo, hi float64, source string, at func(*Case) *float64) Parameter {
	p := caseMillimetres(key, lo, hi, 0, source, at).optional()
	p.Group = GoalGroup
	return p
}

func choice(key string, s Scope, g Group, choices []string, get func(*Case, *Design) float64, set func(*Case, *Design, float64)) Parameter {
	return Parameter{Key: key, Kind: Choice, Scope: s, Group: g, Step: 1,
		Max: float64(len(choices) - 1), Choices: choices, get: get, set: set}
}

func (p Parameter) optional() Parameter {
	p.Optional = true
	return p
}

func (p Parameter) byDefault(v float64) Parameter {
	p.Default = v
	return p
}
