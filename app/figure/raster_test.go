package figure

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"sync"
	"testing"

	"pgregory.net/rapid"

	_ "rimclear/kinematics/seeded"
)

func points(lo, hi float64, least, most int) *rapid.Generator[[]Point] {
	c := rapid.Float64Range(lo, hi)
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Point {
		return Point{c.Draw(t, "x"), c.Draw(t, "y")}
	}), least, most)
}

func TestClippedInkStaysInsideTheClip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		clip := points(5, 55, 3, 6).Draw(t, "clip")
		shape := points(-20, 80, 3, 8).Draw(t, "shape")
		everything := func(s *Surface) {
			s.Polygon(s.Bounds().Ring(), Fill{black, Pattern{Kind: Dots, Colour: black}})
			s.Polygon(shape, Solid(black))
			s.Polyline(shape, Stroke{black, 3, []float64{4, 2}})
			s.Text(Pt(0, 30), "Clipped text", TextStyle{Font: Font{Size: 20}, Colour: black})
			s.Image(s.Bounds(), checker(4))
		}
		img := drawn(60, 60, 1.5, func(s *Surface) {
			s.PushClip(clip)
			everything(s)
			s.PopClip()
		})
		allowed := drawn(60, 60, 1.5, func(s *Surface) { s.Polygon(clip, Solid(black)) })
		for i := 3; i < len(img.Pix); i += 4 {
			if img.Pix[i] > allowed.Pix[i]+8 { // several layers over one antialiased border
				if allowed.Pix[i] == 0 {
					t.Fatalf("ink at pixel %d outside the clip", i/4)
				}
			}
		}
	})
}

func TestClipOfAClipIsTheirCommonPart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := points(0, 40, 3, 5).Draw(t, "a"), points(0, 40, 3, 5).Draw(t, "b")
		img := drawn(40, 40, 1, func(s *Surface) {
			s.PushClip(a)
			s.PushClip(b)
			s.Polygon(s.Bounds().Ring(), Solid(black))
			s.PopClip()
			s.PopClip()
		})
		one := drawn(40, 40, 1, func(s *Surface) { s.Polygon(a, Solid(black)) })
		two := drawn(40, 40, 1, func(s *Surface) { s.Polygon(b, Solid(black)) })
		for i := 3; i < len(img.Pix); i += 4 {
			want := float64(one.Pix[i]) * float64(two.Pix[i]) / 255
			if got := float64(img.Pix[i]); math.Abs(got-want) > 12 {
				t.Fatalf("pixel %d: opacity %v, want %v", i/4, got, want)
			}
		}
	})
}

func TestPoppedClipLimitsNoMore(t *testing.T) {
	img := drawn(20, 20, 1, func(s *Surface) {
		s.PushClip(Box(5, 5, 3, 3).Ring())
		s.PopClip()
		s.Polygon(s.Bounds().Ring(), Solid(black))
	})
	if got := mass(img); got != 400 {
		t.Errorf("ink after PopClip covers %v pixels, want 400", got)
	}
}

func TestEmptyClipLetsNothingThrough(t *testing.T) {
	img := drawn(20, 20, 1, func(s *Surface) {
		s.PushClip()
		s.Polygon(s.Bounds().Ring(), Solid(black))
		s.Text(Pt(2, 15), "Ink", TextStyle{Font: Font{Size: 10}, Colour: black})
		s.PopClip()
	})
	if got := mass(img); got != 0 {
		t.Errorf("ink through an empty clip: %v pixels", got)
	}
}

func TestLineCoversItsLengthTimesItsWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := points(10, 90, 2, 2).Draw(t, "ends")
		w := rapid.Float64Range(0.3, 8).Draw(t, "width")
		img := drawn(100, 100, 2, func(s *Surface) { s.Polyline(p, Stroke{Colour: black, Width: w}) })
		want := p[1].Sub(p[0]).Norm() * w * 4
		if got := mass(img); math.Abs(got-want) > 0.02*want+1 {
			t.Fatalf("line %v of width %v covers %v pixels, want %v", p, w, got, want)
		}
	})
}

func TestDashesCoverTheirShareOfALine(t *testing.T) {
	for _, d := range Light().Designs {
		if d.Dash == nil {
			continue
		}
		on, all := 0.0, 0.0
		for i, l := range d.Dash {
			all += l
			if i%2 == 0 {
				on += l
			}
		}
		n := 20.0
		img := drawn(n*all+20, 20, 2, func(s *Surface) { s.Line(Pt(10, 10), Pt(10+n*all, 10), d.Stroke(2)) })
		want := n * on * 2 * 4
		if got := mass(img); math.Abs(got-want) > 0.02*want {
			t.Errorf("design %s: dashes cover %v pixels, want %v", d.Name, got, want)
		}
	}
}

func TestDashesKeepStepWhenALineBeginsFarOutside(t *testing.T) {
	st := Stroke{Colour: black, Width: 2, Dash: []float64{5, 3}}
	near := drawn(50, 10, 2, func(s *Surface) { s.Line(Pt(-16, 5), Pt(60, 5), st) })
	far := drawn(50, 10, 2, func(s *Surface) { s.Line(Pt(-16-8e4, 5), Pt(6e4, 5), st) })
	for i := range near.Pix {
		if d := int(near.Pix[i]) - int(far.Pix[i]); d > 2 || d < -2 {
			t.Fatalf("byte %d: %d from nearby, %d from afar", i, near.Pix[i], far.Pix[i])
		}
	}
}

