package sphere

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/unit"
)

func random(r *rand.Rand) r3.Vec {
	for {
		v := r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()}
		if r3.Norm(v) > 1e-3 {
			return r3.Unit(v)
		}
	}
}

// within returns a random direction within an angle of an axis.
func within(r *rand.Rand, axis r3.Vec, angle unit.Angle) r3.Vec {
	across := Toward(axis, random(r))
	return r3.Unit(Turn(axis, r3.Unit(r3.Cross(axis, across)), unit.Angle(r.Float64())*angle))
}

// sought returns the least over all axes in the hemisphere about a start of
// the greatest angle to a set, by golden section within golden section. In the
// gnomonic chart caps are convex, so the greatest angle falls and then rises
// along any line. It knows nothing of supports.
func sought(start r3.Vec, reach float64, greatest func(axis r3.Vec) unit.Angle) (r3.Vec, unit.Angle) {
	t := Toward(start, r3.Vec{X: 1, Y: 2, Z: 3})
	s := r3.Cross(start, t)
	at := func(x, y float64) r3.Vec {
		return r3.Unit(r3.Add(start, r3.Add(r3.Scale(x, t), r3.Scale(y, s))))
	}
	down := func(x float64) (float64, float64) {
		return golden(reach, func(y float64) float64 { return float64(greatest(at(x, y))) })
	}
	x, least := golden(reach, func(x float64) float64 {
		_, v := down(x)
		return v
	})
	y, _ := down(x)
	return at(x, y), unit.Angle(least)
}

// golden returns the place and value of the least f on [-reach, reach].
func golden(reach float64, f func(float64) float64) (x, v float64) {
	const g = 0.6180339887498949
	a, b := -reach, reach
	c, d := b-g*(b-a), a+g*(b-a)
	fc, fd := f(c), f(d)
	for b-a > 1e-9 {
		if fc < fd {
			b, d, fd = d, c, fc
			c = b - g*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + g*(b-a)
			fd = f(d)
		}
	}
	if fc < fd {
		return c, fc
	}
	return d, fd
}

func TestSmallestCapOfADirectionIsThatDirection(t *testing.T) {
	u := r3.Vec{X: 0.6, Y: 0.8}
	e := EncloseDirections([]r3.Vec{u, u})
	if !e.Fits || e.Radius > 1e-12 || Between(e.Axis, u) > 1e-12 {
		t.Errorf("EncloseDirections(u, u) = %+v; want u itself", e)
	}
}

func TestSmallestCapOfTwoDirectionsIsHalfWayBetween(t *testing.T) {
	a, b := r3.Vec{X: 1}, r3.Vec{Y: 1}
	e := EncloseDirections([]r3.Vec{a, b})
	if !e.Fits || math.Abs(e.Radius.Degrees()-45) > 1e-12 {
		t.Errorf("EncloseDirections(X, Y) has radius %.12f°, want 45°", e.Radius.Degrees())
	}
}

func TestCornerOfACubeBindsWithAllThreeEdges(t *testing.T) {
	e := EncloseDirections([]r3.Vec{{X: 1}, {Y: 1}, {Z: 1}})
	if want := math.Acos(1 / math.Sqrt(3)); math.Abs(float64(e.Radius)-want) > 1e-14 || len(e.Support) != 3 {
		t.Errorf("radius %.15f rad by %d points, want %.15f by 3", float64(e.Radius), len(e.Support), want)
	}
}

func TestDirectionsAllRoundFitNoHemisphereAndTheWitnessShowsIt(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 4))
	for range 300 {
		set := []r3.Vec{}
		for range 3 + r.IntN(20) {
			u := random(r)
			set = append(set, u, r3.Unit(r3.Add(r3.Scale(-1, u), r3.Scale(0.05, random(r)))))
		}
		e := EncloseDirections(set)
		if e.Fits {
			t.Fatalf("a set of %d near-opposite pairs fits a cap of %.3f°", len(set)/2, e.Radius.Degrees())
		}
		if !surrounds(e.Support) {
			t.Fatalf("witness %v lies in an open hemisphere", e.Support)
		}
	}
}

// surrounds reports whether no open hemisphere holds the points: none about a
// normal of a pair of them does, nor about one of them (Gordan's alternative,
// tried out on all vertices of the cone of normals).
func surrounds(p []Point) bool {
	var axes []r3.Vec
	for i := range p {
		axes = append(axes, p[i].At, r3.Scale(-1, p[i].At))
		for k := range i {
			if n := r3.Cross(p[i].At, p[k].At); r3.Norm(n) > 1e-12 {
				axes = append(axes, r3.Unit(n), r3.Scale(-1, r3.Unit(n)))
			}
		}
	}
	// A sum of vertices is inside the cone of normals if there is one.
	for i := range axes {
		for k := range axes {
			for l := range axes {
				n := r3.Add(axes[i], r3.Add(axes[k], axes[l]))
				least := math.Inf(1)
				for _, q := range p {
					least = min(least, r3.Dot(n, q.At))
				}
				if least > 1e-9 {
					return false
				}
			}
		}
	}
	return true
}

