package figure

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func cone(n int) Field {
	v := Span(-1, 1, n)
	return Sample(v, v, func(x, y float64) float64 { return 1 - math.Hypot(x, y) })
}

func rough(t *rapid.T) Field {
	nx, ny := rapid.IntRange(2, 8).Draw(t, "nx"), rapid.IntRange(2, 8).Draw(t, "ny")
	z := rapid.SliceOfN(rapid.OneOf(rapid.Float64Range(0, 4), rapid.Map(rapid.IntRange(0, 4), func(i int) float64 { return float64(i) })), nx*ny, nx*ny)
	return Field{Span(0, float64(nx-1), nx), Span(0, float64(ny-1), ny), z.Draw(t, "z")}
}

func TestConeAboveALevelIsADisc(t *testing.T) {
	for _, level := range []float64{0.2, 0.5, 0.8} {
		r := 1 - level
		if got, want := area(cone(201).Above(level)), math.Pi*r*r; math.Abs(got-want) > 0.002 {
			t.Errorf("area above %v: %v, want %v", level, got, want)
		}
		want := math.Pi * (r*r - (r-0.1)*(r-0.1))
		if got := area(cone(201).Between(level, level+0.1)); math.Abs(got-want) > 0.002 {
			t.Errorf("area from %v to %v: %v, want %v", level, level+0.1, got, want)
		}
	}
}

func TestContourRunsWhereTheFieldEqualsTheLevel(t *testing.T) {
	f := hills(121)
	for _, level := range levels {
		for _, line := range f.Lines(level) {
			for _, p := range line {
				x, y := p.X, p.Y
				want := hillsAt(x, y)
				if math.Abs(want-level) > 0.05 {
					t.Fatalf("level %v passes (%v, %v), where the field is %v", level, x, y, want)
				}
			}
		}
	}
}

func hillsAt(x, y float64) float64 {
	return Sample([]float64{x}, []float64{y}, hillsFunc).Z[0]
}

func TestAreaNeverGrowsWithTheLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rough(t)
		whole := f.X[len(f.X)-1] * f.Y[len(f.Y)-1]
		if got := area(f.Above(-1)); math.Abs(got-whole) > 1e-9 {
			t.Fatalf("area above all values: %v, want %v", got, whole)
		}
		before := whole
		for level := 0.0; level < 5; level += 0.37 {
			a := area(f.Above(level))
			if a > before+1e-9 || a < -1e-9 {
				t.Fatalf("area above %v is %v, above less it was %v", level, a, before)
			}
			before = a
		}
	})
}

func TestNodesLieInsideExactlyWhenTheyReachTheLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rough(t)
		const level = 1.93 // no node has it
		rings := f.Above(level)
		for j := 1; j < len(f.Y)-1; j++ {
			for i := 1; i < len(f.X)-1; i++ {
				z := f.Z[j*len(f.X)+i]
				if got, want := winding(rings, Point{f.X[i], f.Y[j]}), z >= level; (got == 1) != want || got != 0 && got != 1 {
					t.Fatalf("node (%d, %d) of value %v: winding number %d", i, j, z, got)
				}
			}
		}
	})
}

// winding returns how often rings run round p, counter-clockwise in data.
func winding(rings [][]Point, p Point) int {
	n := 0.0
	for _, r := range rings {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			u, v := a.Sub(p), b.Sub(p)
			n += math.Atan2(u.X*v.Y-u.Y*v.X, u.X*v.X+u.Y*v.Y)
		}
	}
	return int(math.Round(n / (2 * math.Pi)))
}

func TestLinesCloseOrEndAtTheBorder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rough(t)
		w, h := f.X[len(f.X)-1], f.Y[len(f.Y)-1]
		for _, line := range f.Lines(1.93) {
			a, b := line[0], line[len(line)-1]
			border := func(p Point) bool { return p.X == 0 || p.Y == 0 || p.X == w || p.Y == h }
			if a != b && (!border(a) || !border(b)) {
				t.Fatalf("line from %v to %v ends inside", a, b)
			}
		}
	})
}

func TestSaddleFollowsTheMeanOfItsCorners(t *testing.T) {
	for _, c := range []struct {
		level float64
		rings int
	}{{0.4, 1}, {0.6, 2}} {
		f := Field{[]float64{0, 1}, []float64{0, 1}, []float64{1, 0, 0, 1}}
		if got := len(f.Above(c.level)); got != c.rings {
			t.Errorf("saddle above %v: %d rings, want %d", c.level, got, c.rings)
		}
	}
}

func TestHoleHasNoContourAndNoArea(t *testing.T) {
	v := Span(0, 10, 11)
	f := Sample(v, v, func(x, y float64) float64 {
		if x >= 4 && x <= 6 && y >= 4 && y <= 6 {
			return math.NaN()
		}
		return 1
	})
	if got := f.Lines(0.5); len(got) != 0 {
		t.Errorf("lines of a field that is one all over: %v", got)
	}
	rings := f.Above(0.5)
	if len(rings) != 2 {
		t.Fatalf("%d rings, want the border and the hole", len(rings))
	}
	if got := winding(rings, Pt(5, 5)); got != 0 {
		t.Errorf("winding number %d in the hole, want 0", got)
	}
	if got := winding(rings, Pt(2, 5)); got != 1 {
		t.Errorf("winding number %d beside the hole, want 1", got)
	}
}

func TestEmptyFieldHasNoContours(t *testing.T) {
	for _, f := range []Field{{}, {X: []float64{1}, Y: []float64{1}, Z: []float64{3}}} {
		if got := len(f.Above(0)) + len(f.Lines(0)); got != 0 {
			t.Errorf("%v has %d contours", f, got)
		}
	}
}

func TestLabelStandsOnItsLine(t *testing.T) {
	f := cone(61)
	fr := NewFrame(Box(0, 0, 300, 300), Axis{Min: -1, Max: 1}, Axis{Min: -1, Max: 1}, Font{}).Square()
	var r record
	LabelContours(On(&r, Pt(300, 300)), fr, f, []float64{0.5}, TextStyle{Font: Font{Size: 8}, Colour: black},
		func(l float64) string { return Number(l, 1) })
	if len(r.texts) != 1 {
		t.Fatalf("%d labels, want 1", len(r.texts))
	}
	at := r.texts[0].at.Sub(Pt(0, Font{Size: 8}.CapHeight()/2))
	x, y := fr.Data(at)
	if d := math.Hypot(x, y); math.Abs(d-0.5) > 0.01 {
		t.Errorf("label at %v from the middle, want 0.5", d)
	}
}

func BenchmarkTenLevels121(b *testing.B) {
	f := hills(121)
	b.ReportAllocs()
	for b.Loop() {
		t := newTracer(f)
		for _, l := range levels {
			t.above(l)
		}
	}
}
