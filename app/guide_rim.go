package app

import (
	"math"
	"strconv"

	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

// The bearing of the pictures, mm and degrees, and its size on the page.
const (
	guideHead, guideNeck, guideArc = 32.0, 12.0, 180.0
	guideRadius                    = 66.0 // points
)

// guideTheta is the half angle of the neck's cone, in degrees.
var guideTheta = 180 - guideArc/2 - math.Asin(guideNeck/guideHead)*180/math.Pi

// cup draws the section of a cup with its axis in a direction.
func (k sketch) cup(o figure.Point, axis float64) {
	dome := arc(o, guideRadius+7, axis+180-guideArc/2, axis+180+guideArc/2)
	k.s.Polyline(dome, figure.Stroke{Colour: figure.Mix(k.palette.Paper, k.palette.Designs[0].Line, 0.45), Width: 14})
	k.s.Polyline(arc(o, guideRadius, axis+180-guideArc/2, axis+180+guideArc/2), k.ink(1.2))
}

// headOf draws a head.
func (k sketch) headOf(o figure.Point, fill, line figure.Colour) {
	ring := ellipse(o, guideRadius-1.5, guideRadius-1.5)
	k.s.Polygon(ring, figure.Solid(fill))
	k.s.Outline(ring, figure.Stroke{Colour: line, Width: 1.4})
}

// neckOf draws a neck in a direction from the centre of its head.
func (k sketch) neckOf(o figure.Point, to, long float64, fill, line figure.Colour) {
	wide := guideRadius * guideNeck / guideHead
	turn := figure.Rotation(to)
	near := math.Sqrt(guideRadius*guideRadius - wide*wide)
	var ring []figure.Point
	for _, v := range [][2]float64{{near - 4, -wide}, {long, -wide}, {long, wide}, {near - 4, wide}} {
		ring = append(ring, o.Add(turn.Apply(figure.Pt(v[0], v[1]))))
	}
	k.s.Polygon(ring, figure.Solid(fill))
	k.s.Outline(ring, figure.Stroke{Colour: line, Width: 1.2})
}

func (k sketch) ghost() figure.Colour { return figure.Fade(k.palette.Soft, 0.22) }

// drawOscillation shows a neck at both ends of its swing.
func drawOscillation(k sketch) {
	o := figure.Pt(280, 104)
	for _, side := range []float64{-1, 1} {
		k.neckOf(o, -90+side*guideTheta, 165, k.ghost(), k.palette.Soft)
		k.s.Line(o, onCircle(o, 178, -90+side*guideTheta), k.dashed(1))
	}
	k.neckOf(o, -90, 165, k.palette.Panel, k.palette.Ink)
	k.cup(o, -90)
	k.headOf(o, k.palette.Paper, k.palette.Ink)
	k.s.Polyline(arc(o, 178, -90-guideTheta, -90+guideTheta), figure.Stroke{Colour: k.palette.Designs[0].Line, Width: 2.5})
	k.value(figure.Pt(280, 288), k.words.Phrase("guide_label_swing")+" "+k.words.Degrees(unit.Angle(2*guideTheta)*unit.Degree), k.palette.Designs[0])
	k.s.Line(figure.Pt(o.X-guideRadius, o.Y), figure.Pt(o.X+guideRadius, o.Y), k.dashed(1.2))
	k.value(figure.Pt(o.X, o.Y-14), "D "+k.words.Millimetres(guideHead), k.palette.Designs[1])
	k.value(figure.Pt(o.X, o.Y+128), "d "+k.words.Millimetres(guideNeck), k.palette.Designs[1])
	k.value(figure.Pt(o.X, o.Y-guideRadius-26), "A "+k.words.Degrees(guideArc*unit.Degree), k.palette.Designs[1])
}

// drawMargin looks along the cup's axis at the free directions of a neck.
func drawMargin(k sketch) {
	const r = 118.0
	o := figure.Pt(250, 148)
	ring := ellipse(o, r, r)
	k.s.Polygon(figure.Box(100, 8, 300, 284).Ring(), k.palette.Forbidden())
	k.s.Polygon(ring, figure.Solid(k.palette.Paper))
	k.s.Polygon(ring, figure.Solid(figure.Fade(k.palette.Free.Line, 0.2)))
	k.s.Outline(ring, figure.Stroke{Colour: k.palette.Contact.Line, Width: 2.5})
	path := []figure.Point{{X: o.X - 20, Y: o.Y + 14}, {X: o.X + 12, Y: o.Y - 20}, {X: o.X + 40, Y: o.Y - 52}, {X: o.X + 66, Y: o.Y - 62}}
	k.s.Polyline(path, k.ink(2.2))
	end := path[len(path)-1]
	k.s.Polygon(ellipse(end, 5, 5), figure.Solid(k.palette.Ink))
	k.s.Polygon(ellipse(o, 2.5, 2.5), figure.Solid(k.palette.Soft))
	d := end.Sub(o)
	edge := o.Add(d.Scale(r / d.Norm()))
	k.s.Line(end, edge, figure.Stroke{Colour: k.palette.Designs[0].Line, Width: 2.5})
	k.s.Line(edge, figure.Pt(425, 70), k.dashed(1))
	k.value(figure.Pt(468, 70), k.words.Phrase("guide_label_margin"), k.palette.Designs[0])
	k.label(figure.Pt(o.X-52, o.Y+50), k.words.Phrase("guide_label_free"))
	k.faint(figure.Pt(o.X+62, o.Y+4), k.words.Phrase("guide_label_motion"))
	k.faint(figure.Pt(o.X, o.Y+26), k.words.Phrase("guide_label_cup_axis"))
}

// drawRimClock shows the face of a right and of a left cup.
func drawRimClock(k sketch) {
	for i, word := range []string{"guide_label_right", "guide_label_left"} {
		o := figure.Pt(148+264*float64(i), 130)
		side := float64(1 - 2*i)
		k.s.Polygon(ellipse(o, 86, 86), figure.Solid(k.palette.Panel))
		k.s.Outline(ellipse(o, 86, 86), k.ink(2))
		k.s.Outline(ellipse(o, 62, 62), figure.Stroke{Colour: k.palette.Axis, Width: 1})
		for h := 1; h <= 12; h++ {
			to := 90 - side*30*float64(h)
			k.s.Line(onCircle(o, 79, to), onCircle(o, 86, to), k.ink(1.4))
			t := k.text(13, h%3 == 0)
			t.Plate = figure.Colour{}
			k.s.Text(onCircle(o, 99, to), strconv.Itoa(h), t)
		}
		front := figure.Pt(o.X+side*40, o.Y)
		k.word(front, "guide_label_anterior")
		k.word(figure.Pt(o.X-side*40, o.Y+24), "guide_label_posterior")
		k.label(figure.Pt(o.X, 262), k.words.Phrase(word))
	}
}

// word writes a small word without a plate.
func (k sketch) word(at figure.Point, key string) {
	t := k.text(9, true)
	t.Plate, t.Colour = figure.Colour{}, k.palette.Soft
	k.s.Text(at, k.words.Phrase(key), t)
}

// drawLip shows how a lip on one side takes swing there.
func drawLip(k sketch) {
	const lip = 15.0
	o := figure.Pt(280, 104)
	k.neckOf(o, -90-guideTheta, 165, k.ghost(), k.palette.Soft)
	k.neckOf(o, -90+guideTheta-lip, 165, k.ghost(), k.palette.Soft)
	k.s.Line(o, onCircle(o, 180, -90), k.dashed(1))
	k.cup(o, -90)
	k.s.Polyline(arc(o, guideRadius+7, 0, -lip), figure.Stroke{Colour: k.palette.Close.Line, Width: 14})
	k.headOf(o, k.palette.Paper, k.palette.Ink)
	k.label(onCircle(o, 110, -lip/2+6).Add(figure.Pt(20, 0)), k.words.Phrase("guide_label_lip"))
	k.angle(o, 176, -90-guideTheta, -90, k.words.Degrees(unit.Angle(guideTheta)*unit.Degree), k.palette.Designs[0])
	k.angle(o, 176, -90, -90+guideTheta-lip, k.words.Degrees(unit.Angle(guideTheta-lip)*unit.Degree), k.palette.Designs[1])
}

// drawLevering shows the head as the neck pivots on the rim.
func drawLevering(k sketch) {
	const turn = 14.0
	o := figure.Pt(290, 116)
	to := -90 + guideTheta
	pivot := onCircle(o, guideRadius, 0)
	k.neckOf(o, to, 150, k.ghost(), k.palette.Soft)
	k.headOf(o, figure.Fade(k.palette.Soft, 0.12), k.palette.Soft)
	k.cup(o, -90)
	d := figure.Rotation(turn).Apply(o.Sub(pivot))
	moved := pivot.Add(d)
	k.neckOf(moved, to+turn, 150, k.palette.Panel, k.palette.Ink)
	k.headOf(moved, figure.Fade(k.palette.Paper, 0.75), k.palette.Ink)
	k.s.Polygon(ellipse(pivot, 6, 6), figure.Solid(k.palette.Contact.Line))
	k.s.Line(pivot, figure.Pt(432, 56), k.dashed(1))
	t := k.text(13, true)
	t.Colour = k.palette.Contact.Text
	k.s.Text(figure.Pt(470, 48), k.words.Phrase("guide_label_contact"), t)
	k.arrow(o, moved.Add(moved.Sub(o).Scale(0.9)), figure.Stroke{Colour: k.palette.Designs[0].Line, Width: 3})
	k.s.Line(moved.Add(moved.Sub(o).Scale(1)), figure.Pt(160, 236), k.dashed(1))
	k.value(figure.Pt(120, 250), k.words.Phrase("guide_label_moves"), k.palette.Designs[0])
}

// drawJumpDistance shows how far a head goes until it lies under the edge.
func drawJumpDistance(k sketch) {
	const inclination = 45.0
	o := figure.Pt(260, 150)
	edge := onCircle(o, guideRadius, 90-inclination)
	under := figure.Pt(edge.X, edge.Y+guideRadius)
	k.cup(o, -90+inclination)
	k.headOf(o, k.palette.Paper, k.palette.Ink)
	ring := ellipse(under, guideRadius-1.5, guideRadius-1.5)
	k.s.Polygon(ring, figure.Solid(figure.Fade(k.palette.Soft, 0.12)))
	k.s.Outline(ring, figure.Stroke{Colour: k.palette.Soft, Width: 1.4, Dash: []float64{5, 4}})
	k.arrow(figure.Pt(o.X, o.Y+118), figure.Pt(o.X, o.Y+74), k.ink(2))
	k.faint(figure.Pt(o.X, o.Y+134), k.words.Phrase("guide_label_load"))
	k.s.Line(edge, under, k.dashed(1.2))
	k.s.Polygon(ellipse(edge, 5, 5), figure.Solid(k.palette.Contact.Line))
	k.s.Line(edge, figure.Pt(400, 60), k.dashed(1))
	k.faint(figure.Pt(450, 54), k.words.Phrase("guide_label_edge"))
	k.arrow(o, under, figure.Stroke{Colour: k.palette.Designs[0].Line, Width: 3})
	jump := kinematics.Jump(guideHead/2, (90-inclination)*unit.Degree)
	k.s.Line(o.Add(under).Scale(0.5), figure.Pt(412, 210), k.dashed(1))
	k.value(figure.Pt(462, 216), k.words.Phrase("guide_label_jump"), k.palette.Designs[0])
	k.value(figure.Pt(462, 234), k.words.Millimetres(jump), k.palette.Designs[0])
}
