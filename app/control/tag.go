package control

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/figure"
	"rimclear/app/scene"
)

// State is how near contact something is; each has its colour and its shape.
type State int

const (
	StateFree State = iota
	StateClose
	StateContact
)

// Label names a point of the scene by a leader line.
type Label struct {
	At    r3.Vec // of a right hip, mm from the head centre
	Lines []string
	State State
	Flash float32 // how brightly it shines, 0 to 1
}

// tag draws a label over a picture: a mark at the point, a line, and words on
// a plate beside the joint.
type tag struct {
	mark  *canvas.Circle
	cross [2]*canvas.Line
	lead  *canvas.Line
	plate *canvas.Rectangle
	words [2]*canvas.Text
}

func newTag() *tag {
	g := &tag{mark: new(canvas.Circle), lead: new(canvas.Line), plate: new(canvas.Rectangle)}
	for i := range g.words {
		g.words[i], g.cross[i] = new(canvas.Text), new(canvas.Line)
	}
	return g
}

func (g *tag) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{g.lead, g.mark, g.cross[0], g.cross[1], g.plate, g.words[0], g.words[1]}
}

// layout puts the label where the camera sees its point. The words stand away
// from the middle of the picture, inside it.
func (g *tag) layout(l look, b Label, cam scene.Camera, size fyne.Size) {
	lens := cam.Lens(int(size.Width), int(size.Height))
	x, y, _, ok := lens.Project(b.At)
	if !ok || len(b.Lines) == 0 || size.Width < 1 {
		for _, o := range g.objects() {
			o.Hide()
		}
		return
	}
	tone := b.tone(l)
	at := fyne.NewPos(float32(x), float32(y))
	var wide, high float32
	for i, t := range g.words {
		t.Text = ""
		if i < len(b.Lines) {
			t.Text = b.Lines[i]
		}
		t.TextSize, t.TextStyle.Bold, t.Color = l.caption, i == 0, l.Ink
		if i == 0 {
			t.TextSize, t.Color = l.text, tone
		}
		m := t.MinSize()
		wide, high = max(wide, m.Width), high+m.Height*min(1, float32(len(t.Text)))
	}
	const pad, reach = 6, 64
	box := fyne.NewPos(at.X+reach, at.Y-reach-high/2)
	if at.X < size.Width/2 {
		box.X = at.X - reach - wide - 2*pad
	}
	if at.Y > size.Height/2 {
		box.Y = at.Y + reach - high/2
	}
	box.X = min(max(box.X, pad), size.Width-wide-3*pad)
	box.Y = min(max(box.Y, pad), size.Height-high-3*pad)
	put(g.plate, box.X, box.Y, wide+2*pad, high+pad)
	g.plate.FillColor, g.plate.CornerRadius = figure.Mix(l.Paper, l.Contact.Line, 0.5*float64(b.Flash)), 3
	g.plate.StrokeColor, g.plate.StrokeWidth = tone, 1+3*b.Flash
	top := box.Y + pad/2
	for _, t := range g.words {
		t.Move(fyne.NewPos(box.X+pad, top))
		top += t.MinSize().Height
	}
	end := fyne.NewPos(box.X, box.Y+(high+pad)/2)
	if box.X < at.X {
		end.X += wide + 2*pad
	}
	g.lead.Position1, g.lead.Position2, g.lead.StrokeColor, g.lead.StrokeWidth = at, end, tone, 1.2
	r := 5 + 4*b.Flash
	put(g.mark, at.X-r, at.Y-r, 2*r, 2*r)
	g.mark.FillColor, g.mark.StrokeColor, g.mark.StrokeWidth = l.Paper, tone, 2
	for i, c := range g.cross {
		d := r * float32(1-2*i)
		c.Position1, c.Position2 = at.AddXY(-r, -d), at.AddXY(r, d)
		c.StrokeColor, c.StrokeWidth = tone, 2
	}
	for _, o := range g.objects() {
		o.Show()
	}
	if b.State != StateContact {
		g.cross[0].Hide()
		g.cross[1].Hide()
	}
}

// tone is the colour of a label's lines.
func (b Label) tone(l look) figure.Colour {
	switch b.State {
	case StateClose:
		return l.Close.Text
	case StateContact:
		return l.Contact.Text
	}
	return l.Ink
}

// veil shows whether something lies before the point: then its mark is an empty
// ring, and ring and line are paler.
func (g *tag) veil(l look, b Label, hidden bool) {
	tone, fill := b.tone(l), color.Color(l.Paper)
	if hidden {
		tone, fill = figure.Fade(tone, 0.45), transparent
	}
	g.lead.StrokeColor, g.mark.StrokeColor, g.mark.FillColor = tone, tone, fill
	for _, c := range g.cross {
		c.StrokeColor = tone
	}
}
