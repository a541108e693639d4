package kinematics

import (
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
)

func TestTheDefaultCaseIsFine(t *testing.T) {
	c := Default()
	if faults := Validate(&c); len(faults) > 0 {
		t.Errorf("Validate(Default()) = %+v", faults)
	}
	for i := range MaxDesigns {
		for k := range Parameters {
			p := &Parameters[k]
			if got := p.Get(&c, i); !p.Derived && got != p.Default {
				t.Errorf("design %d: %s of the default case is %v, want %v", i, p.Key, got, p.Default)
			}
		}
	}
	c.Count = MaxDesigns
	if faults := Validate(&c); len(faults) > 0 {
		t.Errorf("with all designs in use: %+v", faults)
	}
	if n := len(Warnings(&c)); n > 0 && c.Count == 1 {
		t.Errorf("the default case has %d warnings", n)
	}
}

func TestEachParameterIsWellMade(t *testing.T) {
	keys := map[string]bool{}
	for _, p := range Parameters {
		if keys[p.Key] {
			t.Errorf("two parameters have the key %q", p.Key)
		}
		keys[p.Key] = true
		if p.Kind == Choice {
			if len(p.Choices) < 2 || p.Max != float64(len(p.Choices)-1) || p.Min != 0 || p.Unit != None {
				t.Errorf("%s: choices %q, range %v to %v", p.Key, p.Choices, p.Min, p.Max)
			}
		} else {
			want := map[Unit]string{Millimetre: "_mm", Degrees: "_deg"}[p.Unit]
			if want != "" && !strings.HasSuffix(p.Key, want) {
				t.Errorf("%s does not end in its unit %q", p.Key, want)
			}
			if p.Source == "" {
				t.Errorf("%s: nothing says where its range comes from", p.Key)
			}
		}
		if !(p.Min < p.Max) || !(p.Step > 0) {
			t.Errorf("%s: range %v to %v by %v", p.Key, p.Min, p.Max, p.Step)
		}
		if p.Check(p.Default) != nil && !p.Derived {
			t.Errorf("%s: its default %v is not allowed", p.Key, p.Default)
		}
		if ParameterByKey(p.Key) == nil || ParameterByKey(p.Key).Key != p.Key {
			t.Errorf("%s is not found by its key", p.Key)
		}
	}
	if ParameterByKey("no_such_key") != nil {
		t.Error("a key that is not in the table is found")
	}
}

// typed are values of a parameter as a user types them: its edges, and decimals
// in between.
func typed(p *Parameter) []float64 {
	if p.Kind == Choice {
		var all []float64
		for i := range p.Choices {
			all = append(all, float64(i))
		}
		return all
	}
	values := []float64{p.Min, p.Max, p.Default, 40.1, 0.1, 0.3, 12.7, -0.7, 33.3}
	r := rand.New(rand.NewPCG(40, 1))
	for range 20 {
		values = append(values, math.Round((p.Min+(p.Max-p.Min)*r.Float64())*1000)/1000)
	}
	return slices.DeleteFunc(values, func(v float64) bool { return v < p.Min || v > p.Max })
}

func TestATypedValueIsReadBackAsTyped(t *testing.T) {
	base := Default()
	for k := range Parameters {
		p := &Parameters[k]
		if p.Derived {
			continue
		}
		for i := range MaxDesigns {
			for _, v := range typed(p) {
				c := p.Set(base, i, v)
				if got := p.Get(&c, i); got != v {
					t.Fatalf("%s of design %d: set to %v, read back as %v", p.Key, i, v, got)
				}
			}
		}
	}
}

// A derived reading is one of values that are stored elsewhere: setting it must
// set them, whatever else the design has.
func TestADerivedValueIsReadBackAsTyped(t *testing.T) {
	oval := Default()
	for key, v := range map[string]float64{"head_diameter_mm": 46, "oval_width_mm": 30, "oval_depth_mm": 34} {
		oval = ParameterByKey(key).Set(oval, 0, v)
	}
	rolled := ParameterByKey("oval_roll_deg").Set(oval, 0, 25)
	rolled = ParameterByKey("oval_superior_shift_mm").Set(rolled, 0, 1.5)
	for name, base := range map[string]Case{"an oval neck": oval, "an oval neck rolled and shifted": rolled} {
		for k := range Parameters {
			p := &Parameters[k]
			if !p.Derived {
				continue
			}
			for _, v := range []float64{4, 4.5, 6.3} {
				c := p.Set(base, 0, v)
				if got := p.Get(&c, 0); math.Abs(got-v) > 1e-8 {
					t.Errorf("%s under %s: set to %v, read back as %v", p.Key, name, v, got)
				}
			}
		}
	}
}

