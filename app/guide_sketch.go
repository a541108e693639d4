package app

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/kinematics/unit"
)

// sketchbook is what the pictures of the guide are drawn with.
type sketchbook struct {
	palette figure.Palette
	words   *present.Words
}

// sketch is a picture of the guide while it is drawn.
type sketch struct {
	sketchbook
	s *figure.Surface
}

// guideFigures are the pictures of the guide, by the keys of its pages.
var guideFigures = map[string]func(sketch){
	"radiographic":  drawRadiographic,
	"operative":     drawOperative,
	"anatomic":      drawAnatomic,
	"stem_version":  drawStemVersion,
	"neck_shaft":    drawNeckShaft,
	"pelvic_tilt":   drawPelvicTilt,
	"oscillation":   drawOscillation,
	"margin":        drawMargin,
	"rim_clock":     drawRimClock,
	"lip":           drawLip,
	"levering":      drawLevering,
	"jump_distance": drawJumpDistance,
}

// guideFigure returns the picture of a page of the guide.
func guideFigure(page string, b sketchbook) (figure.Figure, bool) {
	title := b.words.GuideTitle(page)
	f := figure.Figure{Title: title, Alt: title, Size: figure.Pt(guideWidth, guideHeight), Paper: b.palette.Paper}
	if page == "joint_angles" {
		f.Static = func(s *figure.Surface) { drawJointAngles(sketch{b, s}) }
		return f, true
	}
	draw, ok := guideFigures[page]
	f.Static = func(s *figure.Surface) { draw(sketch{b, s}) }
	return f, ok
}

func (k sketch) text(size float64, bold bool) figure.TextStyle {
	return figure.TextStyle{Font: figure.Font{Size: size, Bold: bold}, Colour: k.palette.Ink, H: figure.Centre, V: figure.Middle, Plate: k.palette.Paper}
}

// label writes a word at a place.
func (k sketch) label(at figure.Point, text string) { k.s.Text(at, text, k.text(12, false)) }

// faint writes a lesser word at a place.
func (k sketch) faint(at figure.Point, text string) {
	t := k.text(11, false)
	t.Colour = k.palette.Soft
	k.s.Text(at, text, t)
}

// value writes a number of a picture, in the colour of a design.
func (k sketch) value(at figure.Point, text string, look figure.Look) {
	t := k.text(13, true)
	t.Colour = look.Text
	k.s.Text(at, text, t)
}

func (k sketch) ink(width float64) figure.Stroke {
	return figure.Stroke{Colour: k.palette.Ink, Width: width}
}

func (k sketch) dashed(width float64) figure.Stroke {
	return figure.Stroke{Colour: k.palette.Soft, Width: width, Dash: []float64{5, 4}}
}

// arrow draws a line with a head at its end.
func (k sketch) arrow(from, to figure.Point, st figure.Stroke) {
	k.s.Line(from, to, st)
	d := to.Sub(from)
	n := d.Norm()
	if n == 0 {
		return
	}
	d = d.Scale(1 / n)
	side := figure.Pt(-d.Y, d.X)
	long, wide := 4+2.5*st.Width, 1.5+1.5*st.Width
	back := to.Sub(d.Scale(long))
	k.s.Polygon([]figure.Point{to, back.Add(side.Scale(wide)), back.Sub(side.Scale(wide))}, figure.Solid(st.Colour))
}

// arc returns points on a circle from one direction to another, in degrees
// anticlockwise from the right.
func arc(centre figure.Point, r, from, to float64) []figure.Point {
	n := int(math.Abs(to-from)/2) + 2
	pts := make([]figure.Point, n+1)
	for i := range pts {
		pts[i] = onCircle(centre, r, from+(to-from)*float64(i)/float64(n))
	}
	return pts
}

// onCircle returns the point of a circle in a direction, in degrees
// anticlockwise from the right.
func onCircle(centre figure.Point, r, deg float64) figure.Point {
	s, c := math.Sincos(deg * math.Pi / 180)
	return figure.Pt(centre.X+r*c, centre.Y-r*s)
}

// angle draws the arc of an angle with its value.
func (k sketch) angle(centre figure.Point, r, from, to float64, text string, look figure.Look) {
	k.s.Polyline(arc(centre, r, from, to), figure.Stroke{Colour: look.Line, Width: 2.5})
	k.value(onCircle(centre, r+20, (from+to)/2), text, look)
}

// named writes an angle with its letters: "RI 40.0°".
func (k sketch) named(letters string, a unit.Angle) string {
	return letters + " " + k.words.Degrees(a)
}

// stage looks at three dimensions from in front, to the side and above, as a
// right hip is seen: outwards to the left, forwards to the lower right.
type stage struct {
	centre         figure.Point
	scale          float64
	right, up, eye r3.Vec
}

func newStage(centre figure.Point, scale, azimuth, elevation float64) stage {
	sa, ca := math.Sincos(azimuth * math.Pi / 180)
	se, ce := math.Sincos(elevation * math.Pi / 180)
	eye := r3.Vec{X: ce * ca, Y: se, Z: ce * sa}
	right := r3.Unit(r3.Cross(r3.Vec{Y: 1}, eye))
	return stage{centre, scale, right, r3.Cross(eye, right), eye}
}

func (g stage) at(v r3.Vec) figure.Point {
	return figure.Pt(g.centre.X+g.scale*r3.Dot(v, g.right), g.centre.Y-g.scale*r3.Dot(v, g.up))
}

// between returns the arc from one direction to another, at a distance.
func (g stage) between(u, v r3.Vec, r float64) []figure.Point {
	whole := math.Atan2(r3.Norm(r3.Cross(u, v)), r3.Dot(u, v))
	side := r3.Sub(v, r3.Scale(r3.Dot(u, v), u))
	if r3.Norm(side) == 0 {
		return []figure.Point{g.at(r3.Scale(r, u))}
	}
	side = r3.Unit(side)
	pts := make([]figure.Point, 25)
	for i := range pts {
		s, c := math.Sincos(whole * float64(i) / float64(len(pts)-1))
		pts[i] = g.at(r3.Scale(r, r3.Add(r3.Scale(c, u), r3.Scale(s, side))))
	}
	return pts
}
