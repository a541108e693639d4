package chart

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// thighGlobe is the reach of the thigh: the sphere of shaft directions about
// the hip centre, at the posture's rotation, seen from in front and below.
var thighGlobe = Chart{
	Key:   "thigh_globe",
	Title: globeTitle,
	Draw: func(s Subject, l Look) figure.Figure {
		l = l.complete()
		g := globeChart{page: newPage(s, l), eye: globeEye}
		g.layout()
		g.fields = sync.OnceValue(g.sample)
		title := globeTitle(l.Words)
		return figure.Figure{
			Title: title, Alt: g.alt(title, g.held()), Size: l.Size, Paper: l.Palette.Paper,
			Static: g.drawStatic, Marker: g.drawMarker, Plot: g.frame,
		}
	},
	Still: func(s Subject) hip.Posture { return hip.Posture{InternalRotation: s.Posture.InternalRotation} },
}

func globeTitle(w *present.Words) string { return w.Phrase("chart_thigh_globe") }

// globeEye looks at the thigh flexed by 45° and abducted by 15°, so that
// sitting, standing and the outer side are all on the near half.
var globeEye = newEye(kinematics.ShaftDirection(hip.Posture{Flexion: 45 * unit.Degree, Adduction: -15 * unit.Degree}))

// eye is an orthographic view of the unit sphere of a right hip.
type eye struct{ right, up, near r3.Vec }

// newEye returns the view from a direction, superior up.
func newEye(from r3.Vec) eye {
	right := r3.Unit(r3.Cross(r3.Vec{Y: 1}, from))
	return eye{right: right, up: r3.Cross(from, right), near: from}
}

// see returns where a direction appears, and its depth: above zero on the near
// half.
func (e eye) see(d r3.Vec) (x, y, depth float64) {
	return r3.Dot(d, e.right), r3.Dot(d, e.up), r3.Dot(d, e.near)
}

// at returns the direction on the near half that appears at (x, y); outside
// the disc the nearest one on its edge.
func (e eye) at(x, y float64) r3.Vec {
	h := math.Hypot(x, y)
	if h > 1 {
		x, y, h = x/h, y/h, 1
	}
	d := r3.Add(r3.Scale(x, e.right), r3.Scale(y, e.up))
	return r3.Add(d, r3.Scale(math.Sqrt(1-h*h), e.near))
}

// pelvisFromThigh returns the rotation of a thigh without internal rotation
// whose shaft points in a direction: flexion, then adduction from -90° to 90°.
func pelvisFromThigh(d r3.Vec) hip.Rotation {
	sz, cz, sx, cx := 0.0, 1.0, -d.Z, math.Hypot(d.X, d.Y)
	if cx > 0 {
		sz, cz = d.X/cx, -d.Y/cx
	}
	return hip.Rotation{{cz, -sz * cx, sz * sx}, {sz, cz * cx, -cz * sx}, {0, sx, cx}}
}

// globeChart is one drawing of the globe.
type globeChart struct {
	page
	eye    eye
	frame  figure.Frame // -1 to 1 across the disc; backwards on a left hip
	fields func() []figure.Field
}

// globeCells is how many values of the margin lie across the disc.
const globeCells = 121

func (g *globeChart) layout() {
	line := g.look.font(0.92).LineHeight()
	across := figure.Axis{Min: -1, Max: 1}
	if g.Hip.Side == hip.Left {
		across = figure.Axis{Min: 1, Max: -1}
	}
	g.frame = figure.Frame{Box: g.body.Trim(line, 1.6*line, line, 0.4*line), X: across, Y: figure.Axis{Min: -1, Max: 1}}.Square()
}

// sample returns the margin of each design over the disc, in degrees.
func (g *globeChart) sample() []figure.Field {
	v := figure.Span(-1, 1, globeCells)
	fields := make([]figure.Field, len(g.Designs))
	atOnce(len(g.Designs), func(k int) {
		n := neckOf(g.Designs[k].Joint)
		fields[k] = sampled(v, v, g.marginOf(n, v), g.turning(n, v))
	})
	return fields
}

// marginOf returns the margin of a neck at a place of the disc.
func (g *globeChart) marginOf(n neck, v []float64) func(i, j int) float64 {
	thighFromNeck := hip.RotationY(g.Posture.InternalRotation).Mul(n.femurFromNeck)
	return func(i, j int) float64 {
		cupFromThigh := n.cupFromPelvis.Mul(pelvisFromThigh(g.eye.at(v[i], v[j])))
		return n.marginOf(&cupFromThigh, &thighFromNeck)
	}
}

// turning returns by how much the margin of a neck may fall in a cell of
// sampled.
func (g *globeChart) turning(n neck, v []float64) func(i, j int) float64 {
	return func(i, j int) float64 {
		to, up := min(i+4, len(v)-1), min(j+4, len(v)-1)
		return n.Rate() * g.turn(figure.Rect{Min: figure.Pt(v[i], v[j]), Max: figure.Pt(v[to], v[up])})
	}
}

// turn bounds, in degrees, by how much the thigh turns from the nearest corner
// of a cell to any place in it. A step on the disc is a longer one on the globe
// by the slope there, and it turns the thigh about itself the more the nearer
// it is to the singular directions of adduction.
func (g *globeChart) turn(cell figure.Rect) float64 {
	far, near, steep := 0.0, math.Inf(1), 0.0
	for _, at := range cell.Ring() {
		h := at.Norm()
		far, near = max(far, h), min(near, h)
		steep = max(steep, math.Abs(g.eye.at(at.X, at.Y).Z))
	}
	step, slope := cell.Max.Sub(cell.Min).Norm()/2, 1.0
	if near < 1.01 { // farther out all places are on the edge
		if far > 0.97 {
			return math.Inf(1)
		}
		slope = 1 / math.Sqrt(1-far*far)
	}
	if steep += step * slope; steep > 0.97 {
		return math.Inf(1)
	}
	return step * slope * (1 + steep/math.Sqrt(1-steep*steep)) * 180 / math.Pi
}

// place returns where a shaft direction appears on the surface; hidden ones
// have no place.
func (g *globeChart) place(p hip.Posture) figure.Point {
	x, y, depth := g.eye.see(kinematics.ShaftDirection(p))
	if depth < 0 {
		return figure.Pt(math.NaN(), math.NaN())
	}
	return g.frame.At(x, y)
}

func (g *globeChart) held() string {
	return g.look.Phrase("chart_at", g.look.reading(hip.InternalRotation, g.Posture.InternalRotation)...)
}
