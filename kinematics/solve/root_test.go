package solve

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestRootFindsTheZeroToTheLastBits(t *testing.T) {
	for _, c := range []struct {
		name       string
		f          Func
		a, b, want float64
	}{
		{"a line", func(x float64) float64 { return x - 0.3 }, 0, 1, 0.3},
		{"a cubic with a flat zero", func(x float64) float64 { return math.Pow(x-0.4, 3) }, 0, 1, 0.4},
		{"the cosine", math.Cos, 0, 3, math.Pi / 2},
		{"a step", func(x float64) float64 { return math.Copysign(1, x-0.7) }, 0, 1, 0.7},
		{"a steep wall", func(x float64) float64 { return math.Atan(1e9 * (x - 0.123)) }, -1, 1, 0.123},
		{"an exponential", func(x float64) float64 { return math.Exp(x) - 2 }, 0, 2, math.Ln2},
		{"from right to left", func(x float64) float64 { return x - 0.3 }, 1, 0, 0.3},
	} {
		got := Root(c.f, c.a, c.b)
		tolerance := 2e-15
		if c.name == "a cubic with a flat zero" {
			tolerance = 1e-5 // its value underflows the change of sign
		}
		if math.Abs(got-c.want) > tolerance {
			t.Errorf("Root of %s = %.17g, want %.17g", c.name, got, c.want)
		}
	}
}

func TestRootOfAnEndIsThatEnd(t *testing.T) {
	f := func(x float64) float64 { return x }
	if got := Root(f, 0, 1); got != 0 {
		t.Errorf("Root = %v, want the end 0", got)
	}
	if got := Root(f, -1, 0); got != 0 {
		t.Errorf("Root = %v, want the end 0", got)
	}
}

func TestRootOfRandomMonotoneFunctions(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 2000 {
		want := r.Float64()
		p, k := 0.3+4*r.Float64(), math.Pow(10, 4*r.Float64()-2)
		f := func(x float64) float64 { return math.Copysign(math.Pow(math.Abs(k*(x-want)), p), x-want) }
		asked := 0
		got := Root(func(x float64) float64 { asked++; return f(x) }, -0.5, 1.5)
		if math.Abs(got-want) > 1e-12 && f(got) != 0 {
			t.Fatalf("Root of |%.3g (x - %.6f)|^%.3f = %.12f after %d values", k, want, p, got, asked)
		}
		if asked > 210 {
			t.Fatalf("asked %d times", asked)
		}
	}
}

func TestMinimumFindsTheBottom(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	for range 2000 {
		want, depth := r.Float64(), r.Float64()-0.5
		var f Func
		switch r.IntN(3) {
		case 0: // smooth
			k := 0.1 + 10*r.Float64()
			f = func(x float64) float64 { return depth + k*(x-want)*(x-want) }
		case 1: // a corner, steeper on one side
			k := 0.1 + 10*r.Float64()
			f = func(x float64) float64 { return depth + math.Max(k*(want-x), x-want) }
		default: // quartic
			f = func(x float64) float64 { return depth + math.Pow(x-want, 4) }
		}
		x, v := Minimum(f, 0, 1)
		if v != f(x) {
			t.Fatalf("Minimum returns the value %v at %v, where the function is %v", v, x, f(x))
		}
		if v-depth > 1e-6 {
			t.Fatalf("bottom %.9f at %.9f: found %.9f at %.9f", depth, want, v, x)
		}
	}
}

func TestMinimumOfAFunctionThatOnlyFallsOrRisesIsNearItsEnd(t *testing.T) {
	for _, c := range []struct {
		f    Func
		want float64
	}{{func(x float64) float64 { return -x }, 5}, {func(x float64) float64 { return x }, 2}} {
		x, v := Minimum(c.f, 2, 5)
		if math.Abs(x-c.want) > 1e-6 || v != c.f(x) {
			t.Errorf("Minimum on [2, 5] = %v at %v, want it near %v", v, x, c.want)
		}
	}
}
