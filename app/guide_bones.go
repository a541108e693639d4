package app

import (
	"image"

	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/app/report"
	"rimclear/app/scene"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// drawJointAngles shows the joint turned each way, in three dimensions.
func drawJointAngles(k sketch) {
	c := kinematics.Default()
	tone := scene.Light
	if k.palette.Dark {
		tone = scene.Dark
	}
	for i, v := range []struct {
		posture hip.Posture
		look    scene.Camera
	}{
		{hip.Posture{Flexion: 60 * unit.Degree}, scene.Side()},
		{hip.Posture{Adduction: -30 * unit.Degree}, scene.Front()},
		{hip.Posture{InternalRotation: -30 * unit.Degree}, scene.Oblique()},
	} {
		const wide, high, gap = 176, 244, 10
		r := figure.Box(8+float64(i)*(wide+gap), 6, wide, high)
		v.look.Extent, v.look.Target.Y = 300, -15
		img := image.NewRGBA(image.Rect(0, 0, 2*wide, 2*high))
		new(scene.Renderer).Draw(img, v.look, tone, report.Parts(report.PlacedAt(&c, 0, v.posture), true))
		k.s.Image(r, img)
		angle, movement := postureName(k, v.posture)
		k.label(figure.Pt(r.Centre().X, r.Max.Y+22), angle+" "+movement)
	}
}

// postureName says the one angle of a posture that is not zero.
func postureName(k sketch, p hip.Posture) (angle, movement string) {
	for a := hip.Flexion; a <= hip.InternalRotation; a++ {
		if v := p.Angle(a); v != 0 {
			m, v := present.Signed(a, v)
			return k.words.Degrees(v), k.words.Movement(m)
		}
	}
	return "", ""
}

// drawStemVersion looks along the shaft from above: the condyles, and the neck
// turned forwards of them.
func drawStemVersion(k sketch) {
	const version = 15.0
	bone, edge := figure.Solid(figure.Mix(k.palette.Paper, k.palette.Close.Line, 0.18)), k.ink(1.4)
	knee := figure.Pt(330, 165)
	for _, x := range []float64{-52, 52} {
		ring := ellipse(figure.Pt(knee.X+x, knee.Y+8), 46, 58)
		k.s.Polygon(ring, bone)
		k.s.Outline(ring, edge)
	}
	k.s.Line(figure.Pt(130, 222), figure.Pt(500, 222), k.dashed(1.4))
	k.faint(figure.Pt(450, 238), k.words.Phrase("guide_label_condyles"))
	shaft := figure.Pt(330, 165)
	k.s.Polygon(ellipse(shaft, 26, 26), figure.Solid(k.palette.Panel))
	k.s.Outline(ellipse(shaft, 26, 26), edge)
	k.s.Line(shaft, figure.Pt(150, shaft.Y), k.dashed(1.4))
	head := onCircle(shaft, 165, 180-version)
	k.s.Line(shaft, head, figure.Stroke{Colour: k.palette.Soft, Width: 16})
	k.s.Polygon(ellipse(head, 34, 34), figure.Solid(k.palette.Paper))
	k.s.Outline(ellipse(head, 34, 34), edge)
	k.s.Line(shaft, head, k.ink(1.6))
	k.s.Polyline(arc(shaft, 150, 180, 180-version), figure.Stroke{Colour: k.palette.Designs[0].Line, Width: 2.5})
	k.value(figure.Pt(shaft.X-192, shaft.Y+14), k.words.Degrees(version*unit.Degree), k.palette.Designs[0])
	k.label(head.Add(figure.Pt(0, -46)), k.words.Phrase("guide_label_head"))
	k.faint(figure.Pt(330, 205), k.words.Phrase("guide_label_shaft"))
	k.arrow(figure.Pt(520, 120), figure.Pt(520, 50), figure.Stroke{Colour: k.palette.Axis, Width: 1.4})
	k.faint(figure.Pt(500, 36), k.words.Phrase("guide_label_forwards"))
	k.arrow(figure.Pt(160, 275), figure.Pt(90, 275), figure.Stroke{Colour: k.palette.Axis, Width: 1.4})
	k.faint(figure.Pt(215, 275), k.words.Phrase("guide_label_inwards"))
}

// drawNeckShaft looks at a stem from in front.
func drawNeckShaft(k sketch) {
	const angle = 135.0
	joint := figure.Pt(230, 158)
	foot := figure.Pt(230, 292)
	k.s.Line(joint, foot, figure.Stroke{Colour: k.palette.Soft, Width: 22})
	k.s.Polygon(ellipse(joint, 11, 11), figure.Solid(k.palette.Soft))
	head := onCircle(joint, 105, -90+angle)
	k.s.Line(joint, head, figure.Stroke{Colour: k.palette.Soft, Width: 18})
	k.s.Polygon(ellipse(head, 36, 36), figure.Solid(k.palette.Paper))
	k.s.Outline(ellipse(head, 36, 36), k.ink(1.4))
	k.s.Line(foot, figure.Pt(230, 40), k.dashed(1.2))
	k.s.Line(joint, onCircle(joint, 105, -90+angle), k.ink(1.6))
	k.s.Line(joint, foot, k.ink(1.6))
	k.angle(joint, 60, -90, -90+angle, k.words.Degrees(angle*unit.Degree), k.palette.Designs[0])
	k.label(figure.Pt(185, 262), k.words.Phrase("guide_label_shaft"))
	k.label(head.Add(figure.Pt(78, 26)), k.words.Phrase("guide_label_head"))
	for _, a := range []float64{-90 + 125, -90 + 145} {
		k.s.Line(onCircle(joint, 145, a), onCircle(joint, 158, a), k.dashed(1.4))
	}
	k.faint(onCircle(joint, 186, -90+124), k.words.Degrees(125*unit.Degree))
	k.faint(onCircle(joint, 170, -90+147), k.words.Degrees(145*unit.Degree))
}

// drawPelvicTilt shows from the side how a pelvis rolls back from standing to
// sitting, and the cup with it.
func drawPelvicTilt(k sketch) {
	for i, t := range []struct {
		word string
		tilt float64
	}{{"guide_label_standing", 5}, {"guide_label_sitting", -22}} {
		o := figure.Pt(150+270*float64(i), 165)
		k.s.Line(figure.Pt(o.X+48, 40), figure.Pt(o.X+48, 262), k.dashed(1.2))
		k.pelvisFromSide(o, t.tilt)
		k.label(figure.Pt(o.X, 284), k.words.Phrase(t.word))
	}
	k.faint(figure.Pt(198, 28), k.words.Phrase("guide_label_vertical"))
	k.arrow(figure.Pt(20, 30), figure.Pt(90, 30), figure.Stroke{Colour: k.palette.Axis, Width: 1.4})
	k.faint(figure.Pt(55, 16), k.words.Phrase("guide_label_forwards"))
}

// pelvisFromSide draws a pelvis that looks to the right, its front plane and its
// cup, tilted forwards by so many degrees.
func (k sketch) pelvisFromSide(o figure.Point, tilt float64) {
	turn := func(x, y float64) figure.Point {
		p := figure.Rotation(-tilt).Apply(figure.Pt(x, y))
		return o.Add(p)
	}
	var bone []figure.Point
	for _, v := range [][2]float64{{-58, -40}, {-52, -78}, {-20, -104}, {22, -100}, {48, -72}, {38, -40}, {26, -10}, {48, 36}, {40, 46}, {14, 30}, {-6, 62}, {-26, 64}, {-30, 34}, {-34, 0}} {
		bone = append(bone, turn(v[0], v[1]))
	}
	bone = rounded(bone)
	k.s.Polygon(bone, figure.Solid(figure.Mix(k.palette.Paper, k.palette.Close.Line, 0.16)))
	k.s.Outline(bone, k.ink(1.2))
	k.s.Line(turn(48, -104), turn(48, 78), figure.Stroke{Colour: k.palette.Designs[0].Line, Width: 2.4})
	k.faint(turn(48, 92), k.words.Phrase("guide_label_plane"))
	k.value(turn(48, -72).Add(figure.Pt(40, 2)), k.words.Degrees(unit.Angle(tilt)*unit.Degree), k.palette.Designs[0])
	k.s.Line(turn(-25, 29), turn(25, 11), figure.Stroke{Colour: k.palette.Free.Line, Width: 3})
	k.s.Polyline(shifted(arc(figure.Point{}, 27, 180, 0), func(p figure.Point) figure.Point {
		q := figure.Rotation(20).Apply(p)
		return turn(q.X, q.Y+20)
	}), figure.Stroke{Colour: k.palette.Free.Line, Width: 2})
	k.arrow(turn(0, 20), turn(21, 78), k.ink(1.6))
}

// rounded returns a closed curve through points (Catmull and Rom).
func rounded(ring []figure.Point) []figure.Point {
	const parts = 8
	n := len(ring)
	var pts []figure.Point
	for i := range ring {
		a, b, c, d := ring[(i+n-1)%n], ring[i], ring[(i+1)%n], ring[(i+2)%n]
		for j := range parts {
			t := float64(j) / parts
			p := b.Scale(2).Add(c.Sub(a).Scale(t)).
				Add(a.Scale(2).Sub(b.Scale(5)).Add(c.Scale(4)).Sub(d).Scale(t * t)).
				Add(b.Scale(3).Sub(a).Sub(c.Scale(3)).Add(d).Scale(t * t * t))
			pts = append(pts, p.Scale(0.5))
		}
	}
	return pts
}

func shifted(pts []figure.Point, by func(figure.Point) figure.Point) []figure.Point {
	for i, p := range pts {
		pts[i] = by(p)
	}
	return pts
}

func ellipse(centre figure.Point, rx, ry float64) []figure.Point {
	pts := arc(figure.Point{}, 1, 0, 358)
	for i, p := range pts {
		pts[i] = figure.Pt(centre.X+rx*p.X, centre.Y+ry*p.Y)
	}
	return pts
}
