package solve

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A dip is a triangle cut into a function: so wide, down to below zero.
type dip struct{ at, width, depth float64 }

// dented returns a plain of the given height and fall with dips in it, and the
// bound of its slope.
func dented(height, fall float64, dips ...dip) (Func, Bound) {
	slope := math.Abs(fall)
	for _, d := range dips {
		slope = math.Max(slope, (height+d.depth)/(d.width/2))
	}
	return func(x float64) float64 {
		v := height - fall*x
		for _, d := range dips {
			v = math.Min(v, -d.depth+slope*math.Abs(x-d.at))
		}
		return v
	}, Bound{Slope: slope}
}

func TestNoDipIsSteppedOverHoweverNarrow(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 300 {
		width := math.Pow(10, -1-3*r.Float64())
		height := math.Pow(10, -5*r.Float64())
		fall := height * (2*r.Float64() - 1) * 0.9
		d := dip{at: 0.05 + 0.9*r.Float64(), width: width, depth: height * (0.01 + r.Float64())}
		f, bound := dented(height, fall, d)
		x, found := FirstCrossing(f, 0, 1, bound)
		want := d.at - d.depth/bound.Slope
		if !found || math.Abs(x-want) > 1e-9 {
			t.Fatalf("FirstCrossing of a plain of height %.3g, fall %.3g with a dip %.3g wide at %.6f = %.9f, %v; want %.9f, true",
				height, fall, width, d.at, x, found, want)
		}
	}
}

func TestADipAMillionthWideIsFoundInAGentleFall(t *testing.T) {
	f, bound := dented(1, 0.1, dip{at: 0.7, width: 2e-6, depth: 0.2})
	x, found := FirstCrossing(f, 0, 1, bound)
	if want := 0.7 - 0.2/bound.Slope; !found || math.Abs(x-want) > 1e-9 {
		t.Errorf("FirstCrossing = %.9f, %v; want %.9f, true (the function is %.2g at 0.7)", x, found, want, f(0.7))
	}
}

func TestALowPlainIsNoLicenceToStride(t *testing.T) {
	f, bound := dented(5e-5, 1e-6, dip{at: 0.7, width: 2e-4, depth: 5e-5})
	x, found := FirstCrossing(f, 0, 1, bound)
	if want := 0.7 - 5e-5/bound.Slope; !found || math.Abs(x-want) > 1e-9 {
		t.Errorf("FirstCrossing = %.9f, %v; want %.9f, true (the function is %.2g at 0.7)", x, found, want, f(0.7))
	}
}

func TestADipAMillionthWideAnywhereIsFound(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	for range 4 {
		d := dip{at: 0.05 + 0.2*r.Float64(), width: 1e-6, depth: r.Float64()}
		f, bound := dented(1, r.Float64()-0.5, d)
		x, found := FirstCrossing(f, 0, 0.3, bound)
		if want := d.at - d.depth/bound.Slope; !found || math.Abs(x-want) > 1e-9 {
			t.Fatalf("FirstCrossing = %.9f, %v; want %.9f, true", x, found, want)
		}
	}
}

func TestTheFirstOfSeveralDipsIsTheAnswer(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	for range 300 {
		var dips []dip
		for range 3 {
			dips = append(dips, dip{at: 0.05 + 0.9*r.Float64(), width: 1e-3 + 0.01*r.Float64(), depth: 0.2 * (r.Float64() - 0.5)})
		}
		f, bound := dented(0.5, 0.2, dips...)
		want, exists := 2.0, false
		for _, d := range dips {
			if d.depth >= 0 {
				want, exists = math.Min(want, d.at-d.depth/bound.Slope), true
			}
		}
		x, found := FirstCrossing(f, 0, 1, bound)
		if found != exists || found && math.Abs(x-want) > 1e-9 {
			t.Fatalf("dips %+v: FirstCrossing = %.9f, %v; want %.9f, %v", dips, x, found, want, exists)
		}
	}
}

func TestAParabolaThatTouchesIsInContactAndOneThatDoesNotIsFree(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 18))
	for range 300 {
		at, curve := 0.1+0.8*r.Float64(), math.Pow(10, 3*r.Float64()-1)
		for _, c := range []struct {
			least float64
			want  bool
		}{{0, true}, {1e-12, true}, {-1e-7, true}, {1e-10, false}, {1e-7, false}, {1e-3, false}} {
			f := func(x float64) float64 { return c.least + curve*(x-at)*(x-at) }
			bound := Bound{Slope: 2 * curve, Zero: 1e-11}
			x, found := FirstCrossing(f, 0, 1, bound)
			if found != c.want {
				t.Fatalf("parabola of curvature %.3g and least value %g: found %v, want %v", curve, c.least, found, c.want)
			}
			if !found {
				continue
			}
			if f(x) > bound.Zero*1.001 || x > at+1e-9 {
				t.Fatalf("parabola with its bottom %g at %.6f: contact at %.9f, where it is %.3g", c.least, at, x, f(x))
			}
			if want := at - math.Sqrt(math.Max(0, bound.Zero-c.least)/curve); math.Abs(x-want) > 1e-7 {
				t.Fatalf("parabola with its bottom %g at %.6f: contact at %.9f, want %.9f", c.least, at, x, want)
			}
		}
	}
}

func TestContactIsLeftWhereTheFunctionRises(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 20))
	for range 300 {
		d := dip{at: 0.2 + 0.6*r.Float64(), width: 0.1 * r.Float64(), depth: 0.01 + r.Float64()}
		f, bound := dented(1, 0.1*r.Float64(), d)
		from, found := FirstCrossing(f, 0, 1, bound)
		if !found || f(from) > 0 {
			t.Fatalf("%+v: first in contact at %v, %v, where the function is %v", d, from, found, f(from))
		}
		to, left := LeavesAt(f, from, 1, bound)
		if want := d.at + d.depth/bound.Slope; !left || math.Abs(to-want) > 1e-9 {
			t.Fatalf("%+v: left at %.9f, %v; want %.9f, true", d, to, left, want)
		}
		if to, left := LeavesAt(f, from, d.at, bound); left || to != d.at {
			t.Fatalf("%+v: up to its bottom the contact is left at %v, %v", d, to, left)
		}
	}
}

func TestContactAtTheStartIsAtTheStart(t *testing.T) {
	for _, v := range []float64{0, -1} {
		if x, found := FirstCrossing(func(x float64) float64 { return v + x }, 0.25, 1, Bound{Slope: 1, Zero: 0.25}); !found || x != 0.25 {
			t.Errorf("a function that is %v + x: first crossing from 0.25 at %v, %v", v, x, found)
		}
	}
}

func TestWhereNothingCrossesTheEndIsReached(t *testing.T) {
	asked := 0
	x, found := FirstCrossing(func(float64) float64 { asked++; return 1 }, 0, 1, Bound{Slope: 2})
	if found || x != 1 {
		t.Errorf("FirstCrossing of the constant 1 = %v, %v; want 1, false", x, found)
	}
	if asked > 10 {
		t.Errorf("asked %d times where the bound allows steps of a half", asked)
	}
}

func TestAFunctionThatIsNotANumberEndsTheSearch(t *testing.T) {
	if _, found := FirstCrossing(func(float64) float64 { return math.NaN() }, 0, 1, Bound{Slope: 1}); found {
		t.Error("not a number counts as a crossing")
	}
}
