package kinematics

import (
	"fmt"
	"io"
	"slices"

	"rimclear/kinematics/form"
	"rimclear/kinematics/motion"
)

// Bearing is a bearing to start from: the values it sets in the table of
// parameters, each with what it rests on. It holds no words: Key finds its name;
// one from a user's file brings its own Name. It says nothing of how cup and
// stem are placed.
type Bearing struct {
	Key    string
	Name   string // of a user's bearing; "" for one built in
	Source string
	Values []Size
}

// Size is one value of a bearing, in the unit of its key. Source is the
// bearing's where it has none of its own.
type Size struct {
	Key    string
	Value  float64 // for a choice its index
	Basis  motion.Basis
	Source string
}

// Basis returns the weakest basis of the bearing's values.
func (b Bearing) Basis() motion.Basis {
	worst := motion.Own
	for _, v := range b.Values {
		worst = max(worst, v.Basis)
	}
	return worst
}

// ofBearing reports whether a bearing may set a parameter: all of bearing, rim
// and neck, and how a resurfaced head sits on its neck.
func ofBearing(p *Parameter) bool {
	switch p.Group {
	case BearingGroup, RimGroup, NeckGroup:
		return p.Scope == OfDesign
	}
	return p.Key == "component_to_neck_deg"
}

// Apply returns the case with design i changed to the bearing: everything that
// a bearing may set is set, to its value or the parameter's default. Placement
// and name stay.
func (b Bearing) Apply(c Case, i int) Case {
	for _, derived := range [2]bool{false, true} { // other readings follow from the stored values
		for k := range Parameters {
			p := &Parameters[k]
			if !ofBearing(p) || p.Derived != derived {
				continue
			}
			at := slices.IndexFunc(b.Values, func(v Size) bool { return v.Key == p.Key })
			switch {
			case at >= 0:
				p.Put(&c, i, b.Values[at].Value)
			case !derived:
				p.Put(&c, i, b.blank(p))
			}
		}
	}
	return c
}

// blank is what a parameter is set to that the bearing does not name: its
// default, but no cylinder where the bearing has a neck of another kind.
func (b Bearing) blank(p *Parameter) float64 {
	if p.Key == "neck_diameter_mm" && slices.ContainsFunc(b.Values, func(v Size) bool {
		return v.Value != 0 && (v.Key == "oval_width_mm" || v.Key == "trapezoid_width_mm" || v.Key == "taper_start_diameter_mm")
	}) {
		return 0
	}
	return p.Default
}

// What a file of bearings says of itself, and how much it may hold.
const (
	CatalogueFormat  = "rimclear-bearings"
	CatalogueVersion = 1

	mostCatalogueBytes = 1 << 20
	mostBearings       = 500
)

// ReadCatalogue reads a file of bearings. The error is form.Problems and names
// every value that is wrong, where it stands, and what is allowed; nothing is
// read in part. Each bearing is tried on the default case and must be valid
// there.
//
// The file is JSON: {"format": "rimclear-bearings", "version": 1, "bearings":
// [{"key": …, "name": …, "source": …, "values": {…}}]}. A value stands under a
// parameter's key, in its unit: a number, the word of a choice, or {"value",
// "basis", "source"}.
func ReadCatalogue(r io.Reader) ([]Bearing, error) {
	v, err := form.Read(r, mostCatalogueBytes)
	if err != nil {
		return nil, err
	}
	c := catalogueReader{}
	top := c.Fields(v, "format", "version", "bearings")
	if top.IsFormat(CatalogueFormat, CatalogueVersion) {
		for _, v := range top.List("bearings", 0, mostBearings) {
			c.bearing(v)
		}
	}
	if err := c.Problems.Err(); err != nil {
		return nil, err
	}
	return c.list, nil
}

// catalogueReader builds a list of bearings and collects what is wrong on the
// way.
type catalogueReader struct {
	form.Reader
	list []Bearing
}

func (c *catalogueReader) bearing(v form.Value) {
	f := c.Fields(v, "key", "name", "source", "values")
	b := Bearing{Key: f.Key("key"), Name: f.OneLine("name", 80), Source: f.OneLine("source", 400)}
	f.Need("source")
	before := len(c.Problems)
	if values, ok := f.Need("values"); ok {
		for _, m := range c.Fields(values, bearingKeys()...).Members {
			c.value(&b, m)
		}
	}
	if slices.ContainsFunc(c.list, func(o Bearing) bool { return o.Key == b.Key && b.Key != "" }) {
		c.Wrong(v, fmt.Sprintf("the key %q stands twice", b.Key))
	}
	if len(c.Problems) == before {
		c.try(v, b)
	}
	c.list = append(c.list, b)
}

func bearingKeys() []string {
	var keys []string
	for k := range Parameters {
		if ofBearing(&Parameters[k]) {
			keys = append(keys, Parameters[k].Key)
		}
	}
	return keys
}

func (c *catalogueReader) value(b *Bearing, m form.Member) {
	p := ParameterByKey(m.Key)
	if p == nil || !ofBearing(p) {
		return // noted as no such field
	}
	size := Size{Key: m.Key}
	v := m.Value
	if v.Kind == form.Object {
		f := c.Fields(v, "value", "basis", "source")
		if basis, ok := f.Need("basis"); ok {
			size.Basis = motion.Basis(max(0, c.Word(basis, motion.BasisKeys)))
		}
		size.Source = f.OneLine("source", 400)
		v, _ = f.Need("value")
	}
	switch {
	case v.Kind == form.Null && v.Line == 0: // missing, and noted
	case p.Kind == Choice:
		size.Value = float64(max(0, c.Word(v, p.Choices)))
	case p.Optional && v.Kind == form.Number && c.isZero(v):
	default:
		size.Value = c.Number(v, p.Min, p.Max)
	}
	b.Values = append(b.Values, size)
}

// isZero reports whether a number is 0, which leaves a feature out.
func (c *catalogueReader) isZero(v form.Value) bool {
	var r form.Reader
	r.Number(v, 0, 0)
	return len(r.Problems) == 0
}

// try puts the bearing into the default case and notes what cannot be.
func (c *catalogueReader) try(v form.Value, b Bearing) {
	applied := b.Apply(Default(), 0)
	for _, f := range Validate(&applied) {
		c.Problems = append(c.Problems, form.Problem{
			Line: v.Line, Place: v.Place + ".values." + f.Key, Value: fmt.Sprintf("%g", f.Value), Must: misfit(f),
		})
	}
}

// misfit says in words of a file what is wrong between the values of a
// bearing.
func misfit(f Fault) string {
	switch f.Reason {
	case OutOfRange:
		return fmt.Sprintf("must be from %g to %g", f.Min, f.Max)
	case NeckTooWide:
		return fmt.Sprintf("the neck must be narrower than %g", f.Max)
	case TaperReversed:
		return fmt.Sprintf("the taper must end after %g", f.Min)
	case NeverFree:
		return "no direction is free of contact"
	case NeckMissing:
		return "the neck needs a diameter, a taper or a section"
	case Incomplete:
		return "is needed by the values beside it"
	case SectionTwice:
		return "a neck has one section, an oval or a trapezoid"
	case AxisOutside:
		return "the neck axis must run inside its section"
	case CornersTooRound:
		return "the corners do not fit the sides"
	case LipTooWide, LipTooHigh, FaceTooNarrow:
		return fmt.Sprintf("must be at most %g", f.Max)
	}
	return "does not fit the values beside it"
}
