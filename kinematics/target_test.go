package kinematics_test

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"gonum.org/v1/gonum/spatial/r3"

	. "rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/sphere"
	"rimclear/kinematics/unit"
)

func target(t testing.TB, s Search) Target {
	t.Helper()
	start := time.Now()
	a, err := FindTarget(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%.2f ms", float64(time.Since(start).Microseconds())/1e3)
	return a
}

// binds returns the keys of the motions that bind an aim, sorted.
func binds(a Aim, list []motion.Requirement) []string {
	var keys []string
	for _, e := range a.Binding {
		keys = append(keys, list[e.Motion].Key)
	}
	slices.Sort(keys)
	return keys
}

func TestWidmersSetDemands120Degrees(t *testing.T) {
	for _, c := range []struct {
		version, demanded, ri, ra float64
		by                        []string
	}{
		{15, 120.4, 45.4, 22.5, []string{"adduction", "extension", "flexion"}},
		{0, 121.0, 49.3, 32.4, []string{"adduction", "external_at_0", "flexion"}},
	} {
		d := bearing(32, 12, 180)
		d.Stem = stemAt(c.version, 135)
		a := target(t, Search{Design: d, Required: widmer()})
		about(t, "least oscillation angle", a.Demanded.Degrees(), c.demanded, 0.05)
		about(t, "best inclination", a.Best.Cup.Inclination.Degrees(), c.ri, 0.05)
		about(t, "best anteversion", a.Best.Cup.Anteversion.Degrees(), c.ra, 0.05)
		if got := binds(a.Best, widmer()); !slices.Equal(got, c.by) {
			t.Errorf("version %g: bound by %v, want %v", c.version, got, c.by)
		}
		if a.Gap.Degrees() > 2e-9 || !a.Serves() {
			t.Errorf("gap %.3g°, serves %v", a.Gap.Degrees(), a.Serves())
		}
	}
}

func TestInternalRotationOf80At90FlexionServesNoCup(t *testing.T) {
	list := widmer()
	list[1] = criterion(motion.InternalAt90, 80)
	d := bearing(32, 12, 180) // 136°
	d.Stem = stemAt(15, 135)
	a := target(t, Search{Design: d, Required: list})
	if a.Serves() || !a.Fits || a.Demanded <= a.Offered {
		t.Errorf("demanded %.2f°, offered %.2f°, serves %v; want no cup position to serve", a.Demanded.Degrees(), a.Offered.Degrees(), a.Serves())
	}
	if got := binds(a.Best, list); !slices.Contains(got, "internal_at_90") || len(got) < 2 {
		t.Errorf("bound by %v, want internal rotation at 90 among two or three", got)
	}
	t.Logf("demanded %.2f° at %v by %v", a.Demanded.Degrees(), a.Best.Cup, binds(a.Best, list))
}

func TestBoundingInclinationAt50CostsYoshiminesSet7Degrees(t *testing.T) {
	d := bearing(32, 12, 180)
	d.Stem = stemAt(15, 135)
	s := Search{Design: d, Required: yoshimine()}
	s.Bounds.Inclination = Range{0, degrees(50)}
	a := target(t, s)
	about(t, "least oscillation angle", a.Demanded.Degrees(), 114.3, 0.05)
	about(t, "best inclination", a.Best.Cup.Inclination.Degrees(), 70.8, 0.05)
	about(t, "best anteversion", a.Best.Cup.Anteversion.Degrees(), 6.8, 0.05)
	if got := binds(a.Best, yoshimine()); !slices.Equal(got, []string{"external_at_0", "internal_at_90"}) {
		t.Errorf("bound by %v", got)
	}
	// literature: 121.3 at anteversion 22.1 (derived by a grid); a coarser one
	// gave 121.4. The position found is its own proof that no more is needed.
	about(t, "least oscillation angle with inclination bounded", a.Constrained.Demanded.Degrees(), 121.3, 0.05)
	about(t, "bounded anteversion", a.Constrained.Cup.Anteversion.Degrees(), 22.1, 0.1)
	about(t, "bounded inclination", a.Constrained.Cup.Inclination.Degrees(), 50, 1e-9)
	about(t, "cost in oscillation", (2 * a.Cost()).Degrees(), 7, 0.05)
	e := NewDemand(Hip{}, d.Stem, yoshimine()).Farthest(a.Constrained.Axis)
	about(t, "demanded there, measured anew", 2*e.Angle.Degrees(), a.Constrained.Demanded.Degrees(), 1e-9)
}

func TestWidmersLineLiesInTheBandOfCupsThatServeAtEveryStemVersion(t *testing.T) {
	const theta = 68 * unit.Degree // oscillation 136
	for _, row := range table(t, "widmer.csv") {
		stem := stemAt(row["version"], 135)
		d := NewDemand(Hip{}, stem, widmer())
		spare := func(ra float64) float64 { return float64(theta - d.Farthest(axisAt(42.5, ra)).Angle) }
		if m := spare(row["line"]); m <= 0 {
			t.Errorf("stem version %g: margin on the published line %.2f°", row["version"], m)
		}
		about(t, "band from", edgeOf(spare, -30, row["best"]), row["from"], 0.1)
		about(t, "band to", edgeOf(spare, 70, row["best"]), row["to"], 0.1)
		// The cup at which the limit that exceeds its threshold least does so most.
		best, _ := narrow(row["from"], row["to"], func(ra float64) float64 { return -leastReserve(ra, stem) })
		about(t, "best anteversion", best, row["best"], 0.06)
	}
}

// leastReserve is the least by which a limit exceeds what widmer asks, in
// degrees of the joint angle.
func leastReserve(ra float64, stem hip.Stem) float64 {
	d := bearing(32, 12, 180)
	d.Cup, d.Stem = cupAt(42.5, ra), stem
	j := NewJoint(Hip{}, d)
	least := 360.0
	for m, want := range map[Movement]float64{
		FlexionMovement: 130, Internal: 80, Extension: 40, External: 40, Abduction: 50, AdductionMovement: 50,
	} {
		path := m.Path(hip.Neutral, degrees(180), hip.APP)
		least = min(least, m.Reading(path, j.Limit(path).At).Degrees()-want)
	}
	return least
}

// edgeOf returns where f changes sign between a value that is outside and one
// that is inside.
func edgeOf(f func(float64) float64, out, in float64) float64 {
	for range 60 {
		if m := (out + in) / 2; f(m) > 0 {
			in = m
		} else {
			out = m
		}
	}
	return in
}

func TestThirteenDegreesOfTiltChangeFunctionalAnteversionByAboutTen(t *testing.T) {
	// Langston et al., Bone Joint J 2018;100-B:845-852: 13° of tilt, 10° of
	// functional anteversion; the exact model gives 9.75 at 40/15.
	d := bearing(32, 12, 180)
	d.Cup = cupAt(40, 15)
	j := NewJoint(Hip{Tilts: hip.Tilts{Standing: degrees(-13)}}, d)
	change := j.Stability(d, Loads[0], CobaltChrome).Functional.Anteversion.Degrees() - 15
	about(t, "change of functional anteversion", change, 10, 0.5)
	about(t, "change of functional anteversion", change, 9.75, 0.005)
}

func TestMotionsThatFitNoHemisphereDemandMoreThan180Degrees(t *testing.T) {
	// A hip that is asked to swing right round cannot be served.
	list := []motion.Requirement{
		criterion(motion.Flexion, 175), criterion(motion.Extension, 120),
		criterion(motion.Abduction, 89), criterion(motion.Adduction, 89), criterion(motion.InternalAt90, 170),
	}
	d := bearing(60, 5, 150)
	d.Stem = stemAt(15, 135)
	a := target(t, Search{Design: d, Required: list})
	if a.Fits || a.Serves() || len(a.Best.Binding) < 2 {
		t.Fatalf("fits %v, serves %v, witness of %d", a.Fits, a.Serves(), len(a.Best.Binding))
	}
	// The witness: no axis has all of its directions within 90°.
	r := rand.New(rand.NewPCG(8, 44))
	for range 100000 {
		n := r3.Unit(r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()})
		inside := true
		for _, e := range a.Best.Binding {
			inside = inside && r3.Dot(n, e.Direction) > 1e-9
		}
		if inside {
			t.Fatalf("axis %v has every direction of the witness in its hemisphere", n)
		}
	}
}

