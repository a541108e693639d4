package chart

import (
	"image"
	"image/color"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
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
	if stopped < 20 {
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
	if seen < 10 {
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

func TestSpaceIsMirroredForALeftHip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		right := anyJoint().Draw(t, "subject")
		right.Hip.Side = hip.Right
		left := right
		left.Hip.Side = hip.Left
		a, b := rimChart{page: newPage(right, white)}, rimChart{page: newPage(left, white)}
		a.layout()
		b.layout()
		axis := inCup(right.Designs[0].Joint, right.Posture, right.Hip.PosturePlane).Axis
		p, q := a.place(axis), b.place(axis)
		if !near2(figure.Pt(380-p.X, p.Y), q, 1e-9) {
			t.Errorf("neck axis at %v and %v: not mirrored", p, q)
		}
		g, h := globeChart{page: newPage(right, white), eye: globeEye}, globeChart{page: newPage(left, white), eye: globeEye}
		g.layout()
		h.layout()
		thighAt := hip.Posture{Flexion: 45 * deg, Adduction: right.Posture.Adduction}
		p, q = g.place(thighAt), h.place(thighAt)
		if !near2(figure.Pt(380-p.X, p.Y), q, 1e-9) {
			t.Errorf("thigh at %v and %v: not mirrored", p, q)
		}
	})
}

func TestThreeOClockIsAnterior(t *testing.T) {
	for side, want := range map[hip.Side]float64{hip.Right: 0, hip.Left: 180} {
		r := rimChart{page: newPage(small(sample(side), 1), white)}
		r.layout()
		if got := math.Mod(r.hour(90*deg), 360); got != want {
			t.Errorf("side %v: 3 o'clock is drawn at %v°, want %v", side, got, want)
		}
		// A neck turned towards anterior is drawn towards 3.
		to := heading(r.frame.Box.Centre(), r.place(r3.Unit(r3.Vec{Y: 1, Z: 1})))
		if math.Abs(math.Remainder(to-want, 360)) > 1e-9 {
			t.Errorf("side %v: an anterior neck axis is drawn at %v°, want %v", side, to, want)
		}
	}
}

func TestAbductedThighPointsToTheOuterSide(t *testing.T) {
	for side, sign := range map[hip.Side]float64{hip.Right: -1, hip.Left: 1} { // seen from in front
		g := globeChart{page: newPage(small(sample(side), 1), white), eye: globeEye}
		g.layout()
		out, in := g.place(thigh(30, -40)), g.place(thigh(30, 20))
		if (out.X-in.X)*sign <= 0 {
			t.Errorf("side %v: abducted at x %v, adducted at %v", side, out.X, in.X)
		}
		if up, down := g.place(thigh(90, 0)), g.place(thigh(0, 0)); up.Y >= down.Y {
			t.Errorf("side %v: flexed at y %v is not above extended at %v", side, up.Y, down.Y)
		}
	}
}

func TestMapsOfTheSphereAreInverses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-100, 100).Draw(t, "x")
		y := rapid.Float64Range(-100, 100).Draw(t, "y")
		if got := onClock(offClock(x, y)); !near2(got, figure.Pt(x, y), 1e-6) {
			t.Errorf("onClock(offClock(%v, %v)) = %v", x, y, got)
		}
		u, v := x/150, y/150
		if gx, gy, depth := globeEye.see(globeEye.at(u, v)); math.Hypot(gx-u, gy-v) > 1e-12 || depth < 0 {
			t.Errorf("see(at(%v, %v)) = %v, %v, %v", u, v, gx, gy, depth)
		}
		p := hip.Posture{Flexion: unit.Angle(x) * deg, Adduction: unit.Angle(y*0.85) * deg, InternalRotation: 7 * deg}
		got := thighAt(kinematics.ShaftDirection(p), p.InternalRotation)
		if turn(got, p) > 1e-9 {
			t.Errorf("thighAt(ShaftDirection(%+v)) = %+v", p, got)
		}
	})
}

func TestTurnedNeckStaysRigidAndDoesNotRoll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyJoint().Draw(t, "subject")
		p := inCup(s.Designs[0].Joint, s.Posture, s.Hip.PosturePlane)
		u := offClock(rapid.Float64Range(-120, 120).Draw(t, "x"), rapid.Float64Range(-120, 120).Draw(t, "y"))
		q := turned(p, u)
		for name, v := range map[string]float64{
			"axis": r3.Dot(q.Axis, u) - 1, "superior": r3.Norm(q.Superior) - 1, "anterior": r3.Norm(q.Anterior) - 1,
			"square": r3.Dot(q.Superior, q.Axis), "hand": r3.Dot(r3.Cross(q.Superior, q.Anterior), q.Axis) - r3.Dot(r3.Cross(p.Superior, p.Anterior), p.Axis),
		} {
			if math.Abs(v) > 1e-9 {
				t.Errorf("%s is off by %v", name, v)
			}
		}
		k := r3.Cross(p.Axis, u) // the axis of the turn is the same seen from both
		if d := r3.Dot(q.Superior, k) - r3.Dot(p.Superior, k); math.Abs(d) > 1e-9 {
			t.Errorf("the neck rolled: %v", d)
		}
	})
}

