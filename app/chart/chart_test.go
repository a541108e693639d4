package chart

import (
	"image"
	"image/color"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
	_ "rimclear/kinematics/seeded"
	"rimclear/kinematics/unit"
)

var white = Look{Size: figure.Pt(380, 340), Palette: figure.Light()}.complete()

// anyJoint draws a hip and a round design of ordinary sizes.
func anyJoint() *rapid.Generator[Subject] {
	return rapid.Custom(func(t *rapid.T) Subject {
		num := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		ang := func(name string, lo, hi float64) unit.Angle { return unit.Angle(num(name, lo, hi)) * deg }
		head := num("head", 28, 54)
		c := kinematics.Case{Count: 1, Hip: kinematics.Hip{
			Side:  rapid.SampledFrom([]hip.Side{hip.Right, hip.Left}).Draw(t, "side"),
			Tilts: hip.Tilts{Standing: ang("tilt", -15, 15)}, PosturePlane: hip.Standing,
		}}
		c.Designs[0] = kinematics.Design{
			Rim:  implant.Rim{HeadDiameter: head, Arc: ang("arc", 160, 185), Wall: 5},
			Neck: implant.Neck{Diameter: head * num("neck", 0.35, 0.8)},
			Cup:  kinematics.Cup{Inclination: ang("inclination", 30, 55), Anteversion: ang("anteversion", 0, 30)},
			Stem: hip.Stem{Anteversion: ang("version", -5, 30), NeckShaft: ang("shaft", 120, 145)},
		}
		s := SubjectOf(c, 0)
		s.Posture = hip.Posture{Flexion: ang("flexion", -10, 100), Adduction: ang("adduction", -20, 20), InternalRotation: ang("rotation", -30, 30)}
		return s
	})
}

// distance returns how far p is from the nearest of lines.
func distance(p figure.Point, lines [][]figure.Point) float64 {
	best := math.Inf(1)
	for _, l := range lines {
		for i := 1; i < len(l); i++ {
			a, d := l[i-1], l[i].Sub(l[i-1])
			f := 0.0
			if n := d.X*d.X + d.Y*d.Y; n > 0 {
				q := p.Sub(a)
				f = min(max((q.X*d.X+q.Y*d.Y)/n, 0), 1)
			}
			best = min(best, p.Sub(a.Add(d.Scale(f))).Norm())
		}
	}
	return best
}

func TestEnvelopePassesThroughTheLimits(t *testing.T) {
	stopped := 0
	rapid.Check(t, func(t *rapid.T) {
		s := anyJoint().Draw(t, "subject")
		k := rapid.SampledFrom([]kinematics.SliceKind{kinematics.FlexionByRotation, kinematics.FlexionByAdduction, kinematics.AdductionByRotation}).Draw(t, "slice")
		sl := kinematics.StandardSlice(k, s.Posture)
		axis := rapid.SampledFrom([]kinematics.Axis{sl.Across, sl.Up}).Draw(t, "axis")
		j := s.Designs[0].Joint
		end := rapid.SampledFrom([]unit.Angle{axis.From, axis.To}).Draw(t, "end")
		l := j.Limit(motion.Sweep(s.Posture, axis.Angle, end, s.Hip.PosturePlane))
		if l.Status != kinematics.Stopped || j.Margin(s.Posture) < 1*deg {
			return
		}
		stopped++
		e := sliceChart{page: newPage(s, white), slice: sl}
		at := figure.Pt(l.Posture.Angle(sl.Across.Angle).Degrees(), l.Posture.Angle(sl.Up.Angle).Degrees())
		if d := distance(at, e.sample()[0].Lines(0)); d > 0.25 {
			t.Errorf("limit %v lies %.3f° from the envelope", at, d)
		}
	})
	if stopped < 20 && !testing.Short() {
		t.Errorf("only %d motions stopped", stopped)
	}
}

