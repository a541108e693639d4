package cohort

import (
	"reflect"
	"sync"

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

// slotOf finds where the case at c keeps a parameter of design i. There is no
// slot where other values follow it, or where it is only another reading of
// other values.
func slotOf(c *kinematics.Case, p *kinematics.Parameter, i int) slot {
	path := paths()[p.Key]
	if path == nil {
		return slot{}
	}
	at := reflect.ValueOf(c).Elem()
	for k, step := range path {
		if at.Kind() == reflect.Struct {
			at = at.Field(step)
			continue
		}
		if k == 1 && p.Scope == kinematics.OfDesign { // the list of designs stands in the case itself
			step = i
		}
		at = at.Index(step)
	}
	return slotAt(at)
}

// paths are, by key, the fields and indices through which the first design, or
// the case, keeps a parameter: the only number that changes as it is set.
var paths = sync.OnceValue(func() map[string][]int {
	list, c := map[string][]int{}, kinematics.Default()
	for k := range kinematics.Parameters {
		p := &kinematics.Parameters[k]
		if p.Derived || p.Min == p.Max {
			continue
		}
		a, b := p.Set(c, 0, p.Min), p.Set(c, 0, p.Max)
		var found [][]int
		differ(reflect.ValueOf(a), reflect.ValueOf(b), nil, &found)
		if len(found) == 1 && slotServes(c, found[0], p) {
			list[p.Key] = found[0]
		}
	}
	return list
})

// differ collects the paths at which a and b differ.
func differ(a, b reflect.Value, path []int, found *[][]int) {
	switch a.Kind() {
	case reflect.Struct:
		for i := range a.NumField() {
			differ(a.Field(i), b.Field(i), append(path[:len(path):len(path)], i), found)
		}
	case reflect.Array:
		for i := range a.Len() {
			differ(a.Index(i), b.Index(i), append(path[:len(path):len(path)], i), found)
		}
	default:
		if !a.Equal(b) {
			*found = append(*found, path)
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

// slotServes reports whether setting in place does what Parameter.Set does.
func slotServes(usual kinematics.Case, path []int, p *kinematics.Parameter) bool {
	c := usual
	at := reflect.ValueOf(&c).Elem()
	for _, step := range path {
		if at.Kind() == reflect.Struct {
			at = at.Field(step)
		} else {
			at = at.Index(step)
		}
	}
	s := slotAt(at)
	if !s.found() {
		return false
	}
	for _, v := range []float64{p.Min, p.Max, p.Default} {
		c = usual
		if s.put(v); c != p.Set(usual, 0, v) {
			return false
		}
	}
	return true
}
