package kinematics

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

func TestWhatIsNotANumberIsRefused(t *testing.T) {
	for k := range Parameters {
		p := &Parameters[k]
		for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			f := p.Check(v)
			if f == nil || f.Reason != NotFinite || f.Key != p.Key {
				t.Errorf("%s: Check(%v) = %+v, want NotFinite", p.Key, v, f)
			}
			if p.Derived || p.Kind == Choice {
				continue
			}
			c := p.Set(Default(), 0, v)
			if faults := Validate(&c); len(faults) == 0 {
				t.Errorf("a case whose %s is %v passes", p.Key, v)
			}
		}
	}
}

func TestWhatIsOutOfRangeIsNamedWithItsRange(t *testing.T) {
	for k := range Parameters {
		p := &Parameters[k]
		for _, v := range []float64{p.Min - p.Step/10, p.Max + p.Step/10, -1e300, 1e300} {
			f := p.Check(v)
			if f == nil || f.Key != p.Key || f.Value != v || f.Min != p.Min || f.Max != p.Max {
				if p.Optional && v == 0 {
					continue
				}
				t.Errorf("%s: Check(%v) = %+v, want it refused with the range %v to %v", p.Key, v, f, p.Min, p.Max)
			}
		}
		if p.Kind == Choice && p.Check(0.5) == nil {
			t.Errorf("%s: half a choice passes", p.Key)
		}
		if p.Kind == Choice || p.Derived {
			continue
		}
		c := p.Set(Default(), 0, p.Max+p.Step)
		found := false
		for _, f := range Validate(&c) {
			found = found || f.Key == p.Key && f.Reason == OutOfRange
		}
		if !found {
			t.Errorf("%s of %v passes", p.Key, p.Max+p.Step)
		}
	}
}

func TestAFaultNamesItsDesign(t *testing.T) {
	c := Default()
	c.Count = 3
	c = ParameterByKey("neck_diameter_mm").Set(c, 2, 40)
	faults := Validate(&c)
	if len(faults) == 0 {
		t.Fatal("a neck wider than its head passes")
	}
	for _, f := range faults {
		if f.Design != 2 {
			t.Errorf("fault %+v is not of design 2", f)
		}
	}
	c = ParameterByKey("flexion_deg").Set(Default(), 0, 500)
	if faults := Validate(&c); len(faults) != 1 || faults[0].Design != -1 {
		t.Errorf("flexion of 500°: %+v, want one fault of the case", faults)
	}
}

func TestAnImpossibleNumberOfDesignsIsAFaultAndNoCrash(t *testing.T) {
	for _, n := range []int{-1, 0, MaxDesigns + 1, 1 << 40} {
		func() {
			defer func() {
				if r := recover(); r != nil {
					t.Errorf("a case of %d designs: Validate panics: %v", n, r)
				}
			}()
			c := Default()
			c.Count = n
			if len(Validate(&c)) == 0 {
				t.Errorf("a case of %d designs passes", n)
			}
		}()
	}
}

func TestANeckMustBeNarrowerThanItsHead(t *testing.T) {
	for _, neck := range []float64{32, 33, 66} {
		c := ParameterByKey("neck_diameter_mm").Set(Default(), 0, neck)
		faults := Validate(&c)
		if len(faults) == 0 || faults[0].Key != "neck_diameter_mm" || faults[0].Reason != NeckTooWide || faults[0].Max != 32 {
			t.Errorf("a neck of %g mm under a head of 32 mm: %+v, want NeckTooWide up to 32", neck, faults)
		}
	}
}

// Restating a valid cup in another definition leaves the axis where it is, so
// it must stay valid.
func TestAValidCupIsValidInEveryDefinition(t *testing.T) {
	definition, inclination, anteversion := ParameterByKey("cup_definition"), ParameterByKey("cup_inclination_deg"), ParameterByKey("cup_anteversion_deg")
	rapid.Check(t, func(t *rapid.T) {
		c := inclination.Set(Default(), 0, rapid.Float64Range(inclination.Min, inclination.Max).Draw(t, "inclination"))
		c = anteversion.Set(c, 0, rapid.Float64Range(anteversion.Min, anteversion.Max).Draw(t, "anteversion"))
		for k := range definition.Choices {
			if faults := Validate(ptr(definition.Set(c, 0, float64(k)))); len(faults) > 0 {
				t.Fatalf("cup %v/%v restated as %s: %+v", inclination.Get(&c, 0), anteversion.Get(&c, 0), definition.Choices[k], faults)
			}
		}
	})
}

func ptr(c Case) *Case { return &c }

// anyCase draws a case from the table: mostly inside the ranges and often on
// their edges, sometimes outside, a few features at a time.
func anyCase(t *rapid.T) Case {
	c := Default()
	for range rapid.IntRange(1, 12).Draw(t, "changes") {
		p := &Parameters[rapid.IntRange(0, len(Parameters)-1).Draw(t, "parameter")]
		var v float64
		switch rapid.IntRange(0, 9).Draw(t, "how") {
		case 0:
			v = p.Min
		case 1:
			v = p.Max
		case 2:
			v = 0
		case 3:
			v = rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), -1, 1e9, p.Max + 1e-10, p.Min - 1e-10, math.SmallestNonzeroFloat64}).Draw(t, "odd value")
			if p.Kind == Choice {
				v = 0
			}
		default:
			v = rapid.Float64Range(p.Min, p.Max).Draw(t, p.Key)
		}
		if p.Kind == Choice {
			v = float64(rapid.IntRange(0, len(p.Choices)-1).Draw(t, p.Key))
		}
		c = p.Set(c, 0, v)
	}
	return c
}

func TestAValidCaseHasFiniteAnswers(t *testing.T) {
	valid := 0
	rapid.Check(t, func(t *rapid.T) {
		c := anyCase(t)
		if len(Validate(&c)) > 0 {
			return
		}
		valid++
		Warnings(&c)
		d := c.Designs[0]
		if r := d.HeadNeckRatio(); !(r > 1) || math.IsInf(r, 0) {
			t.Fatalf("head-neck ratio %v of a valid case", r)
		}
		j := NewJoint(c.Hip, d)
		for _, a := range j.Answers(c.Hip) {
			if where := notFinite("answer", reflect.ValueOf(a)); where != "" {
				t.Fatalf("%s: %s is not finite: %+v", a.Question.Key, where, a.Limit)
			}
			if a.Limit.Contact.Clearance < 0 {
				t.Fatalf("%s: clearance %v mm", a.Question.Key, a.Limit.Contact.Clearance)
			}
		}
		if where := notFinite("contact", reflect.ValueOf(j.Contact(c.Posture))); where != "" {
			t.Fatalf("%s at the case's posture is not finite", where)
		}
	})
	t.Logf("%d of the drawn cases were valid", valid)
}

// notFinite returns the path of the first NaN or infinity within a value.
func notFinite(path string, v reflect.Value) string {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			return path
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if w := notFinite(path+"."+v.Type().Field(i).Name, v.Field(i)); w != "" {
				return w
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if w := notFinite(fmt.Sprintf("%s[%d]", path, i), v.Index(i)); w != "" {
				return w
			}
		}
	}
	return ""
}