func TestBestWithinBoundsIsNoWorseThanAnyGridPosition(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 44))
	for range 60 {
		h := Hip{Tilts: randomTilts(r), CupPlane: hip.Plane(r.IntN(5))}
		d := bearing(36, 12, 180)
		d.Stem = randomStem(r)
		list := randomMotions(r)
		b := Bounds{
			Definition: hip.Definition(r.IntN(3)), Plane: hip.Plane(r.IntN(5)), Load: Loads[r.IntN(3)],
			Inclination: Range{degrees(30), degrees(30 + 20*r.Float64())}, Anteversion: Range{degrees(5), degrees(5 + 20*r.Float64())},
		}
		if r.IntN(2) == 0 {
			b.LeastJump = 8 + 4*r.Float64()
		}
		a := target(t, Search{Hip: h, Design: d, Required: list, Bounds: b})
		if !a.Fits {
			continue
		}
		ask := NewDemand(h, d.Stem, list)
		best := -10.0
		for i := b.Inclination.Least; i <= b.Inclination.Most; i += degrees(0.5) {
			for v := b.Anteversion.Least; v <= b.Anteversion.Most; v += degrees(0.5) {
				n := h.Tilts.APPFromPlane(b.Plane).Apply(hip.AxisBy(b.Definition, i, v))
				psi := sphere.Between(b.Load.InAPP(h.Tilts), r3.Scale(-1, n))
				if Jump(18, degrees(90)-psi) >= b.LeastJump {
					best = max(best, float64(ask.Farthest(n).Angle)*-1)
				}
			}
		}
		if !a.Reachable {
			if best > -10 {
				t.Errorf("no position is said to keep the bounds, but one of the grid does")
			}
			continue
		}
		got := -float64(a.Constrained.Demanded) / 2
		if got < best-1e-9 {
			t.Errorf("best within bounds demands %.6f°, a grid position %.6f°", -2*got*180/math.Pi, -2*best*180/math.Pi)
		}
		i, v := a.Constrained.Cup.Inclination, a.Constrained.Cup.Anteversion
		if i < b.Inclination.Least-1e-9 || i > b.Inclination.Most+1e-9 || v < b.Anteversion.Least-1e-9 || v > b.Anteversion.Most+1e-9 {
			t.Errorf("best within bounds is at %.4f/%.4f", i.Degrees(), v.Degrees())
		}
	}
}

