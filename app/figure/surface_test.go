package figure

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func anyAffine(t *rapid.T) Affine {
	m := Translate(rapid.Float64Range(-50, 50).Draw(t, "dx"), rapid.Float64Range(-50, 50).Draw(t, "dy"))
	m = m.Mul(Rotation(rapid.Float64Range(-180, 180).Draw(t, "turn")))
	k := rapid.Float64Range(0.2, 4).Draw(t, "scale")
	if rapid.Bool().Draw(t, "mirrored") {
		return m.Mul(Scaling(-k, k))
	}
	return m.Mul(Scaling(k, k))
}

func near(a, b Point) bool { return a.Sub(b).Norm() < 1e-6 }

func TestPushedMapMovesAllThatIsDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, n := anyAffine(t), anyAffine(t)
		pts := points(-50, 50, 3, 5).Draw(t, "points")
		var r record
		s := On(&r, Pt(100, 100))
		s.Push(m)
		s.Push(n)
		s.Polyline(pts, Stroke{black, 2, []float64{1, 2}})
		s.Polygon(pts, Solid(black))
		s.PushClip(pts)
		s.PopClip()
		s.Text(pts[0], "text", TextStyle{Font: Font{Size: 10}, Colour: black})
		s.Image(Rect{pts[0], pts[1]}, checker(2))
		s.Pop()
		s.Pop()
		both := m.Mul(n)
		for _, got := range [][]Point{r.lines[0], r.rings[0], r.clips[0]} {
			for i, p := range pts {
				if !near(got[i], both.Apply(p)) {
					t.Fatalf("%v went to %v, want %v", p, got[i], both.Apply(p))
				}
			}
		}
		k := both.Stretch()
		if w := r.strokes[0].Width; math.Abs(w-2*k) > 1e-9 || math.Abs(r.strokes[0].Dash[1]-2*k) > 1e-9 {
			t.Fatalf("line of width %v, want %v", w, 2*k)
		}
		if c := r.texts[0]; !near(c.at, both.Apply(pts[0])) || math.Abs(c.Size-10*k) > 1e-9 {
			t.Fatalf("text of size %v at %v, want %v at %v", c.Size, c.at, 10*k, both.Apply(pts[0]))
		}
		if !near(r.images[0].Apply(Pt(1, 1)), both.Apply(pts[1])) {
			t.Fatalf("image ends at %v, want %v", r.images[0].Apply(Pt(1, 1)), both.Apply(pts[1]))
		}
		if s.now != Identity() || r.depth != 0 {
			t.Fatal("pops do not undo pushes")
		}
	})
}

func TestTextTurnsWithItsSurface(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-170, 170).Draw(t, "surface")
		b := rapid.Float64Range(-170, 170).Draw(t, "text")
		var r record
		s := On(&r, Pt(100, 100))
		s.Push(Rotation(a))
		s.Text(Pt(0, 0), "x", TextStyle{Font: Font{Size: 10}, Colour: black, Turn: b})
		if got := math.Mod(r.texts[0].Turn-a-b+720+180, 360) - 180; math.Abs(got) > 1e-6 {
			t.Fatalf("text turned by %v, want %v", r.texts[0].Turn, a+b)
		}
	})
}

func TestMirrorLeavesLettersLegible(t *testing.T) {
	var r record
	s := On(&r, Pt(100, 100))
	s.Push(Translate(100, 0).Mul(Scaling(-1, 1)))
	s.Text(Pt(30, 40), "L", TextStyle{Font: Font{Size: 10}, Colour: black})
	if c := r.texts[0]; c.Turn != 0 || c.at != Pt(70, 40) {
		t.Errorf("mirrored letter at %v turned by %v, want (70, 40) upright", c.at, c.Turn)
	}
}

func TestInverseUndoesAMap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := anyAffine(t)
		p := points(-100, 100, 1, 1).Draw(t, "p")[0]
		if got := m.Inverse().Apply(m.Apply(p)); !near(got, p) {
			t.Fatalf("inverse brings %v to %v", p, got)
		}
	})
}

func TestPlacedFigureKeepsItsProportions(t *testing.T) {
	inner := Figure{Size: Pt(200, 100), Static: func(s *Surface) {
		s.Polygon(s.Bounds().Ring(), Solid(black))
	}}
	var r record
	s := On(&r, Pt(500, 500))
	got := s.Place(inner, Box(100, 100, 100, 200))
	if want := (Rect{Pt(100, 175), Pt(200, 225)}); got != want {
		t.Errorf("Place = %v, want %v", got, want)
	}
	if b, _ := Bounds(r.rings...); b != got {
		t.Errorf("the figure fills %v, Place says %v", b, got)
	}
	if s.Size() != Pt(500, 500) || s.now != Identity() {
		t.Error("Place changed the surface")
	}
}

func TestPatternsOfNeighboursJoin(t *testing.T) {
	fill := Fill{Pattern: Pattern{Kind: Hatch, Colour: black, Pitch: 5}}
	whole := drawn(40, 40, 1, func(s *Surface) { s.Polygon(Box(4, 4, 32, 32).Ring(), fill) })
	halves := drawn(40, 40, 1, func(s *Surface) {
		s.Polygon(Box(4, 4, 13, 32).Ring(), fill)
		s.Polygon(Box(17, 4, 19, 32).Ring(), fill)
	})
	for i := range whole.Pix {
		if d := int(whole.Pix[i]) - int(halves.Pix[i]); d > 40 || d < -40 { // the cut ends of lines
			t.Fatalf("byte %d: %d in one piece, %d in two", i, whole.Pix[i], halves.Pix[i])
		}
	}
	if got := mass(whole) / (32 * 32); math.Abs(got-0.8/5) > 0.02 {
		t.Errorf("hatch covers %.3f of its area, want %.3f", got, 0.8/5)
	}
}

func TestLineBreaksWhereAValueIsMissing(t *testing.T) {
	var r record
	s := On(&r, Pt(100, 100))
	s.Polyline([]Point{{1, 1}, {2, 2}, {math.NaN(), 3}, {4, 4}, {5, 5}, {6, math.Inf(1)}, {7, 7}}, Stroke{Colour: black, Width: 1})
	if len(r.lines) != 2 || len(r.lines[0]) != 2 || len(r.lines[1]) != 2 {
		t.Errorf("pieces %v, want two of two points", r.lines)
	}
}
