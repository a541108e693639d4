package cohort

import (
	"reflect"

	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

// slot is where a case keeps the value of a parameter, so that it is set in
// place: Parameter.Set returns a copy of the whole case, which is more work
// than answering it. The zero value is no slot.
type slot struct {
	number *float64
	angle  *unit.Angle
	word   reflect.Value // of an integer kind
}

func (s slot) found() bool { return s.number != nil || s.angle != nil || s.word.IsValid() }

// put sets the value, given in the unit of files.
func (s slot) put(v float64) {
	switch {
	case s.number != nil:
		*s.number = v
	case s.angle != nil:
		*s.angle = unit.Angle(v) * unit.Degree
	default:
		s.word.SetInt(int64(v))
	}
}

// slotOf finds where the case at c keeps a parameter of design i: the only
// number that changes as the parameter is set. There is none where others
// follow it, or where it is only another reading of other values.
func slotOf(c *kinematics.Case, p *kinematics.Parameter, i int) slot {
	least, most := p.Min, p.Max
	if p.Derived || least == most {
		return slot{}
	}
	a, b := p.Set(*c, i, least), p.Set(*c, i, most)
	var found []reflect.Value
	differ(reflect.ValueOf(c).Elem(), reflect.ValueOf(&a).Elem(), reflect.ValueOf(&b).Elem(), &found)
	if len(found) != 1 {
		return slot{}
	}
	s := slotAt(found[0])
	if !s.found() || !s.serves(c, p, i) {
		return slot{}
	}
	return s
}

// differ collects the places of c at which a and b differ.
func differ(c, a, b reflect.Value, found *[]reflect.Value) {
	switch c.Kind() {
	case reflect.Struct:
		for i := range c.NumField() {
			differ(c.Field(i), a.Field(i), b.Field(i), found)
		}
	case reflect.Array:
		for i := range c.Len() {
			differ(c.Index(i), a.Index(i), b.Index(i), found)
		}
	default:
		if !a.Equal(b) {
			*found = append(*found, c)
		}
	}
}

func slotAt(v reflect.Value) slot {
	switch at := v.Addr().Interface().(type) {
	case *float64:
		return slot{number: at}
	case *unit.Angle:
		return slot{angle: at}
	}
	if v.CanInt() && v.CanSet() {
		return slot{word: v}
	}
	return slot{}
}

// serves reports whether setting in place does what Parameter.Set does.
func (s slot) serves(c *kinematics.Case, p *kinematics.Parameter, i int) bool {
	was := *c
	defer func() { *c = was }()
	for _, v := range []float64{p.Min, p.Max, p.Default} {
		want := p.Set(was, i, v)
		*c = was
		if s.put(v); *c != want {
			return false
		}
	}
	return true
}
