package report

import (
	"image"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/app/scene"
	"rimclear/kinematics/hip"
)

// View is how the joint is to be drawn.
type View struct {
	Camera  scene.Camera
	Bones   bool
	Size    figure.Point // points, the caption's included
	Scale   float64      // pixels per point of the picture; zero means 2
	Text    float64      // size of the letters in the picture; zero means 12
	Palette figure.Palette
	Words   *present.Words // nil means English
}

// Whole is the view of the joint with its bones, three-quarters from the front.
func Whole(size figure.Point, p figure.Palette) View {
	c := scene.Oblique()
	c.Extent, c.Target.Y = wholeExtent, wholeTarget
	return View{Camera: c, Bones: true, Size: size, Palette: p}
}

// In mm: the pelvis above and the shaft below, the hip in the middle.
const (
	wholeExtent = 285
	wholeTarget = -8
)

// Close is the view of the parts alone along the rim where neck and rim touch,
// from outside the opening.
func Close(p Placed, size figure.Point, palette figure.Palette) View {
	axis, rim := p.Joint.CupAxis(), r3.Unit(p.Contact.RimPoint)
	along := r3.Unit(r3.Cross(axis, rim))
	if along.X < 0 {
		along = r3.Scale(-1, along) // from in front rather than from behind
	}
	c := scene.Facing(r3.Unit(r3.Add(along, r3.Scale(0.6, axis))))
	c.Extent = 3 * p.Design.Rim.HeadDiameter
	return View{Camera: c, Size: size, Palette: palette}
}

// Joint draws a placed design, the picture above, the caption and the caution
// below, with the contact named by its clock hour. The picture is an image under vector
// labels.
func Joint(p Placed, caption string, v View) figure.Figure {
	v = v.complete(p)
	text := figure.TextStyle{Font: figure.Font{Size: 11}, Colour: v.Palette.Ink}
	small := figure.TextStyle{Font: figure.Font{Size: 8.5}, Colour: v.Palette.Soft}
	wide := v.Size.X - 2*margin
	below := text.LineHeight()*float64(len(text.Wrap(caption, wide))) +
		small.LineHeight()*float64(len(small.Wrap(v.Words.Caution(), wide)))
	view := figure.Box(0, 0, v.Size.X, v.Size.Y-below-2.5*margin)
	img := render(p, v, view)
	return figure.Figure{
		Title: caption, Alt: caption, Size: v.Size, Paper: v.Palette.Paper,
		Static: func(s *figure.Surface) {
			s.Image(view, img)
			label(s, p, v, view)
			next := s.Paragraph(figure.Box(margin, view.Max.Y+margin, wide, v.Size.Y), caption, text)
			s.Paragraph(figure.Box(margin, next+margin/2, wide, v.Size.Y), v.Words.Caution(), small)
		},
	}
}

// complete returns the view with what was left out.
func (v View) complete(p Placed) View {
	if v.Scale == 0 {
		v.Scale = 2
	}
	if v.Text == 0 {
		v.Text = 12
	}
	if v.Words == nil {
		v.Words = present.English()
	}
	v.Camera.Mirror = p.Joint.Side() == hip.Left
	return v
}

// Bare draws a placed design without anything below the picture; alt says what
// it shows.
func Bare(p Placed, alt string, v View) figure.Figure {
	v = v.complete(p)
	view := figure.Rect{Max: v.Size}
	img := sync.OnceValue(func() *image.RGBA { return render(p, v, view) })
	return figure.Figure{
		Title: alt, Alt: alt, Size: v.Size, Paper: v.Palette.Paper,
		Static: func(s *figure.Surface) {
			s.Image(view, img())
			label(s, p, v, view)
		},
	}
}

const margin = 8 // points, round the caption

func render(p Placed, v View, view figure.Rect) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, int(view.W()*v.Scale), int(view.H()*v.Scale)))
	tone := scene.Light
	if v.Palette.Dark {
		tone = scene.Dark
	}
	new(scene.Renderer).Draw(img, v.Camera, tone, Parts(p, v.Bones))
	return img
}

// label names the contact by its hour, on a line that leads to it.
func label(s *figure.Surface, p Placed, v View, view figure.Rect) {
	if p.Contact.Margin >= nearly {
		return
	}
	x, y, _, ok := v.Camera.Lens(int(view.W()), int(view.H())).Project(p.Contact.RimPoint)
	if !ok {
		return
	}
	at := figure.Pt(x, y)
	to := figure.Pt(view.Max.X-7.5*v.Text, view.Min.Y+2.5*v.Text)
	s.Line(at, to, figure.Stroke{Width: 1, Colour: v.Palette.Ink})
	s.Text(to, v.Words.Clock(p.Contact.Azimuth), figure.TextStyle{
		Font: figure.Font{Size: v.Text, Bold: true}, Colour: v.Palette.Ink, Plate: v.Palette.Paper,
	}.At(figure.Left, figure.Middle))
}
