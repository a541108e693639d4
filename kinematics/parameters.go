package kinematics

import (
	"math"
	"slices"

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
	BearingGroup Group = iota
	RimGroup
	NeckGroup
	CupGroup
	StemGroup
	HipGroup
	PostureGroup
	GoalGroup
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
	Derived  bool     // another reading of stored values: settable, but not in the case file
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
	p.Put(&c, i, v)
	return c
}

// Put is Set in place: a case is large, and a copy of it takes longer than most
// of its answers.
func (p *Parameter) Put(c *Case, i int, v float64) { p.set(c, &c.Designs[i], v) }

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
	OutOfRange      Reason = iota // not within Min to Max
	NotFinite                     // NaN or infinite
	NotAChoice                    // not the index of a choice
	NeckTooWide                   // the neck is not narrower than the head; Max is the bound
	TaperReversed                 // a taper ends before it starts; Min is the bound
	NeverFree                     // no direction is free of contact
	NeckMissing                   // no diameter, taper or section is given
	Incomplete                    // the feature needs this value too
	SectionTwice                  // two sections are given, of which a neck has one
	AxisOutside                   // the neck axis runs outside its own section
	CornersTooRound               // the section's corners do not fit its sides
	LipTooWide                    // plateau and ramps are longer than the rim; Max is the bound
	LipTooHigh                    // the lip closes over the head; Max is the bound
	FaceTooNarrow                 // the cut is wider than the wall; Max is the bound
	RimInsideHead                 // the rim circle lies inside the head; Min is the head's radius
	InsetTooDeep                  // the neck could touch the bearing below the rim, which is not modelled
	TooManyDesigns                // not 1 to MaxDesigns
	NotThisSocket                 // the socket does not hold it; Min and Max are what it holds
	RangeReversed                 // a range ends before it starts; Min is where it starts
	NeckOverhangs                 // a warning: answers are not exact under such an edge; Value is the taper's start
	NeckNearHead                  // a warning: less head-neck offset than published; Min is the least
	SocketFree                    // a warning: designs are not tied to one socket
	NoEffect                      // a warning: another value takes its place
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
	if c.Count < 1 || c.Count > MaxDesigns {
		faults = append(faults, Fault{Key: "designs", Design: -1, Value: float64(c.Count), Min: 1, Max: MaxDesigns, Reason: TooManyDesigns})
	}
	for k := range Parameters {
		p := &Parameters[k]
		n := 1
		if p.Scope == OfDesign {
			n = len(c.Active())
		}
		if p.Derived {
			continue
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
	faults = append(faults, c.Goal.faults()...)
	for i, d := range c.Active() {
		for _, f := range slices.Concat(d.faults(i), c.Hip.Socket.faults(d)) {
			f.Design = i
			faults = append(faults, f)
		}
	}
	return slices.DeleteFunc(faults, Fault.vain)
}

// vain reports whether a fault compares with what is no number, which has a
// fault of its own.
func (f Fault) vain() bool {
	no := func(x float64) bool { return math.IsNaN(x) || math.IsInf(x, 0) }
	return f.Reason != NotFinite && (no(f.Value) || no(f.Min) || no(f.Max))
}

// degrees rounds off the noise of the conversion, so that a value that was set
// as 40.1° is read and written as 40.1.
func degrees(a unit.Angle) float64 { return math.Round(a.Degrees()*1e9) / 1e9 }

// Default returns the case with one design and every parameter at its default.
func Default() Case {
	c := Case{Count: 1}
	c.Goal.Motions = usualMotions
	for i := range MaxDesigns {
		for k := range Parameters {
			if p := &Parameters[k]; !p.Derived && (p.Scope == OfDesign || i == 0) {
				p.Put(&c, i, p.Default)
			}
		}
	}
	return c
}