func TestLineThatCrossesItselfHasNoHole(t *testing.T) {
	loop := []Point{{5, 20}, {35, 20}, {35, 5}, {20, 5}, {20, 35}, {5, 35}, {5, 20}}
	img := drawn(40, 40, 1, func(s *Surface) { s.Polyline(loop, Stroke{Colour: black, Width: 6}) })
	for _, p := range append(loop, Pt(20, 20)) {
		if a := img.RGBAAt(int(p.X)-1, int(p.Y)-1).A; a < 250 {
			t.Errorf("opacity %d at %v, want 255", a, p)
		}
	}
}

func TestClosedLineHasNoNotchAtItsStart(t *testing.T) {
	img := drawn(40, 40, 1, func(s *Surface) { s.Outline(Box(10, 10, 20, 20).Ring(), Stroke{Colour: black, Width: 8}) })
	corners := [4]uint8{img.RGBAAt(7, 7).A, img.RGBAAt(32, 7).A, img.RGBAAt(32, 32).A, img.RGBAAt(7, 32).A}
	for _, a := range corners {
		if a == 0 || math.Abs(float64(a)-float64(corners[1])) > 2 {
			t.Fatalf("opacities at the four corners differ: %v", corners)
		}
	}
}

func TestHoleStaysFree(t *testing.T) {
	img := drawn(40, 40, 1, func(s *Surface) {
		s.Polygons([][]Point{Box(5, 5, 30, 30).Ring(), Reversed(Box(15, 15, 10, 10).Ring())}, Solid(black))
	})
	if got := mass(img); got != 800 {
		t.Errorf("ring with hole covers %v pixels, want 800", got)
	}
}

func TestTranslucentInkMatchesImageDraw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.Byte()
		under := color.NRGBA{b.Draw(t, "r"), b.Draw(t, "g"), b.Draw(t, "b"), b.Draw(t, "a")}
		over := Colour{R: b.Draw(t, "R"), G: b.Draw(t, "G"), B: b.Draw(t, "B"), A: b.Draw(t, "A")}
		img := image.NewRGBA(image.Rect(0, 0, 19, 1))
		draw.Draw(img, img.Rect, image.NewUniform(under), image.Point{}, draw.Src)
		want := image.NewRGBA(img.Rect)
		copy(want.Pix, img.Pix)
		draw.Draw(want, want.Rect, image.NewUniform(over), image.Point{}, draw.Over)
		On(NewRaster(img, 1), Pt(19, 1)).Polygon(Box(0, 0, 19, 1).Ring(), Solid(over))
		for i := range want.Pix {
			if d := int(img.Pix[i]) - int(want.Pix[i]); d > 1 || d < -1 {
				t.Fatalf("byte %d: got %d, want %d", i, img.Pix[i], want.Pix[i])
			}
		}
	})
}

func TestPictureInsideAPictureKeepsToItsPart(t *testing.T) {
	whole := image.NewRGBA(image.Rect(0, 0, 60, 60))
	part := whole.SubImage(image.Rect(20, 30, 50, 50)).(*image.RGBA)
	f := sampler(Light())
	f.Draw(NewRaster(part, 0.2))
	if got := ink(whole); !got.In(part.Rect) || got.Empty() {
		t.Errorf("ink in %v, want it in %v", got, part.Rect)
	}
	alone := image.NewRGBA(image.Rect(0, 0, 30, 20))
	f.Draw(NewRaster(alone, 0.2))
	for y := range 20 {
		for x := range 30 {
			if a, b := alone.RGBAAt(x, y), part.RGBAAt(20+x, 30+y); a != b {
				t.Fatalf("pixel (%d, %d): %v alone, %v inside", x, y, a, b)
			}
		}
	}
}

func TestAnyCoordinatesAreDrawnOrLeftOut(t *testing.T) {
	wild := rapid.OneOf(rapid.Float64Range(-100, 200), rapid.Float64(),
		rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e12, -1e12, 0}))
	rapid.Check(t, func(t *rapid.T) {
		pts := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Point {
			return Point{wild.Draw(t, "x"), wild.Draw(t, "y")}
		}), 0, 6).Draw(t, "points")
		size := wild.Draw(t, "size")
		drawn(50, 50, 1, func(s *Surface) {
			s.Polyline(pts, Stroke{black, size, []float64{3, 2}})
			s.Outline(pts, Stroke{Colour: black, Width: 1})
			s.Polygon(pts, Light().Contact.Fill)
			s.PushClip(pts)
			s.Polygon(s.Bounds().Ring(), Solid(black))
			s.PopClip()
			for _, p := range pts {
				s.Text(p, "Aé", TextStyle{Font: Font{Size: size}, Colour: black, Turn: size})
				s.Image(Rect{p, pts[0]}, checker(2))
			}
		})
	})
}

func TestRastersWorkSideBySide(t *testing.T) {
	want := sampler(Light()).Image(1)
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			got := sampler(Light()).Image(1)
			for i := range want.Pix {
				if got.Pix[i] != want.Pix[i] {
					t.Errorf("byte %d differs between goroutines", i)
					return
				}
			}
		})
	}
	wg.Wait()
}

func BenchmarkRedraw500(b *testing.B) {
	f := chart(500, 40, Light())
	img := f.Image(1)
	b.ReportAllocs()
	for b.Loop() {
		f.DrawStatic(img, 1)
	}
}
func BenchmarkMarker(b *testing.B) {
	f := chart(500, 40, Light())
	img := f.Image(1)
	b.ReportAllocs()
	for b.Loop() {
		f.DrawMarker(img, 1)
	}
}
