package chart

import (
	"image"
	"math"
	"testing"

	"pgregory.net/rapid"

	"rimclear/app/figure"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// writing is a canvas that keeps the texts drawn on it and nothing else.
type writing struct{ texts []written }

type written struct {
	text string
	box  figure.Rect
}

func (w *writing) Stroke([][]figure.Point, figure.Stroke) {}
func (w *writing) Fill([][]figure.Point, figure.Colour)   {}
func (w *writing) Image(figure.Affine, image.Image)       {}
func (w *writing) Clip([][]figure.Point)                  {}
func (w *writing) Unclip()                                {}
func (w *writing) Text(at figure.Point, s string, t figure.TextStyle) {
	from := -t.Width(s) * float64(t.H) / 2 // left, centre, right
	turn := figure.Translate(at.X, at.Y).Mul(figure.Rotation(t.Turn))
	corners := figure.Box(from, -t.CapHeight(), t.Width(s), t.CapHeight()).Ring()
	for i, c := range corners {
		corners[i] = turn.Apply(c)
	}
	box, _ := figure.Bounds(corners)
	w.texts = append(w.texts, written{s, box})
}

func (w written) overlaps(o written) bool {
	return w.box.Min.X < o.box.Max.X && o.box.Min.X < w.box.Max.X && w.box.Min.Y < o.box.Max.Y && o.box.Min.Y < w.box.Max.Y
}

func TestNoWordLeavesTheChartOrLiesOnAnother(t *testing.T) {
	sizes := []figure.Point{{X: 380, Y: 340}, {X: 380, Y: 420}, {X: 500, Y: 500}, {X: 640, Y: 420}}
	for _, side := range []hip.Side{hip.Right, hip.Left} {
		all := sample(side)
		all.Designs[2] = all.Designs[0] // the lip is slow, and has no words of its own
		rapid.Check(t, func(t *rapid.T) {
			s := all
			s.Designs = all.Designs[:rapid.IntRange(1, len(all.Designs)).Draw(t, "designs")]
			s.Active = rapid.IntRange(0, len(s.Designs)-1).Draw(t, "active")
			s.Posture = posture().Draw(t, "posture")
			c := rapid.SampledFrom(All).Draw(t, "chart")
			size := rapid.SampledFrom(sizes).Draw(t, "size")
			var w writing
			c.Draw(s, Look{Size: size, Palette: figure.Light()}).Draw(&w)
			page := figure.Rect{Max: size}
			for i, a := range w.texts {
				if !page.Contains(a.box.Min) || !page.Contains(a.box.Max) {
					t.Errorf("%s at %v: %q leaves the chart: %v", c.Key, size, a.text, a.box)
				}
				for _, b := range w.texts[:i] {
					if a.overlaps(b) {
						t.Errorf("%s at %v: %q lies on %q", c.Key, size, a.text, b.text)
					}
				}
			}
		})
	}
}

func posture() *rapid.Generator[hip.Posture] {
	angle := func(lo, hi float64) *rapid.Generator[float64] { return rapid.Float64Range(lo, hi) }
	return rapid.Custom(func(t *rapid.T) hip.Posture {
		return hip.Posture{
			Flexion:          unit.Angle(angle(-50, 150).Draw(t, "flexion")) * deg,
			Adduction:        unit.Angle(angle(-70, 70).Draw(t, "adduction")) * deg,
			InternalRotation: unit.Angle(angle(-100, 100).Draw(t, "rotation")) * deg,
		}
	})
}

func near2(a, b figure.Point, tol float64) bool { return math.Hypot(a.X-b.X, a.Y-b.Y) <= tol }
