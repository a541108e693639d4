package kinematics

import (
	"math"
	"slices"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Kind says what sort of value a parameter has.
type Kind int

const (
	Number Kind = iota // a length or an angle on a range
	Choice             // one of Choices, stored as its index
)

// Unit of a number.
type Unit int

const (
	None Unit = iota
	Millimetre
	Degrees
)

// Scope says where a parameter lives: in the case, or in each of its designs.
type Scope int

const (
	OfCase Scope = iota
	OfDesign
)

// Group is the place in which a surgeon looks for a parameter.
type Group int

const (
	Bearing Group = iota
	CupGroup
	StemGroup
	HipGroup
	PostureGroup
	GroupCount
)

// Parameter is one row of the table that drives sliders, validation, undo
// names, flags, file schema and report rows. It holds no words; Key finds them
// per language. Values are in the unit of files and screen: mm, degrees, or
// the index of a choice.
type Parameter struct {
	Key      string // with its unit, as in the case file
	Kind     Kind
	Unit     Unit
	Scope    Scope
	Group    Group
	Min, Max float64
	Step     float64
	Default  float64
	Optional bool     // 0 means that the feature is absent, whatever Min says
	Choices  []string // keys of the choices
	Source   string   // key of the words on where range and default come from

	get func(c *Case, d *Design) float64
	set func(c *Case, d *Design, v float64)
}

// Get returns the value, of design i where the parameter belongs to a design.
func (p *Parameter) Get(c *Case, i int) float64 { return p.get(c, &c.Designs[i]) }

// Set returns the case with the value replaced. The value is not checked here
// (Check, Validate).
func (p *Parameter) Set(c Case, i int, v float64) Case {
	p.set(&c, &c.Designs[i], v)
	return c
}

// ParameterByKey returns the row with that key, nil if there is none.
func ParameterByKey(key string) *Parameter {
	i := slices.IndexFunc(Parameters, func(p Parameter) bool { return p.Key == key })
	if i < 0 {
		return nil
	}
	return &Parameters[i]
}

// Reason says what is wrong with a value.
type Reason int

const (
	OutOfRange    Reason = iota // not within Min to Max
	NotFinite                   // NaN or infinite
	NotAChoice                  // not the index of a choice
	NeckTooWide                 // the neck is not narrower than the head; Max is the bound
	TaperReversed               // a taper ends before it starts; Min is the bound
	NeverFree                   // no direction is free of contact: theta is at or below 0
)

// Fault is a value that cannot be. It has no words: present says it in the
// user's language. Design is the index of the design, -1 for the case itself.
type Fault struct {
	Key      string
	Design   int
	Value    float64
	Min, Max float64
	Reason   Reason
}

// Check returns what is wrong with a single value, nil if nothing is.
func (p *Parameter) Check(v float64) *Fault {
	f := &Fault{Key: p.Key, Design: -1, Value: v, Min: p.Min, Max: p.Max}
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		f.Reason = NotFinite
	case p.Kind == Choice && (v != math.Trunc(v) || v < 0 || int(v) >= len(p.Choices)):
		f.Reason = NotAChoice
	case p.Optional && v == 0:
		return nil
	case v < p.Min-1e-9 || v > p.Max+1e-9:
		f.Reason = OutOfRange
	default:
		return nil
	}
	return f
}

// Validate returns all that is wrong with a case; none of its answers may be
// shown while there is anything.
func Validate(c *Case) []Fault {
	var faults []Fault
	for k := range Parameters {
		p := &Parameters[k]
		n := 1
		if p.Scope == OfDesign {
			n = c.Count
		}
		for i := range n {
			if f := p.Check(p.Get(c, i)); f != nil {
				if p.Scope == OfDesign {
					f.Design = i
				}
				faults = append(faults, *f)
			}
		}
	}
	for i, d := range c.Active() {
		faults = append(faults, d.faults(i)...)
	}
	return faults
}

