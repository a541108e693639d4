package chart

import (
	"bytes"
	"context"
	"image"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// targetOf maps a design of the sample under two motions: bending with a turn
// in, and stretching with a turn out.
func targetOf(t testing.TB, g kinematics.Grid) Target {
	t.Helper()
	c := kinematics.Default()
	c.Count = 2
	c.Designs[1].Cup.Inclination = 48 * deg
	ask := func(key string, risk motion.Risk, p ...hip.Posture) motion.Requirement {
		return motion.Requirement{Key: key, Risk: risk, Paths: []motion.Path{motion.Through(hip.APP, p...)}}
	}
	list := []motion.Requirement{
		ask("in", motion.Posterior, hip.Posture{Flexion: 95 * deg}, hip.Posture{Flexion: 95 * deg, InternalRotation: 30 * deg}),
		ask("out", motion.Anterior, hip.Posture{Flexion: -15 * deg}, hip.Posture{Flexion: -15 * deg, InternalRotation: -35 * deg}),
	}
	m := new(kinematics.Map)
	if err := kinematics.Survey(context.Background(), c, 0, list, g, 1, m); err != nil {
		t.Fatal(err)
	}
	best := kinematics.Cup{Inclination: 46 * deg, Anteversion: 20 * deg}
	return Target{Hip: c.Hip, Goal: c.Goal, Designs: c.Active(), Map: m, Zones: kinematics.Zones, Best: &best, Asked: true}
}

func placementMap(t testing.TB) Target {
	return targetOf(t, kinematics.PlacementGrid(hip.ByRadiograph, hip.APP))
}

func TestGoldenTargetMap(t *testing.T) {
	look := Look{Size: figure.Pt(460, 480), Palette: figure.Light()}
	compareGolden(t, filepath.Join("..", "..", "testdata", "chart", "target_map.svg"), bareSVG(t, TargetMap(placementMap(t), look)))
	compareGolden(t, filepath.Join("..", "..", "testdata", "chart", "version_map.svg"),
		bareSVG(t, TargetMap(targetOf(t, kinematics.VersionGrid(hip.ByRadiograph, hip.APP)), look)))
}

// The two layers, drawn one over the other, are the picture itself.
func TestGroundAndWhatLiesOverItMakeTheMap(t *testing.T) {
	look := Look{Size: figure.Pt(400, 400), Palette: figure.Light()}
	m := placementMap(t)
	whole, layered := image.NewRGBA(image.Rect(0, 0, 400, 400)), image.NewRGBA(image.Rect(0, 0, 400, 400))
	TargetMap(m, look).DrawStatic(whole, 1)
	ground, over := TargetLayers(m, look)
	ground.DrawStatic(layered, 1)
	over.DrawStatic(layered, 1)
	if !bytes.Equal(whole.Pix, layered.Pix) {
		t.Error("the layers differ from the whole")
	}
}

// What is dragged to a place of the map lies there, in every definition, plane
// and on both maps.
func TestADraggedCupLiesWhereItWasDragged(t *testing.T) {
	for _, grid := range []func(hip.Definition, hip.Plane) kinematics.Grid{kinematics.PlacementGrid, kinematics.VersionGrid} {
		for d := hip.ByRadiograph; d <= hip.ByAnatomy; d++ {
			for _, plane := range []hip.Plane{hip.APP, hip.Standing} {
				m := targetOf(t, grid(d, plane))
				m.Hip.Tilts.Standing = -9 * deg
				for own := hip.ByRadiograph; own <= hip.ByAnatomy; own++ {
					m.Designs[0].Cup = m.Designs[0].Cup.Redefined(own)
					cup, stem := m.Dragged(31.2, 22.4)
					moved := m
					moved.Designs = append([]kinematics.Design(nil), m.Designs...)
					moved.Designs[0].Cup, moved.Designs[0].Stem.Anteversion = cup, stem
					if x, y := moved.Placed(); math.Abs(x-31) > 1e-6 || math.Abs(y-22.5) > 1e-6 {
						t.Errorf("definition %v, plane %v, own %v: dragged to 31/22.5 it lies at %.4f/%.4f", d, plane, own, x, y)
					}
					if cup.Definition != own {
						t.Errorf("the cup is stated in another definition, %v", cup.Definition)
					}
				}
			}
		}
	}
}

// The line drawn between free and forbidden is where the margin is zero.
func TestTheEdgeOfTheMapIsWhereTheWorstMotionTouches(t *testing.T) {
	m := placementMap(t)
	field := (&targetMap{Target: m, look: Look{}.complete()}).field()
	n := 0
	for _, line := range field.Lines(0) {
		for _, p := range line {
			i, k := int(p.X-15), int(p.Y+20)
			if i < 0 || k < 0 || i+1 >= 61 || k+1 >= 61 {
				continue
			}
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, at := range [4][2]int{{i, k}, {i + 1, k}, {i, k + 1}, {i + 1, k + 1}} {
				v, _ := m.Map.At(at[0], at[1])
				lo, hi = min(lo, v.Degrees()), max(hi, v.Degrees())
			}
			if n++; lo > 1e-9 || hi < -1e-9 {
				t.Errorf("at %.1f/%.1f the margins around run from %.2f° to %.2f°", p.X, p.Y, lo, hi)
			}
		}
	}
	if n < 20 {
		t.Errorf("only %d points on the line", n)
	}
}

func TestAMapOnWhichNothingServesSaysSo(t *testing.T) {
	m := placementMap(t)
	for i := range m.Map.Margin {
		m.Map.Margin[i] = -3 * unit.Degree
	}
	got := bareSVG(t, TargetMap(m, Look{Size: figure.Pt(400, 400), Palette: figure.Light()}))
	if !bytes.Contains(got, []byte("nothing on this map serves")) {
		t.Error("the map does not say that nothing serves")
	}
}

func TestAMarginTrackShowsWhereItStops(t *testing.T) {
	c := Course{Times: []float64{0, 1, 2}, Margins: []unit.Angle{10 * deg, 0, -8 * deg}, Stops: true, Contact: 1, Now: 0.5, Here: 5 * deg, Close: 5 * deg}
	look := Look{Size: figure.Pt(400, 46), Palette: figure.Light()}
	compareGolden(t, filepath.Join("..", "..", "testdata", "chart", "margin_track.svg"), bareSVG(t, MarginTrack(c, look)))
	free := c
	free.Stops = false
	if bytes.Equal(bareSVG(t, MarginTrack(free, look)), bareSVG(t, MarginTrack(c, look))) {
		t.Error("a motion that stops looks like one that does not")
	}
}

// BenchmarkTargetMap draws the map over its ground at 520×520.
func BenchmarkTargetMap(b *testing.B) {
	m := placementMap(b)
	img := image.NewRGBA(image.Rect(0, 0, 520, 520))
	for b.Loop() {
		_, over := TargetLayers(m, Look{Size: figure.Pt(520, 520), Palette: figure.Light()})
		over.DrawStatic(img, 1)
		over.DrawMarker(img, 1)
	}
}

// A neck wider than its head is no bearing: such places are neither free nor in
// contact, and the legend names them.
func TestPlacesWithoutABearingAreNotDrawnAsContact(t *testing.T) {
	look := Look{Size: figure.Pt(400, 400), Palette: figure.Light()}
	row := kinematics.ParameterByKey
	pair := targetOf(t, kinematics.PairGrid(row("neck_diameter_mm"), row("head_diameter_mm"), hip.ByRadiograph, hip.APP))
	img := image.NewRGBA(image.Rect(0, 0, 400, 400))
	f := TargetMap(pair, look)
	f.DrawStatic(img, 1)
	grey := (&targetMap{Target: pair, look: look.complete()}).absentFill().Colour
	of := func(neck, head float64) (n int) {
		at := f.Plot.At(neck, head)
		for y := -8; y <= 8; y++ {
			for x := -8; x <= 8; x++ {
				if c := img.RGBAAt(int(at.X)+x, int(at.Y)+y); c.R == grey.R && c.G == grey.G && c.B == grey.B {
					n++
				}
			}
		}
		return n
	}
	if n := of(54, 27); n < 200 { // of 289; the rest are lines of the grid
		t.Errorf("a neck of 54 mm under a head of 27 mm: %d pixels are plain grey", n)
	}
	if n := of(27, 33); n > 0 {
		t.Errorf("a neck of 27 mm under a head of 33 mm touches, and %d pixels are drawn as no bearing", n)
	}
	if !pair.Absent() || placementMap(t).Absent() {
		t.Errorf("places without a bearing: %v on the map of two sizes, %v on that of cups", pair.Absent(), placementMap(t).Absent())
	}
}

// With large letters on a small map the titles of the axes are told shorter, not
// cut at both ends.
func TestTitlesOfTheMapAreNeverLongerThanTheirAxis(t *testing.T) {
	m := placementMap(t)
	var said []string
	for _, language := range present.Languages() {
		for _, text := range []float64{11, 16, 22} {
			f := TargetMap(m, Look{Size: figure.Pt(350, 400), Palette: figure.Light(), Text: text, Words: present.Preferred(language.Tag)})
			for _, a := range []struct {
				title  string
				length float64
			}{{f.Plot.X.Title, f.Size.X}, {f.Plot.Y.Title, f.Size.Y}} {
				if w := (figure.TextStyle{Font: f.Plot.Font}).Width(a.title); w > a.length || a.title == "" {
					t.Errorf("%s, letters of %g: %q is %.0f long on %.0f", language.Tag, text, a.title, w, a.length)
				}
				said = append(said, a.title)
			}
		}
	}
	if !slices.ContainsFunc(said, func(s string) bool { return strings.Contains(s, "(") }) {
		t.Errorf("the definition is never told: %q", said)
	}
}