func TestSmallestCapOfDirectionsAgreesWithBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 4))
	for range 1000 {
		axis, spread := random(r), unit.Angle(5+70*r.Float64())*unit.Degree
		set := make([]r3.Vec, 1+r.IntN(40))
		for i := range set {
			set[i] = within(r, axis, spread)
		}
		e := EncloseDirections(set)
		greatest := func(n r3.Vec) unit.Angle {
			at, least := 0, 2.0
			for i := range set {
				if d := r3.Dot(n, set[i]); d < least {
					at, least = i, d
				}
			}
			return Between(n, set[at])
		}
		found, want := sought(axis, spread.Tan(), greatest)
		if d := (e.Radius - want).Degrees(); !e.Fits || math.Abs(d) > 1e-6 {
			t.Errorf("smallest cap of %d directions has radius %.9f°, brute force %.9f°", len(set), e.Radius.Degrees(), want.Degrees())
		}
		if off := Between(found, e.Axis).Degrees(); len(e.Support) == 3 && off > 0.01 {
			t.Errorf("three points bind, and the axis is %.4f° off the one found by brute force", off)
		}
		if len(e.Support) > 3 || math.Abs(float64(greatest(e.Axis)-e.Radius)) > 1e-12 {
			t.Errorf("support %d, radius %.12f°, farthest point at %.12f°", len(e.Support), e.Radius.Degrees(), greatest(e.Axis).Degrees())
		}
	}
}

func randomArc(r *rand.Rand, from r3.Vec) Arc {
	return NewArc(from, random(r), unit.Angle(360*r.Float64()-180)*unit.Degree)
}

func TestFarthestPointOfAnArcIsFartherThanAnyOther(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 2000 {
		a, n := randomArc(r, random(r)), random(r)
		u, turn := a.Farthest(n)
		if d := r3.Dot(n, u) - a.Least(n); math.Abs(d) > 1e-14 {
			t.Fatalf("Farthest gives a cosine %.3g off Least", d)
		}
		if Between(u, a.At(turn)) > 1e-13 || Between(a.At(a.Sweep), a.To) > 1e-13 {
			t.Fatalf("the farthest point is not where it is said to be on the arc")
		}
		for k := range 200 {
			if v := a.At(a.Sweep * unit.Angle(k) / 199); r3.Dot(n, v) < a.Least(n)-1e-14 {
				t.Fatalf("a point at %d/199 of the arc is farther than the farthest", k)
			}
		}
	}
}

func TestAnArcLeavesACapWhereItsAngleFirstReachesTheRadius(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range 5000 {
		a, n := randomArc(r, random(r)), random(r)
		c := 2*r.Float64() - 1
		turn, leaves := a.Leaves(n, c)
		if leaves != (a.Least(n) <= c) {
			t.Fatalf("Leaves says %v, the least cosine is %.3f, the cap's %.3f", leaves, a.Least(n), c)
		}
		if !leaves || turn == 0 {
			continue
		}
		if d := r3.Dot(n, a.At(turn)) - c; math.Abs(d) > 1e-12 {
			t.Fatalf("at the exit the cosine is %.3g off the cap's edge", d)
		}
		for k := range 100 {
			if r3.Dot(n, a.At(turn*unit.Angle(k)/100)) <= c-1e-12 {
				t.Fatalf("the arc is outside before it leaves")
			}
		}
	}
}

func TestAnArcThroughThreePointsPassesThem(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 4))
	for range 1000 {
		a := NewArc(random(r), random(r), unit.Angle(20*r.Float64())*unit.Degree)
		b := ArcThrough(a.From, a.At(a.Sweep*0.4), a.To)
		if math.Abs(float64(a.Sweep-b.Sweep)) > 1e-6 || Between(a.At(a.Sweep*0.7), b.At(b.Sweep*0.7)) > 1e-9 {
			t.Fatalf("sweep %.9f°, want %.9f°", b.Sweep.Degrees(), a.Sweep.Degrees())
		}
	}
}

func TestSmallestCapOfArcsIsCertifiedAndAgreesWithBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 4))
	for range 200 {
		axis := random(r)
		arcs := make([]Arc, 1+r.IntN(12))
		for i := range arcs {
			arcs[i] = NewArc(within(r, axis, 60*unit.Degree), within(r, axis, 40*unit.Degree), unit.Angle(120*r.Float64())*unit.Degree)
		}
		e := EncloseArcs(arcs)
		greatest := func(n r3.Vec) unit.Angle {
			var g unit.Angle
			for i := range arcs {
				u, _ := arcs[i].Farthest(n)
				g = max(g, Between(n, u))
			}
			return g
		}
		if !e.Fits {
			continue
		}
		_, want := sought(e.Axis, 0.5, greatest)
		if d := (e.Radius - want).Degrees(); math.Abs(d) > 1e-6 || e.Gap > Tolerance {
			t.Errorf("radius %.9f° with gap %.3g°, brute force %.9f°", e.Radius.Degrees(), e.Gap.Degrees(), want.Degrees())
		}
	}
}
