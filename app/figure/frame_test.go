package figure

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestTicksAreMultiplesOfANiceStepWithinTheAxis(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-500, 500).Draw(t, "lo")
		span := math.Pow(10, rapid.Float64Range(-2, 3).Draw(t, "log span"))
		n := rapid.IntRange(2, 10).Draw(t, "n")
		angle := rapid.Bool().Draw(t, "angle")
		step := TickStep(span, n, angle)
		ticks := Ticks(lo, lo+span, step, "°")
		if len(ticks) == 0 && step < span {
			t.Fatalf("no ticks of %v in %v", step, span)
		}
		if len(ticks) > 2*n+2 {
			t.Fatalf("%d ticks of %v in %v, wanted about %d", len(ticks), step, span, n)
		}
		seen := map[string]bool{}
		for _, k := range ticks {
			if r := k.At / step; math.Abs(r-math.Round(r)) > 1e-6 {
				t.Fatalf("tick %v is no multiple of %v", k.At, step)
			}
			if k.At < lo-step*1e-6 || k.At > lo+span+step*1e-6 {
				t.Fatalf("tick %v lies outside %v to %v", k.At, lo, lo+span)
			}
			if seen[k.Label] {
				t.Fatalf("label %s twice", k.Label)
			}
			seen[k.Label] = true
		}
	})
}

func TestAnglesAreMarkedAtAnglesOneUses(t *testing.T) {
	for _, c := range []struct {
		span float64
		n    int
		want float64
	}{{180, 6, 30}, {360, 8, 45}, {90, 6, 15}, {360, 4, 90}, {50, 10, 5}, {3, 3, 1}, {0.5, 5, 0.1}} {
		if got := TickStep(c.span, c.n, true); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("TickStep(%v, %d, angle) = %v, want %v", c.span, c.n, got, c.want)
		}
	}
}

func TestZeroHasNoSign(t *testing.T) {
	for _, c := range []struct {
		v    float64
		n    int
		want string
	}{{-0.04, 1, "0.0"}, {-0.06, 1, "−0.1"}, {math.Copysign(0, -1), 0, "0"}, {-12.5, 1, "−12.5"}, {3, 0, "3"}} {
		if got := Number(c.v, c.n); got != c.want {
			t.Errorf("Number(%v, %d) = %q, want %q", c.v, c.n, got, c.want)
		}
	}
}

func anyFrame(t *rapid.T) (Rect, Frame) {
	v := rapid.Float64Range(-200, 200)
	axis := func(title string) Axis {
		a := Axis{Title: title, Min: v.Draw(t, "min"), Unit: "°", Grid: true}
		a.Max = a.Min + rapid.SampledFrom([]float64{-90, -3, 0.5, 7, 60, 359}).Draw(t, "span")
		return a
	}
	outer := Box(rapid.Float64Range(0, 50).Draw(t, "x"), 20, rapid.Float64Range(150, 500).Draw(t, "w"), rapid.Float64Range(150, 400).Draw(t, "h"))
	return outer, NewFrame(outer, axis("Across"), axis("Up"), Font{Size: rapid.Float64Range(6, 12).Draw(t, "font")})
}

func TestDataUndoesAt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, fr := anyFrame(t)
		x, y := fr.X.Min+0.3*fr.X.span(), fr.Y.Min+0.8*fr.Y.span()
		gx, gy := fr.Data(fr.At(x, y))
		if math.Abs(gx-x) > 1e-6 || math.Abs(gy-y) > 1e-6 {
			t.Fatalf("Data(At(%v, %v)) = %v, %v", x, y, gx, gy)
		}
		if p := fr.At(fr.X.Min, fr.Y.Max); p.Sub(fr.Box.Min).Norm() > 1e-6 {
			t.Fatalf("least x and greatest y lie at %v, want the upper left %v", p, fr.Box.Min)
		}
	})
}

func TestAxesLabelsAndTitlesStayInsideTheirSpace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		outer, fr := anyFrame(t)
		var r record
		s := On(&r, Pt(600, 500))
		fr.DrawGrid(s, Light())
		fr.Draw(s, Light())
		for _, c := range r.texts {
			b := c.box()
			if b.Min.X < outer.Min.X-0.01 || b.Max.X > outer.Max.X+0.01 || b.Min.Y < outer.Min.Y-0.01 || b.Max.Y > outer.Max.Y+0.01 {
				t.Fatalf("%q fills %v, want it inside %v", c.text, b, outer)
			}
		}
		b, _ := Bounds(r.lines...)
		if b.Min.X < outer.Min.X || b.Max.X > outer.Max.X+1e-9 || b.Min.Y < outer.Min.Y || b.Max.Y > outer.Max.Y {
			t.Fatalf("lines fill %v, want them inside %v", b, outer)
		}
	})
}

func TestLabelsHaveTheDecimalPointOfTheirAxis(t *testing.T) {
	for point, want := range map[string]string{"": "1.5", ",": "1,5"} {
		axis := Axis{Min: 1, Max: 2, Step: 0.5, Point: point}
		if ticks := axis.ticks(100, 10, 0, Font{Size: 9}); len(ticks) != 3 || ticks[1].Label != want {
			t.Errorf("ticks %v, want %s in their middle", ticks, want)
		}
	}
}

func TestTickLabelsDoNotOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, fr := anyFrame(t)
		fr.X.Title, fr.Y.Title = "", ""
		var r record
		fr.Draw(On(&r, Pt(600, 500)), Light())
		for i, a := range r.texts {
			for _, b := range r.texts[:i] {
				if p, q := a.digits(), b.digits(); p.Min.X < q.Max.X && q.Min.X < p.Max.X && p.Min.Y < q.Max.Y && q.Min.Y < p.Max.Y {
					t.Fatalf("%q and %q overlap", a.text, b.text)
				}
			}
		}
	})
}

func TestSquareFrameHasEqualSteps(t *testing.T) {
	fr := NewFrame(Box(0, 0, 400, 250), Axis{Min: 0, Max: 60}, Axis{Min: -20, Max: 40}, Font{}).Square()
	dx := fr.At(10, 0).X - fr.At(0, 0).X
	dy := fr.At(0, 0).Y - fr.At(0, 10).Y
	if math.Abs(dx-dy) > 1e-9 {
		t.Errorf("10 in x is %v long, 10 in y is %v", dx, dy)
	}
}

func TestLegendFillsTheSizeItNames(t *testing.T) {
	for _, row := range []bool{false, true} {
		l := Legend{Row: row, Width: 150, Entries: []Entry{
			{Label: "first", Line: Stroke{Colour: black, Width: 1}},
			{Label: "second, longer", Fill: Light().Close.Fill},
			{Label: "third", Line: Stroke{Colour: black, Width: 1}},
		}}
		var r record
		l.Draw(On(&r, Pt(400, 400)), Pt(20, 30), Light())
		size := l.Size()
		space := Box(20, 30, size.X, size.Y)
		right := 0.0
		for _, c := range r.texts {
			b := c.box()
			right = max(right, b.Max.X)
			if !space.Contains(b.Min) || !space.Contains(b.Max) {
				t.Errorf("row %v: %q fills %v, want it inside %v", row, c.text, b, space)
			}
		}
		if math.Abs(right-space.Max.X) > 1e-9 {
			t.Errorf("row %v: ends at %v, want %v", row, right, space.Max.X)
		}
	}
}