// Parameters is the table. Ranges are what the model is meant for, not what an
// implant maker offers.
var Parameters = []Parameter{
	length("head_diameter_mm", Bearing, 18, 70, 0.5, 32, "range_heads",
		func(d *Design) *float64 { return &d.Rim.HeadDiameter }),
	length("neck_diameter_mm", Bearing, 4, 66, 0.1, 12, "range_necks",
		func(d *Design) *float64 { return &d.Neck.Diameter }).optional(),
	angle("cup_arc_deg", Bearing, 130, 220, 0.5, 180, "range_arcs",
		func(d *Design) *unit.Angle { return &d.Rim.Arc }),
	length("wall_mm", Bearing, 0.5, 15, 0.1, 5, "range_walls",
		func(d *Design) *float64 { return &d.Rim.Wall }),
	length("inset_mm", Bearing, -6, 6, 0.1, 0, "range_insets",
		func(d *Design) *float64 { return &d.Rim.Inset }),
	length("rim_radius_mm", Bearing, 8, 40, 0.1, 0, "range_rim_circle",
		func(d *Design) *float64 { return &d.Rim.Edge.Radius }).optional(),
	length("rim_height_mm", Bearing, -10, 10, 0.1, 0, "range_rim_circle",
		func(d *Design) *float64 { return &d.Rim.Edge.Height }),
	length("taper_start_diameter_mm", Bearing, 4, 66, 0.1, 0, "range_necks",
		func(d *Design) *float64 { return &d.Neck.Taper.StartDiameter }).optional(),
	length("taper_start_mm", Bearing, 0, 60, 0.5, 0, "range_tapers",
		func(d *Design) *float64 { return &d.Neck.Taper.Start }),
	length("taper_end_diameter_mm", Bearing, 4, 66, 0.1, 0, "range_necks",
		func(d *Design) *float64 { return &d.Neck.Taper.EndDiameter }).optional(),
	length("taper_end_mm", Bearing, 0, 80, 0.5, 0, "range_tapers",
		func(d *Design) *float64 { return &d.Neck.Taper.End }),

	choice("cup_definition", OfDesign, CupGroup, []string{"radiographic", "operative", "anatomic"},
		func(_ *Case, d *Design) float64 { return float64(d.Cup.Definition) },
		func(_ *Case, d *Design, v float64) { d.Cup = d.Cup.Redefined(hip.Definition(v)) }),
	angle("cup_inclination_deg", CupGroup, 0, 90, 0.5, 40, "range_cup",
		func(d *Design) *unit.Angle { return &d.Cup.Inclination }),
	angle("cup_anteversion_deg", CupGroup, -60, 90, 0.5, 15, "range_cup",
		func(d *Design) *unit.Angle { return &d.Cup.Anteversion }),
	choice("cup_plane", OfCase, CupGroup, planes,
		func(c *Case, _ *Design) float64 { return float64(c.Hip.CupPlane) },
		func(c *Case, _ *Design, v float64) { c.Hip.CupPlane = hip.Plane(v) }),

	angle("stem_anteversion_deg", StemGroup, -30, 75, 0.5, 15, "range_stem",
		func(d *Design) *unit.Angle { return &d.Stem.Anteversion }),
	angle("neck_shaft_deg", StemGroup, 100, 165, 0.5, 135, "range_neck_shaft",
		func(d *Design) *unit.Angle { return &d.Stem.NeckShaft }),
	angle("stem_varus_deg", StemGroup, -15, 15, 0.5, 0, "range_stem_tilt",
		func(d *Design) *unit.Angle { return &d.Stem.Varus }),
	angle("stem_sagittal_tilt_deg", StemGroup, -15, 15, 0.5, 0, "range_stem_tilt",
		func(d *Design) *unit.Angle { return &d.Stem.SagittalTilt }),

	choice("side", OfCase, HipGroup, []string{"right", "left"},
		func(c *Case, _ *Design) float64 { return float64(c.Hip.Side) },
		func(c *Case, _ *Design, v float64) { c.Hip.Side = hip.Side(v) }),
	caseAngle("tilt_supine_deg", HipGroup, -50, 50, 0, "range_tilt",
		func(c *Case) *unit.Angle { return &c.Hip.Tilts.Supine }),
	caseAngle("tilt_standing_deg", HipGroup, -50, 50, 0, "range_tilt",
		func(c *Case) *unit.Angle { return &c.Hip.Tilts.Standing }),
	caseAngle("tilt_relaxed_sitting_deg", HipGroup, -80, 50, -22, "range_tilt_sitting",
		func(c *Case) *unit.Angle { return &c.Hip.Tilts.RelaxedSitting }),
	caseAngle("tilt_flexed_sitting_deg", HipGroup, -60, 60, 0, "range_tilt",
		func(c *Case) *unit.Angle { return &c.Hip.Tilts.FlexedSitting }),
	choice("posture_plane", OfCase, HipGroup, planes,
		func(c *Case, _ *Design) float64 { return float64(c.Hip.PosturePlane) },
		func(c *Case, _ *Design, v float64) { c.Hip.PosturePlane = hip.Plane(v) }).byDefault(float64(hip.Standing)),
	caseAngle("given_adduction_deg", HipGroup, -60, 60, 10, "range_given_adduction",
		func(c *Case) *unit.Angle { return &c.Hip.GivenAdduction }),

	caseAngle("flexion_deg", PostureGroup, -60, 180, 0, "range_posture",
		func(c *Case) *unit.Angle { return &c.Posture.Flexion }),
	caseAngle("adduction_deg", PostureGroup, -89, 89, 0, "range_posture",
		func(c *Case) *unit.Angle { return &c.Posture.Adduction }),
	caseAngle("internal_rotation_deg", PostureGroup, -180, 180, 0, "range_posture",
		func(c *Case) *unit.Angle { return &c.Posture.InternalRotation }),
}

var planes = []string{"app", "supine", "standing", "relaxed_sitting", "flexed_sitting"}

func length(key string, g Group, lo, hi, step, def float64, source string, at func(*Design) *float64) Parameter {
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

func caseAngle(key string, g Group, lo, hi, def float64, source string, at func(*Case) *unit.Angle) Parameter {
	return Parameter{Key: key, Unit: Degrees, Scope: OfCase, Group: g,
		Min: lo, Max: hi, Step: 0.5, Default: def, Source: source,
		get: func(c *Case, _ *Design) float64 { return degrees(*at(c)) },
		set: func(c *Case, _ *Design, v float64) { *at(c) = unit.Angle(v) * unit.Degree }}
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

// degrees rounds off the noise of the conversion, so that a value that was set
// as 40.1° is read and written as 40.1.
func degrees(a unit.Angle) float64 { return math.Round(a.Degrees()*1e9) / 1e9 }

// Default returns the case with one design and every parameter at its default.
func Default() Case {
	c := Case{Count: 1}
	for i := range MaxDesigns {
		for k := range Parameters {
			if p := &Parameters[k]; p.Scope == OfDesign || i == 0 {
				c = p.Set(c, i, p.Default)
			}
		}
	}
	return c
}