func TestGlobesEdgePassesThroughTheLimits(t *testing.T) {
	seen := 0
	rapid.Check(t, func(t *rapid.T) {
		s := anyJoint().Draw(t, "subject")
		angle := rapid.SampledFrom([]hip.JointAngle{hip.Flexion, hip.Adduction}).Draw(t, "angle")
		end := unit.Angle(rapid.SampledFrom([]float64{-80, 80}).Draw(t, "end")) * deg
		j := s.Designs[0].Joint
		l := j.Limit(motion.Sweep(s.Posture, angle, end, s.Hip.PosturePlane))
		g := globeChart{page: newPage(s, white), eye: globeEye}
		x, y, depth := g.eye.see(kinematics.ShaftDirection(l.Posture))
		if l.Status != kinematics.Stopped || j.Margin(s.Posture) < 1*deg || depth < 0.4 {
			return
		}
		seen++
		if d := distance(figure.Pt(x, y), g.sample()[0].Lines(0)); d > 0.01 {
			t.Errorf("limit %+v lies %.4f of the globe's radius from the edge", l.Posture, d)
		}
	})
	if seen < 10 && !testing.Short() {
		t.Errorf("only %d limits were on the near half", seen)
	}
}

func TestTracksStopOnTheAperturesEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyJoint().Draw(t, "subject")
		r := rimChart{page: newPage(s, white)}
		r.layout()
		theta, _ := s.Designs[0].Joint.Aperture.Theta()
		for _, tr := range r.follow() {
			end, ok := tr.end()
			if !ok || !tr.stops {
				continue
			}
			x, y := r.frame.Data(end)
			if got := math.Hypot(x, y); math.Abs(got-theta.Degrees()) > 1e-6 {
				t.Errorf("%s stops %v° from the cup axis, the aperture is %v° wide", tr.name, got, theta.Degrees())
			}
			// The neck of a round design touches the rim on its own side.
			to := heading(r.frame.Box.Centre(), end)
			if off := math.Abs(math.Remainder(to-r.hour(tr.azimuth), 360)); off > 1e-6 {
				t.Errorf("%s: contact is drawn %v° from the track's end", tr.name, off)
			}
		}
	})
}

func TestMarkerLandsWhereTheAxesSay(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and nothing in it runs at once")
	}
	rapid.Check(t, func(t *rapid.T) {
		s := anyJoint().Draw(t, "subject")
		c := rapid.SampledFrom(All[:3]).Draw(t, "chart")
		f := c.Draw(s, white)
		sl := map[string]kinematics.SliceKind{All[0].Key: kinematics.FlexionByRotation, All[1].Key: kinematics.FlexionByAdduction, All[2].Key: kinematics.AdductionByRotation}[c.Key]
		axes := kinematics.StandardSlice(sl, s.Posture)
		want := f.Plot.At(s.Posture.Angle(axes.Across.Angle).Degrees(), s.Posture.Angle(axes.Up.Angle).Degrees())
		img := image.NewRGBA(image.Rect(0, 0, 4*380, 4*340))
		f.DrawMarker(img, 4)
		// The shape is the same on all sides: its middle is the mean of its pixels,
		// once the hair lines are left out.
		var sum figure.Point
		n := 0.0
		for y := range img.Rect.Max.Y {
			for x := range img.Rect.Max.X {
				at := figure.Pt((float64(x)+0.5)/4, (float64(y)+0.5)/4)
				if img.RGBAAt(x, y) != (color.RGBA{}) && at.Sub(want).Norm() < 12 && math.Abs(at.X-want.X) > 1 && math.Abs(at.Y-want.Y) > 1 {
					sum, n = sum.Add(at), n+1
				}
			}
		}
		if n < 500 || !near2(sum.Scale(1/n), want, 0.3) {
			t.Errorf("%s: %v pixels about %v, want about %v", c.Key, n, sum.Scale(1/n), want)
		}
	})
}