func TestMarkerLandsWhereTheAxesSay(t *testing.T) {
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

func TestNativeRangesAreThoseOfTheQuestions(t *testing.T) {
	known := 0
	for _, q := range kinematics.Questions {
		if q.Given || !q.Native.Known() {
			continue
		}
		known++
		a, sign := q.Movement.Joint()
		r := nativeReach(a, q.Flexion)
		got := r.To
		if sign < 0 {
			got = -r.From
		}
		if got != q.Native.Range {
			t.Errorf("%s: range %v, want %v", q.Key, got.Degrees(), q.Native.Range.Degrees())
		}
	}
	if known < 8 {
		t.Errorf("only %d ranges are known", known)
	}
	if got := nativeRange(kinematics.Internal, 45*deg).Degrees(); math.Abs(got-(35.2+37.9)/2) > 1e-9 {
		t.Errorf("internal rotation at 45° flexion: %v, want the middle of 35.2 and 37.9", got)
	}
}

func TestGreyOutlineIsTheNativeRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		held := hip.Posture{
			Flexion:          unit.Angle(rapid.Float64Range(-40, 140).Draw(t, "flexion")) * deg,
			Adduction:        unit.Angle(rapid.Float64Range(-50, 50).Draw(t, "adduction")) * deg,
			InternalRotation: unit.Angle(rapid.Float64Range(-45, 45).Draw(t, "rotation")) * deg,
		}
		k := kinematics.SliceKind(rapid.IntRange(0, 2).Draw(t, "slice"))
		sl := kinematics.StandardSlice(k, held)
		x := rapid.Float64Range(sl.Across.From.Degrees(), sl.Across.To.Degrees()).Draw(t, "x")
		y := rapid.Float64Range(sl.Up.From.Degrees(), sl.Up.To.Degrees()).Draw(t, "y")
		p := held.With(sl.Across.Angle, unit.Angle(x)*deg).With(sl.Up.Angle, unit.Angle(y)*deg)
		want, nearEdge := true, false
		for _, a := range jointAngles {
			r, v := nativeReach(a, p.Flexion), p.Angle(a)
			want = want && r.holds(v)
			nearEdge = nearEdge || (v-r.From).Abs() < 1e-6 || (v-r.To).Abs() < 1e-6
		}
		if got := inside(x, y, nativeRing(sl)); got != want && !nearEdge {
			t.Errorf("slice %v at %v, %v: inside %v, want %v", k, x, y, got, want)
		}
	})
}

// inside reports whether a point lies in a ring, by the crossings of a ray.
func inside(x, y float64, ring [][2]float64) bool {
	in := false
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		if (p[1] > y) != (q[1] > y) && x < p[0]+(y-p[1])/(q[1]-p[1])*(q[0]-p[0]) {
			in = !in
		}
	}
	return in
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

func TestNeedleIsFoundWhereItIsDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyJoint().Draw(t, "subject")
		c := newRulerChart(s, white)
		for _, r := range c.rulers {
			v := s.Posture.Angle(r.angle)
			at := figure.Pt(r.x(v.Degrees()), r.box.Min.Y+1)
			angle, got, ok := RulerAt(s, white, at)
			if !ok || angle != r.angle || (got-v).Abs() > 1e-9 {
				t.Errorf("needle of %v at %v: found %v at %v (%v)", r.angle, v.Degrees(), angle, got.Degrees(), ok)
			}
		}
	})
}

func TestRulerEndsWhereTheMotionStops(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyJoint().Draw(t, "subject")
		c := newRulerChart(s, white)
		for _, r := range c.rulers {
			lower, upper := senses(r.angle)
			sp := r.spans()[0]
			for m, a := range map[kinematics.Movement]kinematics.Answer{lower: sp.lower, upper: sp.upper} {
				if !a.Reached {
					continue
				}
				start := hip.Posture{Flexion: r.flexion}
				l := s.Designs[0].Joint.Limit(m.Path(start, a.Question.End, s.Hip.PosturePlane))
				_, sign := m.Joint()
				if d := (sign*l.Angle - a.Reading).Abs(); d > 1e-6 {
					t.Errorf("movement %v at %v: ruler ends at %v, the motion stops at %v", m, r.flexion.Degrees(), a.Reading.Degrees(), (sign * l.Angle).Degrees())
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
