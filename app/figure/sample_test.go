package figure

import (
	"fmt"
	"image"
	"math"
)

// hills is a smooth field with two tops, a hollow and a hole.
func hills(n int) Field {
	v := Span(-3, 3, n)
	return Sample(v, v, hillsFunc)
}

func hillsFunc(x, y float64) float64 {
	if math.Hypot(x+2, y-2) < 0.4 {
		return math.NaN()
	}
	return 10*math.Exp(-((x-1)*(x-1)+y*y)) + 7*math.Exp(-((x+1)*(x+1)+(y+1)*(y+1))*1.5) - 2*math.Exp(-((x-1)*(x-1)+(y-1)*(y-1))*8)
}

var levels = []float64{0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9}

// chart is a filled contour chart of size points with axes, lines, a legend and
// labels more texts than its axes need.
func chart(size float64, labels int, p Palette) Figure {
	f := hills(121)
	font := Font{Size: size / 40}
	fr := NewFrame(Box(0, 0, size, size).Inset(4),
		Axis{Title: "Inclination (degrees)", Min: -3, Max: 3, Unit: "°", Grid: true},
		Axis{Title: "Anteversion ≥ −3°, µ Ω Ж", Min: -3, Max: 3, Unit: "°", Grid: true}, font)
	return Figure{
		Title: "Two tops", Alt: "A field with two tops & a hollow <filled>.",
		Size: Pt(size, size), Paper: p.Paper, Plot: fr,
		Static: func(s *Surface) {
			s.PushClip(fr.Box.Ring())
			s.Polygon(fr.Box.Ring(), p.Forbidden())
			colours := make([]Colour, len(levels))
			for i := range colours {
				colours[i] = p.Ramp(float64(i) / float64(len(levels)-1))
			}
			FillContours(s, fr, f, levels, colours)
			DrawContours(s, fr, f, levels, Stroke{Colour: p.Free.Line, Width: 0.7})
			fr.DrawGrid(s, p)
			s.PopClip()
			style := TextStyle{Font: font, Colour: p.Ink, H: Centre, V: Middle}
			for k := range labels {
				s.Text(fr.At(-2.8+5.5*math.Mod(float64(k)*0.618, 1), -2.9+5.8*float64(k)/float64(labels)), fmt.Sprintf("%d.%d°", k, k%10), style)
			}
			fr.Draw(s, p)
		},
		Marker: func(s *Surface) {
			at := fr.At(1, 0)
			s.Outline(Diamond(at, size/60), Stroke{Colour: p.Ink, Width: 1.2})
			s.Polylines(Cross(fr.At(-1, -1), size/80), Stroke{Colour: p.Contact.Line, Width: 2})
		},
	}
}

// sampler shows all that a surface can do on one small page.
func sampler(p Palette) Figure {
	return Figure{
		Title: "Sampler", Size: Pt(320, 220), Paper: p.Paper,
		Static: func(s *Surface) {
			ink := TextStyle{Font: Font{Size: 9}, Colour: p.Ink}
			for i, d := range p.Designs {
				y := 16 + 14*float64(i)
				s.Polyline([]Point{{10, y}, {60, y + 6}, {110, y}}, d.Stroke(2))
				s.Text(Pt(116, y+4), d.Name, TextStyle{Font: Font{Size: 9, Bold: true}, Colour: d.Text})
			}
			for i, t := range []Tone{p.Free, p.Close, p.Contact, p.Beyond} {
				box := Box(10+30*float64(i), 80, 26, 26)
				s.Polygon(box.Ring(), t.Fill)
				s.Outline(box.Ring(), Stroke{Colour: t.Line, Width: 1})
			}
			ring := Disc(Pt(170, 60), 36, 0)
			hole := Box(155, 45, 30, 30).Ring()
			s.Polygons([][]Point{ring, hole}, p.Free.Fill)
			s.PushClip(Diamond(Pt(170, 60), 30))
			s.Polygon(Box(130, 50, 90, 20).Ring(), Solid(Fade(p.Close.Line, 0.5)))
			s.PopClip()
			s.Image(Box(220, 16, 40, 40), checker(8))
			s.Push(Translate(270, 60).Mul(Rotation(30)).Mul(Scaling(0.5, 0.5)))
			s.Image(Box(-20, -20, 40, 40), checker(8))
			s.Text(Pt(0, 40), "turned 30°", ink)
			s.Pop()
			s.Push(Translate(300, 0).Mul(Scaling(-1, 1)))
			s.Text(Pt(10, 150), "mirrored, yet legible", ink.At(Right, Baseline))
			s.Pop()
			y := s.Paragraph(Box(10, 116, 110, 60), "Η γωνία α ≥ 38,7°; угол β ≈ 12 µm — “quoted” text that wraps.", ink)
			s.Line(Pt(10, y), Pt(120, y), Stroke{Colour: p.Grid, Width: 1})
			Legend{Row: true, Width: 300, Entries: []Entry{
				{Label: "design A", Line: p.Designs[0].Stroke(1.5)},
				{Label: "free", Fill: p.Free.Fill, Line: Stroke{Colour: p.Free.Line, Width: 1}},
				{Label: "best", Mark: func(s *Surface, at Point) { s.Polygon(Diamond(at, 4), Solid(p.Ink)) }},
				{Label: "an entry on the next row", Fill: p.Forbidden()},
			}}.Draw(s, Pt(10, 180), p)
		},
	}
}

// checker returns n by n squares of ten pixels each.
func checker(n int) image.Image {
	img := image.NewNRGBA(image.Rect(0, 0, 10*n, 10*n))
	for y := range 10 * n {
		for x := range 10 * n {
			c := Hex("#0072B2")
			if (x/10+y/10)%2 == 0 {
				c = Fade(Hex("#E69F00"), 0.6)
			}
			img.SetNRGBA(x, y, c)
		}
	}
	return img
}
