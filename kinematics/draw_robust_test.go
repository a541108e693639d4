package kinematics

import (
	"math"
	"os"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// often checks a property, in short mode with fewer draws, and with
// RIMCLEAR_LONG=1 as many times over as long says.
func often(t *testing.T, long int, property func(*rapid.T)) {
	t.Helper()
	rounds := 1
	if os.Getenv("RIMCLEAR_LONG") == "1" {
		rounds = long
	}
	for range rounds {
		rapid.Check(t, property)
	}
}

// edgy draws a value of a parameter: the ends of its range, steps from them,
// zero, the default, a step in between, or anything.
func edgy(t *rapid.T, p *Parameter) float64 {
	if p.Kind == Choice {
		return float64(rapid.IntRange(0, len(p.Choices)-1).Draw(t, p.Key))
	}
	steps := int((p.Max - p.Min) / p.Step)
	return rapid.OneOf(
		rapid.SampledFrom([]float64{p.Min, p.Max, p.Min + p.Step, p.Max - p.Step, p.Default, 0}),
		rapid.Map(rapid.IntRange(0, steps), func(i int) float64 { return p.Min + float64(i)*p.Step }),
		rapid.Float64Range(p.Min, p.Max),
	).Draw(t, p.Key)
}

// wrong draws a value that no parameter may have, or just beyond a range.
func wrong(t *rapid.T, p *Parameter) float64 {
	return rapid.SampledFrom([]float64{
		math.NaN(), math.Inf(1), math.Inf(-1), -math.MaxFloat64, math.MaxFloat64, math.SmallestNonzeroFloat64, 1e-300,
		p.Min - p.Step, p.Max + p.Step, math.Nextafter(p.Max, math.Inf(1)), math.Nextafter(p.Min, math.Inf(-1)), -1e-12,
	}).Draw(t, p.Key)
}

// edgyCase draws a case from the whole table: of each parameter, in a share of
// draws that is itself drawn, an edgy value, and rarely a wrong one.
func edgyCase(t *rapid.T) Case {
	c := Default()
	c.Count = rapid.SampledFrom([]int{1, 1, 1, 2, MaxDesigns}).Draw(t, "designs")
	dense := rapid.SampledFrom([]int{3, 10, 30, 100}).Draw(t, "dense, %")
	spoiled := rapid.IntRange(0, 4).Draw(t, "spoiled") == 0
	for i := range c.Active() {
		for k := range Parameters {
			p := &Parameters[k]
			if p.Scope == OfCase && i > 0 || rapid.IntRange(1, 100).Draw(t, "%") > dense {
				continue
			}
			v := edgy(t, p)
			if spoiled && p.Kind == Number && rapid.IntRange(0, 9).Draw(t, "wrong") == 0 {
				v = wrong(t, p)
			}
			c = p.Set(c, i, v)
		}
	}
	return c
}

// mended puts back to their default the values that are found fault with, until
// none is left; where that alone does not help the whole design and its socket
// are put back.
func mended(t *rapid.T, c Case) Case {
	for try := 0; ; try++ {
		faults := Validate(&c)
		if len(faults) == 0 {
			return c
		}
		for _, f := range faults {
			p := ParameterByKey(f.Key)
			if try > 3 && f.Design >= 0 {
				c.Designs[f.Design], c.Hip.Socket = Default().Designs[f.Design], Default().Hip.Socket
			}
			c = p.Set(c, max(f.Design, 0), p.Default)
			if p.Key == "bound_inclination_most_deg" || p.Key == "bound_anteversion_most_deg" {
				least := ParameterByKey(p.Key[:len(p.Key)-len("most_deg")] + "least_deg")
				c = least.Set(c, 0, least.Default)
			}
		}
		if try > 8 {
			t.Fatalf("faults that stay when every value is put back: %+v", faults)
		}
	}
}

// named checks that a fault says what is wrong: the key of a parameter, of the
// right scope, with its value, and a range that the value breaks.
func named(t *rapid.T, c *Case, f Fault) {
	if f.Key == "designs" {
		return
	}
	p := ParameterByKey(f.Key)
	switch {
	case p == nil:
		t.Fatalf("fault %+v names no parameter", f)
	case p.Scope == OfCase && f.Design != -1, p.Scope == OfDesign && (f.Design < 0 || f.Design >= c.Count):
		t.Fatalf("fault %+v is of the wrong design", f)
	case f.Reason != NotFinite && notANumber(f.Value), notANumber(f.Min), notANumber(f.Max):
		t.Fatalf("fault %+v has no number", f)
	case f.Reason == NotFinite && !notANumber(f.Value):
		t.Fatalf("%s = %v is found not finite", f.Key, f.Value)
	case f.Reason == OutOfRange && f.Value >= f.Min && f.Value <= f.Max:
		t.Fatalf("%s = %v is found outside %v to %v", f.Key, f.Value, f.Min, f.Max)
	case (f.Reason == OutOfRange || f.Reason == NotFinite) && f.Value != p.Get(c, max(f.Design, 0)) && !math.IsNaN(f.Value):
		t.Fatalf("fault %+v: the value is %v", f, p.Get(c, max(f.Design, 0)))
	case slices.Contains([]Reason{NeckTooWide, FaceTooNarrow, LipTooWide, LipTooHigh}, f.Reason) && f.Value < f.Max-1e-9:
		t.Fatalf("fault %+v: the value is below its bound", f)
	}
}

func notANumber(x float64) bool { return math.IsNaN(x) || math.IsInf(x, 0) }