func TestMarkerTellsItsStateByShape(t *testing.T) {
	picture := func(margin unit.Angle) []byte {
		l := white
		l.Palette.Contact.Line, l.Palette.Close.Line = l.Palette.Ink, l.Palette.Ink // no colours
		f := figure.Figure{Size: figure.Pt(20, 20), Marker: func(s *figure.Surface) { drawState(s, l, figure.Pt(10, 10), margin) }}
		return f.Image(2).Pix
	}
	free, near, contact := picture(20*deg), picture(2*deg), picture(-3*deg)
	if slices.Equal(free, near) || slices.Equal(near, contact) || slices.Equal(free, contact) {
		t.Error("without colour two states look alike")
	}
	if !slices.Equal(contact, picture(0)) {
		t.Error("a touch is not drawn as a contact")
	}
}

func TestStaticLayerIsStillWhereTheChartSaysSo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := small(sample(hip.Right), 2)
		c := rapid.SampledFrom(All).Draw(t, "chart")
		s.Posture = posture().Draw(t, "posture")
		other := s
		other.Posture = posture().Draw(t, "other")
		still, otherStill := c.Still(s), c.Still(other)
		for _, a := range jointAngles { // keep what the chart depends on
			if still.Angle(a) != 0 || otherStill.Angle(a) != 0 {
				other.Posture = other.Posture.With(a, s.Posture.Angle(a))
			}
		}
		if c.Still(s) != c.Still(other) {
			t.Fatalf("%s: Still changed", c.Key)
		}
		if !slices.Equal(static(c, s), static(c, other)) {
			t.Errorf("%s: the static layer moved from %+v to %+v", c.Key, s.Posture, other.Posture)
		}
	})
}

func static(c Chart, s Subject) []byte {
	img := image.NewRGBA(image.Rect(0, 0, 300, 300))
	c.Draw(s, Look{Size: figure.Pt(300, 300), Palette: figure.Dark()}).DrawStatic(img, 1)
	return img.Pix
}

func TestSpreadKeepsOrderAndDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.SliceOfN(rapid.Float64Range(-360, 360), 1, 8).Draw(t, "want")
		const gap = 12
		at := spread(want, gap)
		for i := range at {
			for k := range at[:i] {
				if d := math.Abs(math.Remainder(at[i]-at[k], 360)); d < gap-0.2 {
					t.Errorf("%v and %v are %v° apart in %v", at[i], at[k], d, at)
				}
			}
		}
	})
}

func TestChartsAreFoundByKey(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range All {
		if seen[c.Key] {
			t.Errorf("key %q stands twice", c.Key)
		}
		seen[c.Key] = true
		if got, ok := Find(c.Key); !ok || got.Key != c.Key {
			t.Errorf("Find(%q) = %q, %v", c.Key, got.Key, ok)
		}
	}
	if _, ok := Find("nothing"); ok {
		t.Error("found a chart that there is not")
	}
}

func TestChartWithoutADesignIsDrawn(t *testing.T) {
	for _, c := range All {
		c.Draw(Subject{}, white).Image(1)
	}
}

func TestSampledMarginIsExactWhereTheEnvelopePasses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyJoint().Draw(t, "subject")
		k := kinematics.SliceKind(rapid.IntRange(0, 2).Draw(t, "slice"))
		sl := kinematics.StandardSlice(k, s.Posture)
		e := sliceChart{page: newPage(s, white), slice: sl}
		got, want := e.sample()[0], s.Designs[0].Joint.Region(sl)
		for i, m := range want.Margin {
			d := math.Abs(got.Z[i] - m.Degrees())
			// Far from contact, where no line is drawn, it may be off by more.
			if m.Abs() < 2*deg && d > 1e-9 || math.Abs(m.Degrees()) < 25 && d > 0.3 {
				t.Fatalf("value %d: margin %v, want %v", i, got.Z[i], m.Degrees())
			}
		}
	})
}