// Where a derived reading cannot be set it must leave no trace either.
func TestADerivedValueThatCannotBeSetLeavesNoTrace(t *testing.T) {
	base := Default()
	for k := range Parameters {
		p := &Parameters[k]
		if !p.Derived {
			continue
		}
		c := p.Set(base, 0, 5)
		if got := p.Get(&c, 0); math.Abs(got-5) > 1e-8 && c != base {
			t.Errorf("%s of a round neck: set to 5 and read back as %v, yet the case has changed", p.Key, got)
		}
	}
}

func TestSettingAParameterTouchesNothingElse(t *testing.T) {
	alsoMoves := map[string][]string{
		// Restating the cup in another definition leaves its axis and so changes its angles.
		"cup_definition": {"cup_inclination_deg", "cup_anteversion_deg"},
	}
	before := Default()
	for k := range Parameters {
		p := &Parameters[k]
		if p.Derived {
			continue
		}
		for _, v := range typed(p) {
			after := p.Set(before, 1, v)
			for m := range Parameters {
				q := &Parameters[m]
				for i := range MaxDesigns {
					same := q.Get(&before, i) == q.Get(&after, i)
					moved := q.Key == p.Key || q.Derived || slices.Contains(alsoMoves[p.Key], q.Key)
					if !same && !(moved && (i == 1 || p.Scope == OfCase)) {
						t.Fatalf("setting %s of design 1 to %v moves %s of design %d from %v to %v", p.Key, v, q.Key, i, q.Get(&before, i), q.Get(&after, i))
					}
				}
			}
		}
	}
}

// outside lists the fields that no parameter sets, each with its reason.
var outside = map[string]string{
	"Label":         "free text, not a value",
	"Count":         "set by adding and removing designs",
	"Designs.Name":  "free text, not a value",
	"Goal.Motions":  "a list of keys, not a value",
	"Goal.Criteria": "a key, not a value",
}

func TestEveryFieldOfACaseIsReachedByAParameter(t *testing.T) {
	reached := map[string]bool{}
	bases := []Case{Default(), everyFeature()}
	for k := range Parameters {
		p := &Parameters[k]
		for _, v := range typed(p) {
			// From the default and from a case with every feature present.
			for _, from := range bases {
				after := p.Set(from, 0, v)
				differences("", reflect.ValueOf(from), reflect.ValueOf(after), reached)
			}
		}
	}
	all := map[string]bool{}
	leaves("", reflect.TypeOf(Case{}), all)
	for path := range all {
		_, excused := outside[path]
		switch {
		case !reached[path] && !excused:
			t.Errorf("no parameter sets %s: give it a row, or a reason in this test", path)
		case reached[path] && excused:
			t.Errorf("%s is set by a parameter, and this test says why it is not", path)
		}
	}
	for path := range outside {
		if !all[path] {
			t.Errorf("this test excuses %s, which is no field", path)
		}
	}
}

// everyFeature is the default case with every number a little off its default, so
// that readings derived from several of them move.
func everyFeature() Case {
	c := Default()
	for k := range Parameters {
		p := &Parameters[k]
		if !p.Derived && p.Kind == Number {
			c = p.Set(c, 0, math.Min(p.Max, math.Max(p.Min, p.Default+p.Step)))
		}
	}
	return c
}

// leaves lists the paths of all values within a type; elements of an array
// after the first count under their own index where the type is not a design.
func leaves(path string, typ reflect.Type, into map[string]bool) {
	switch typ.Kind() {
	case reflect.Struct:
		for i := range typ.NumField() {
			f := typ.Field(i)
			leaves(joined(path, f.Name), f.Type, into)
		}
	case reflect.Array:
		if typ.Elem() == reflect.TypeOf(Design{}) {
			leaves(path, typ.Elem(), into)
			return
		}
		for i := range typ.Len() {
			leaves(path+"["+string(rune('0'+i))+"]", typ.Elem(), into)
		}
	default:
		into[path] = true
	}
}

// differences marks the leaves at which two values differ.
func differences(path string, a, b reflect.Value, into map[string]bool) {
	switch a.Kind() {
	case reflect.Struct:
		for i := range a.NumField() {
			differences(joined(path, a.Type().Field(i).Name), a.Field(i), b.Field(i), into)
		}
	case reflect.Array:
		for i := range a.Len() {
			at := path
			if a.Type().Elem() != reflect.TypeOf(Design{}) {
				at += "[" + string(rune('0'+i)) + "]"
			}
			differences(at, a.Index(i), b.Index(i), into)
		}
	default:
		if !a.Equal(b) {
			into[path] = true
		}
	}
}

func joined(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}
