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
