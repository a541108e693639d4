package view

import (
	"image"
	"time"

	"fyne.io/fyne/v2/theme"

	"rimclear/app/chart"
	"rimclear/app/control"
	"rimclear/app/figure"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

// plots shows one chart of those in the chooser. Its static layer is worked out
// in the background, its marker with each picture.
type plots struct {
	*Context
	choose *control.Select
	plot   *control.Plot

	list   []chart.Chart
	kind   chart.Chart
	size   figure.Point
	scale  float64
	pixels image.Point
	asked  plotKey
	solver *session.Latest[plotQuestion, *image.RGBA]
	pace   *pacer
}

// chartEvery is how often a chart is drawn anew while something is dragged: it
// takes a processor some 10 to 25 ms, of which the picture has need too.
const chartEvery = time.Second / 8

// plotKey is all that a chart's static layer depends on.
type plotKey struct {
	chart   string
	hip     kinematics.Hip
	designs [kinematics.MaxDesigns]kinematics.Design
	active  int
	still   hip.Posture
	dark    bool
	size    figure.Point
	scale   float64
	pixels  image.Point
	text    float32
}

type plotQuestion struct {
	key    plotKey
	figure figure.Figure
}

// elsewhere are charts that the window shows in another form.
var elsewhere = map[string]bool{"limit_rulers": true}

func newPlots(c *Context) *plots {
	var list []chart.Chart
	for _, k := range chart.All {
		if !elsewhere[k.Key] {
			list = append(list, k)
		}
	}
	return newPlotsOf(c, list)
}

func newPlotsOf(c *Context, list []chart.Chart) *plots {
	p := &plots{Context: c, plot: control.NewPlot(), list: list}
	var titles []string
	for _, k := range list {
		titles = append(titles, chartName(c, k))
	}
	p.kind = p.list[0]
	p.choose = control.NewSelect(titles, nil)
	p.choose.Hint, p.choose.Help = c.Hint, c.Words.Phrase("window_choose_chart_help")
	p.choose.SetSelectedIndex(0)
	p.choose.OnChanged = func(string) { p.pick(p.choose.SelectedIndex()) }
	p.plot.Resized = func(size figure.Point, scale float64, pixels image.Point) {
		p.size, p.scale, p.pixels = size, scale, pixels
		c.Post(p.ask)
	}
	p.plot.Pick = p.point
	p.solver = session.NewLatest(drawStill, c.Post, p.drawn)
	p.pace = &pacer{Context: c, every: chartEvery, do: p.ask}
	return p
}

// chartNames are the short names of charts whose titles are too long for the
// list of charts.
var chartNames = map[string]string{
	"envelope_flexion_rotation":   "window_flexion_rotation",
	"envelope_flexion_adduction":  "window_flexion_adduction",
	"envelope_adduction_rotation": "window_adduction_rotation",
	"thigh_globe":                 "window_thigh_globe",
}

// chartName is what a chart is called in the list.
func chartName(c *Context, k chart.Chart) string {
	if key, ok := chartNames[k.Key]; ok {
		return c.Words.Phrase(key)
	}
	return k.Title(c.Words)
}

// drawStill draws a static layer, away from the goroutine that draws the
// window.
func drawStill(q plotQuestion) *image.RGBA {
	img := image.NewRGBA(image.Rectangle{Max: q.key.pixels})
	q.figure.DrawStatic(img, q.key.scale)
	return img
}

func (p *plots) drawn(q plotQuestion, img *image.RGBA) {
	if q.key.size == p.size && q.key.pixels == p.pixels && q.key.chart == p.kind.Key {
		p.plot.Lay(img)
	}
}

// pick shows another chart.
func (p *plots) pick(i int) {
	p.kind = p.list[i]
	p.display(p.Session.Now())
	p.ask()
}

func (p *plots) look() chart.Look {
	return chart.Look{Size: p.size, Palette: *p.palette(), Text: float64(p.text()), Words: p.Words}
}

// lowChart is the height under which a chart's words are set smaller.
const lowChart = 280

// text is the size of the letters.
func (p *plots) text() float32 {
	k := p.Theme.Size(theme.SizeNameCaptionText)
	if p.size.Y < lowChart {
		return 0.87 * k
	}
	return k
}

func (p *plots) subject(s *session.Snapshot) chart.Subject {
	sub := chart.Subject{Hip: s.Case.Hip, Posture: s.Case.Posture, Active: s.Active}
	for i := range s.Case.Active() {
		sub.Designs = append(sub.Designs, chart.Design{Name: s.Case.Designs[i].Name, Joint: p.Session.Joint(i), Of: s.Case.Designs[i]})
	}
	return sub
}

func (p *plots) key(s *session.Snapshot, sub chart.Subject) plotKey {
	k := plotKey{
		chart: p.kind.Key, hip: s.Case.Hip, active: s.Active, still: p.kind.Still(sub), dark: p.palette().Dark,
		size: p.size, scale: p.scale, pixels: p.pixels, text: p.text(),
	}
	copy(k.designs[:], s.Case.Active())
	return k
}

// display marks the posture, and wishes for another static layer if need be.
func (p *plots) display(s *session.Snapshot) {
	if p.scale == 0 || !p.plot.Visible() {
		return
	}
	sub := p.subject(s)
	p.plot.Mark(p.kind.Draw(sub, p.look()))
	if p.key(s, sub) != p.asked {
		p.pace.wish()
	}
}

// ask has the static layer of what is on screen drawn.
func (p *plots) ask() {
	if p.scale == 0 {
		return
	}
	s := p.Session.Now()
	sub := p.subject(s)
	if k := p.key(s, sub); k != p.asked {
		p.asked = k
		f := p.kind.Draw(sub, p.look())
		p.plot.Mark(f)
		p.solver.Ask(plotQuestion{k, f})
	}
}

// sliceKinds are the charts of which a point is a posture.
var sliceKinds = map[string]kinematics.SliceKind{
	"envelope_flexion_rotation":   kinematics.FlexionByRotation,
	"envelope_flexion_adduction":  kinematics.FlexionByAdduction,
	"envelope_adduction_rotation": kinematics.AdductionByRotation,
}

// point takes the posture to a place of a chart, where it is one.
func (p *plots) point(x, y float64) {
	kind, ok := sliceKinds[p.kind.Key]
	if !ok {
		return
	}
	s := kinematics.StandardSlice(kind, p.Session.Now().Case.Posture)
	goTo(p.Session, s.Held.With(s.Across.Angle, degrees(half(x))).With(s.Up.Angle, degrees(half(y))))
}
