package figure_test

import (
	"fmt"
	"math"
	"os"

	"rimclear/app/figure"
)

// How long is a label, and does it fit into 80 points?
func ExampleFont_Width() {
	f := figure.Font{Size: 10}
	w := f.Width("38.7° of flexion")
	fmt.Printf("%.1f points, fits: %v\n", w, w < 80)
	// Output: 67.3 points, fits: true
}

// Where on the sheet do 45° of inclination and 20° of anteversion lie?
func ExampleFrame_At() {
	fr := figure.Frame{
		Box: figure.Box(50, 10, 300, 200),
		X:   figure.Axis{Min: 30, Max: 60},
		Y:   figure.Axis{Min: 0, Max: 40},
	}
	p := fr.At(45, 20)
	x, y := fr.Data(p)
	fmt.Println(p, x, y)
	// Output: {200 110} 45 20
}

// How large is the area where a cone of height 1 rises above 0.5?
func ExampleField_Above() {
	v := figure.Span(-1, 1, 101)
	cone := figure.Sample(v, v, func(x, y float64) float64 { return 1 - math.Hypot(x, y) })
	for _, ring := range cone.Above(0.5) {
		sum := 0.0
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			sum += (p.X*q.Y - q.X*p.Y) / 2
		}
		fmt.Printf("%.3f, a disc has %.3f\n", sum, math.Pi/4)
	}
	// Output: 0.785, a disc has 0.785
}

// One drawing, written as SVG.
func ExampleFigure() {
	p := figure.Light()
	f := figure.Figure{
		Title: "A line",
		Size:  figure.Pt(40, 20),
		Static: func(s *figure.Surface) {
			s.Line(figure.Pt(4, 10), figure.Pt(36, 10), p.Designs[1].Stroke(1.5))
		},
	}
	if err := f.WriteSVG(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// <?xml version="1.0" encoding="UTF-8"?>
	// <svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" version="1.1" role="img" width="40pt" height="20pt" viewBox="0 0 40 20" xml:space="preserve">
	// <title>A line</title>
	// <style>
	// text{font-family:'Go','Noto Sans','DejaVu Sans',sans-serif}
	// .b{font-weight:700}
	// .m{font-family:'Go Mono','DejaVu Sans Mono',monospace}
	// </style>
	// <path fill="none" stroke-linejoin="round" stroke="#ad4f86" stroke-width="1.5" stroke-dasharray="7 3" d="M4 10L36 10"/>
	// </svg>
}
