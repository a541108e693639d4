// Package evidence holds the program against what is published: each relation
// with its source, the value that is published or derived without the program,
// the value the program computes now, the difference and a verdict. Nothing
// computed is copied.
package evidence

import (
	"math"

	"rimclear/kinematics/unit"
)

// Status says what the values of a relation rest on, from firm to weak.
type Status int

const (
	Found          Status = iota // read in a copy of the named text
	Quoted                       // read in a text that quotes the named one
	Derived                      // worked out without the program; checks the program, not the literature
	Memory                       // from memory: the named text was not seen
	CommonPractice               // in common use; no source
)

// statusKeys name the statuses in files and find their words.
var statusKeys = [...]string{"found", "quoted", "derived", "memory", "common_practice"}

// Key returns the word for the status in files.
func (s Status) Key() string { return statusKeys[s] }

// Bound says how a computed value must lie to the published one.
type Bound int

const (
	Equal Bound = iota
	AtLeast
	AtMost
)

var boundKeys = [...]string{"equal", "at_least", "at_most"}

// Key returns the word for the bound in files.
func (b Bound) Key() string { return boundKeys[b] }

// Value is one published value beside the one computed: angles in degrees,
// lengths in mm, or texts where Told is not "".
type Value struct {
	What                 string // of what, in the relation's symbols
	Published, Computed  float64
	Tolerance            float64
	Bound                Bound
	Told, ComputedAsText string
}

// Holds reports whether the program gives what is published. A value that is
// no number does not hold.
func (v Value) Holds() bool {
	if v.Told != "" {
		return v.Told == v.ComputedAsText
	}
	switch d := v.Computed - v.Published; v.Bound {
	case AtLeast:
		return d >= -v.Tolerance
	case AtMost:
		return d <= v.Tolerance
	default:
		return math.Abs(d) <= v.Tolerance
	}
}

// Difference returns by how much the computed value is off, for a bound by how
// much it lies on the wrong side.
func (v Value) Difference() float64 {
	d := v.Computed - v.Published
	switch {
	case v.Told != "":
		return 0
	case v.Bound == AtLeast:
		return max(0, -d)
	case v.Bound == AtMost:
		return max(0, d)
	}
	return math.Abs(d)
}

// Relation is what one source states, value by value. Key finds its words: what
// it is, and its source.
type Relation struct {
	Key      string
	Status   Status
	Decimals int // of its values
	Values   []Value
}

// Failed returns how many values do not hold.
func (r Relation) Failed() (n int) {
	for _, v := range r.Values {
		if !v.Holds() {
			n++
		}
	}
	return n
}

// Worst returns the largest difference.
func (r Relation) Worst() (d float64) {
	for _, v := range r.Values {
		d = max(d, v.Difference())
	}
	return d
}

// Report is all evidence there is.
type Report struct {
	Relations []Relation
	Golden    []Category
	Doubts    []Doubt
}

// Failed returns how many checks of the report do not hold.
func (r Report) Failed() (n int) {
	for _, x := range r.Relations {
		n += x.Failed()
	}
	for _, c := range r.Golden {
		n += c.Failed
	}
	return n
}

// Gather computes all evidence. It takes some seconds.
func Gather() Report {
	var r Report
	for _, relation := range relations {
		r.Relations = append(r.Relations, relation())
	}
	r.Golden = append(golden("contact"), golden("own")...)
	r.Doubts = doubts()
	return r
}

// relations are computed in this order.
var relations = []func() Relation{
	orientations, orientationsBack, tilts, tiltChange,
	oscillation, oscillationByRatio, practice, rimCircle, tapers, lips, skirts, offsets,
	limits, resurfacings, poses, rotations, slopes, counterpart, counterpartBound,
	widmerLine, widmerBands, caps, infeasible, boundCost,
	jumps, jumpsByArc, jumpTrends, patches, patchReached, hertz,
}

// printed is half a unit of the last of so many decimals, and a little: by so
// much a printed value may be off.
func printed(decimals int) float64 { return 0.51 * math.Pow10(-decimals) }

func deg(x float64) unit.Angle { return unit.Angle(x) * unit.Degree }
