package app

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/figure"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// guideCup is the cup of the pictures, the same in all three definitions.
var guideCup = hip.Radiographic{Inclination: 45 * unit.Degree, Anteversion: 25 * unit.Degree}

// Directions of the pelvis of a right hip.
var (
	anterior = r3.Vec{X: 1}
	inferior = r3.Vec{Y: -1}
	lateral  = r3.Vec{Z: 1}
)

// drawRadiographic shows the shadow on the coronal plane.
func drawRadiographic(k sketch) {
	a := hip.RadiographicOf(guideCup.Axis())
	k.definition("guide_label_coronal", inferior, lateral, inferior,
		k.named("RI", a.Inclination), k.named("RA", a.Anteversion), true)
}

// drawOperative shows the shadow on the sagittal plane.
func drawOperative(k sketch) {
	a := hip.OperativeOf(guideCup.Axis())
	k.definition("guide_label_sagittal", inferior, anterior, inferior,
		k.named("OA", a.Anteversion), k.named("OI", a.Inclination), true)
}

// drawAnatomic shows the shadow on the transverse plane, and the angle to the
// long axis itself.
func drawAnatomic(k sketch) {
	a := hip.AnatomicOf(guideCup.Axis())
	k.definition("guide_label_transverse", lateral, anterior, lateral,
		k.named("AA", a.Anteversion), k.named("AI", a.Inclination), false)
}

// definition draws a plane through two directions, the cup's axis, its shadow
// on the plane, the angle of the shadow to a line, and the second angle: between
// axis and shadow, or else between axis and long axis.
func (k sketch) definition(plane string, along, across, line r3.Vec, first, second string, toShadow bool) {
	g := newStage(figure.Pt(265, 128), 112, 38, 22)
	n := guideCup.Axis()
	square := r3.Unit(r3.Cross(along, across))
	shadow := r3.Sub(n, r3.Scale(r3.Dot(n, square), square))
	ring := []figure.Point{}
	for _, c := range [][2]float64{{-0.25, -0.35}, {1.25, -0.35}, {1.25, 1.2}, {-0.25, 1.2}} {
		ring = append(ring, g.at(r3.Add(r3.Scale(c[0], along), r3.Scale(c[1], across))))
	}
	k.s.Polygon(ring, figure.Solid(figure.Mix(k.palette.Paper, k.palette.Designs[0].Line, 0.1)))
	k.s.Outline(ring, figure.Stroke{Colour: k.palette.Axis, Width: 1})
	k.axes(g)
	k.cupFace(g, n)
	foot := g.at(r3.Scale(1.25, shadow))
	k.s.Line(g.at(r3.Vec{}), foot, figure.Stroke{Colour: k.palette.Soft, Width: 2.5, Dash: []float64{6, 4}})
	k.s.Line(g.at(r3.Scale(1.25, n)), foot, k.dashed(1))
	k.arrow(g.at(r3.Vec{}), g.at(r3.Scale(1.25, n)), k.ink(3))
	k.label(g.at(r3.Scale(1.42, n)), k.words.Phrase("guide_label_cup_axis"))
	k.faint(foot.Add(figure.Pt(-4, 12)), k.words.Phrase("guide_label_shadow"))
	one, two := k.palette.Designs[0], k.palette.Designs[1]
	u := r3.Unit(shadow)
	k.spanned(g, line, u, 0.62, first, one, figure.Pt(470, 120))
	if toShadow {
		k.spanned(g, u, n, 0.92, second, two, figure.Pt(470, 160))
	} else {
		k.spanned(g, inferior, n, 0.92, second, two, figure.Pt(470, 160))
	}
	k.label(figure.Pt(470, 80), k.words.Phrase(plane))
}

// spanned draws the angle between two directions, and its value at the side with
// a line that leads to it.
func (k sketch) spanned(g stage, u, v r3.Vec, r float64, text string, look figure.Look, at figure.Point) {
	pts := g.between(u, v, r)
	mid := pts[len(pts)/2]
	k.s.Line(mid, figure.Pt(at.X-38, at.Y), figure.Stroke{Colour: look.Line, Width: 0.8, Dash: look.Dash})
	k.s.Polyline(pts, figure.Stroke{Colour: look.Line, Width: 3.5})
	k.value(at, text, look)
}

// axes draws the directions of the body.
func (k sketch) axes(g stage) {
	o := g.at(r3.Vec{})
	st := figure.Stroke{Colour: k.palette.Axis, Width: 1.2}
	for _, d := range []struct {
		v    r3.Vec
		word string
	}{{anterior, "guide_label_forwards"}, {lateral, "guide_label_outwards"}, {r3.Scale(-0.75, inferior), "guide_label_upwards"}} {
		k.arrow(o, g.at(r3.Scale(1.35, d.v)), st)
		k.faint(g.at(r3.Scale(1.55, d.v)), k.words.Phrase(d.word))
	}
	k.s.Line(o, g.at(r3.Scale(1.3, inferior)), k.dashed(1.2))
	k.faint(g.at(r3.Scale(1.42, inferior)), k.words.Phrase("guide_label_long_axis"))
}

// cupFace draws the opening of a cup about its axis.
func (k sketch) cupFace(g stage, n r3.Vec) {
	u := r3.Unit(r3.Cross(n, anterior))
	v := r3.Cross(n, u)
	ring := make([]figure.Point, 72)
	for i := range ring {
		c := onCircle(figure.Point{}, 0.42, float64(i)*5)
		ring[i] = g.at(r3.Add(r3.Scale(c.X, u), r3.Scale(c.Y, v)))
	}
	k.s.Polygon(ring, figure.Solid(figure.Fade(k.palette.Free.Line, 0.22)))
	k.s.Outline(ring, figure.Stroke{Colour: k.palette.Free.Line, Width: 2})
}