func TestBestCupOfALippedLinerIsBetterThanItsNeighboursAndAnyOfAGrid(t *testing.T) {
	d := lipped()
	s := Search{Hip: Hip{}, Design: d, Required: yoshimine()}
	s.Bounds.Inclination, s.Bounds.Anteversion = Range{degrees(30), degrees(60)}, Range{0, degrees(40)}
	a := target(t, s)
	c := caseOf(d)
	c.Hip = Hip{}
	g := PlacementGrid(hip.ByRadiograph, hip.APP)
	g.Across, g.Up = Scale{"cup_inclination_deg", 30, 60, 61}, Scale{"cup_anteversion_deg", 0, 40, 81}
	m := survey(t, c, yoshimine(), g, 2)
	if best := slices.Max(m.Margin); a.Constrained.Margin < best-degrees(0.03) {
		t.Errorf("best within bounds has margin %.4f°, a grid position %.4f°", a.Constrained.Margin.Degrees(), best.Degrees())
	}
	if a.Best.Margin < a.Constrained.Margin-degrees(0.01) {
		t.Errorf("bounds buy margin: %.4f° free, %.4f° bounded", a.Best.Margin.Degrees(), a.Constrained.Margin.Degrees())
	}
	// The bare liner is free wherever the lipped one is.
	bare := d
	bare.Rim.Lips[0] = implant.Lip{}
	s.Design = bare
	if b := target(t, s); b.Constrained.Margin < a.Constrained.Margin-1e-9 {
		t.Errorf("best margin without a lip %.4f°, with one %.4f°", b.Constrained.Margin.Degrees(), a.Constrained.Margin.Degrees())
	}
}

func TestSmallestHeadAndWidestNeckJustServe(t *testing.T) {
	d := stemmed()
	s := Search{Design: d, Required: widmer()}
	a := target(t, s)
	head, neck := SmallestHead(s, a.Best.Axis, 0), WidestNeck(s, a.Best.Axis, 0)
	// theta = 90° - asin(d/D) = R: D = d / cos R, d = D cos R.
	cos := (a.Demanded / 2).Cos()
	about(t, "smallest head", head.Value, 12/cos, 1e-6)
	about(t, "widest neck", neck.Value, 32*cos, 1e-6)
	for _, change := range []float64{-0.01, 0.01} {
		b := s
		b.Design.Rim.HeadDiameter = head.Value + change
		if got := target(t, b).Serves(); got != (change > 0) {
			t.Errorf("a head of %.3f mm serves: %v", b.Design.Rim.HeadDiameter, got)
		}
	}
	// At the cup as it is placed a larger head is needed.
	if placed := SmallestHead(s, axisAt(40, 15), 0); !placed.Found || placed.Value <= head.Value {
		t.Errorf("smallest head as placed %.2f mm, at the best position %.2f mm", placed.Value, head.Value)
	}
	list := widmer()
	list[0] = criterion(motion.Flexion, 170)
	s.Required = list
	if r := SmallestHead(s, a.Best.Axis, 0); r.Found && r.Value < 40 {
		t.Errorf("170° of flexion served by a head of %.1f mm", r.Value)
	}
}

func TestNothingAskedIsNoTarget(t *testing.T) {
	a := target(t, Search{Design: stemmed()})
	if a.Asked || a.Serves() {
		t.Errorf("target of no motions: %+v", a)
	}
	open := widmer()
	for i := range open {
		open[i].Open = true
	}
	if a := target(t, Search{Design: stemmed(), Required: open}); a.Asked {
		t.Errorf("motions that are only asked how far they go are no demand")
	}
}
