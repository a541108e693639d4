package kinematics_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	. "rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/sphere"
	"rimclear/kinematics/unit"
)

// caseOf is a case of one design.
func caseOf(d Design) Case {
	c := Default()
	c.Designs[0] = d
	return c
}

// stemmed is the usual stemmed hip, placed.
func stemmed() Design {
	d := bearing(32, 12, 180)
	d.Cup, d.Stem = cupAt(40, 15), stemAt(15, 135)
	return d
}

// lipped is the same with a lip behind and below.
func lipped() Design {
	d := stemmed()
	d.Rim.Lips[0] = implant.Lip{Height: degrees(12), Centre: degrees(-100), Plateau: degrees(80), Ramp: degrees(20)}
	return d
}

func survey(t testing.TB, c Case, list []motion.Requirement, g Grid, workers int) *Map {
	t.Helper()
	m := new(Map)
	if err := Survey(context.Background(), c, 0, list, g, workers, m); err != nil {
		t.Fatal(err)
	}
	return m
}

// twenty is twenty motions of the kind hips are asked to do: from neutral by
// turns of one joint angle and straight.
func twenty(r *rand.Rand) []motion.Requirement {
	var list []motion.Requirement
	for i := range 20 {
		p := randomPosture(r)
		path := motion.Through(hip.Standing, hip.Posture{Flexion: p.Flexion}, hip.Posture{Flexion: p.Flexion, Adduction: p.Adduction}, p)
		if i%2 == 1 {
			path = motion.Through(hip.Standing, p)
		}
		list = append(list, asks(fmt.Sprint(i), path))
	}
	return list
}

func TestMapAgreesWithTheMarginOfEveryCell(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 44))
	for _, tolerance := range []float64{1e-9, 2e-4} {
		for range 6 {
			c := caseOf(stemmed())
			c.Hip.Tilts = randomTilts(r)
			list := widmer()
			if tolerance > 1e-9 {
				list = twenty(r)
			}
			g := PlacementGrid(hip.Definition(r.IntN(3)), hip.Plane(r.IntN(5)))
			m := survey(t, c, list, g, 2)
			d := NewDemand(c.Hip, c.Designs[0].Stem, list)
			theta, _ := roundAperture.Theta()
			for i := range g.Across.Count {
				for k := range g.Up.Count {
					n := c.Hip.Tilts.APPFromPlane(g.Plane).Apply(hip.AxisBy(g.Definition, degrees(g.Across.At(i)), degrees(g.Up.At(k))))
					e := d.Farthest(n)
					got, by := m.At(i, k)
					about(t, "margin of a cell", got.Degrees(), (theta - e.Angle).Degrees(), tolerance)
					if own, _ := d.FarthestOf(by, n); (e.Angle - own.Angle).Degrees() > tolerance {
						t.Fatalf("cell %d,%d: motion %d binds, but %d is worse", i, k, by, e.Motion)
					}
				}
			}
		}
	}
}

func TestMapIsFreeExactlyWhereEveryLimitIs(t *testing.T) {
	c := caseOf(stemmed())
	m := survey(t, c, yoshimine(), PlacementGrid(hip.ByRadiograph, hip.APP), 2)
	free := 0
	for i := range m.Grid.Across.Count {
		for k := range m.Grid.Up.Count {
			d := stemmed()
			d.Cup = cupAt(m.Grid.Across.At(i), m.Grid.Up.At(k))
			j := Assemble(c.Hip, d, roundAperture)
			all := true
			for _, r := range yoshimine() {
				all = all && j.Limit(r.Paths[0]).Status == Free
			}
			margin, _ := m.At(i, k)
			if all != (margin > Touch) {
				t.Errorf("cup %v: every motion free %v, margin %.9f°", d.Cup, all, margin.Degrees())
			}
			if all {
				free++
			}
		}
	}
	if free == 0 || free == len(m.Margin) {
		t.Errorf("%d of %d cells are free: the test says little", free, len(m.Margin))
	}
}

func TestMapIsTheSameForOneWorkerAndForFour(t *testing.T) {
	c := caseOf(stemmed())
	list := twenty(rand.New(rand.NewPCG(11, 44)))
	for _, g := range []Grid{PlacementGrid(hip.ByOperation, hip.Supine), VersionGrid(hip.ByRadiograph, hip.APP)} {
		a, b := survey(t, c, list, g, 1), survey(t, c, list, g, 4)
		if !slices.Equal(a.Margin, b.Margin) || !slices.Equal(a.Motion, b.Motion) {
			t.Errorf("the map over %s and %s differs", g.Across.Key, g.Up.Key)
		}
	}
}

func TestVersionMapGivesWhatAStemOfThatVersionGives(t *testing.T) {
	c := caseOf(stemmed())
	g := VersionGrid(hip.ByRadiograph, hip.APP)
	m := survey(t, c, widmer(), g, 2)
	theta, _ := roundAperture.Theta()
	for i := 0; i < g.Across.Count; i += 7 {
		for k := 0; k < g.Up.Count; k += 7 {
			d := NewDemand(c.Hip, stemAt(g.Up.At(k), 135), widmer())
			got, _ := m.At(i, k)
			about(t, "margin", got.Degrees(), (theta - d.Farthest(axisAt(40, g.Across.At(i))).Angle).Degrees(), 1e-9)
		}
	}
}

func TestMapOverHeadAndNeckRisesByHalfTheOscillationAngle(t *testing.T) {
	c := caseOf(stemmed())
	g := Grid{Across: Scale{"neck_diameter_mm", 8, 40, 17}, Up: Scale{"head_diameter_mm", 22, 40, 10}}
	m := survey(t, c, widmer(), g, 2)
	e := NewDemand(c.Hip, c.Designs[0].Stem, widmer()).Farthest(axisAt(40, 15))
	for i := range g.Across.Count {
		for k := range g.Up.Count {
			got, by := m.At(i, k)
			if g.Across.At(i) >= g.Up.At(k) {
				if got != NoBearing || by != -1 {
					t.Errorf("a neck of %g mm under a head of %g mm has margin %v", g.Across.At(i), g.Up.At(k), got)
				}
				continue
			}
			d := bearing(g.Up.At(k), g.Across.At(i), 180)
			theta, _ := NewJoint(c.Hip, d).Aperture.Theta()
			about(t, "margin", got.Degrees(), (theta - e.Angle).Degrees(), 1e-9)
		}
	}
}

func TestMapOfALippedCupAgreesWithEveryPosture(t *testing.T) {
	c := caseOf(lipped())
	list := yoshimine()
	g := PlacementGrid(hip.ByRadiograph, hip.APP)
	g.Across.Count, g.Up.Count = 9, 9
	m := survey(t, c, list, g, 2)
	for i := range g.Across.Count {
		for k := range g.Up.Count {
			d := lipped()
			d.Cup = cupAt(g.Across.At(i), g.Up.At(k))
			j := NewJoint(c.Hip, d)
			least := degrees(180)
			for _, r := range list {
				for leg := range r.Paths[0].Legs() {
					for x := range 501 {
						least = min(least, j.Margin(r.Paths[0].At(motion.Place{Leg: leg, Fraction: float64(x) / 500})))
					}
				}
			}
			got, _ := m.At(i, k)
			about(t, "margin of a lipped cell", got.Degrees(), least.Degrees(), 0.02)
		}
	}
}

func TestACupRestatedStaysWhereItIs(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 44))
	for range 200 {
		h := Hip{Tilts: randomTilts(r), CupPlane: hip.Plane(r.IntN(5))}
		d := stemmed()
		d.Cup.Definition = hip.Definition(r.IntN(3))
		was := Assemble(h, d, roundAperture).CupAxis()
		to := hip.Plane(r.IntN(5))
		d.Cup = h.Restated(d.Cup, hip.Definition(r.IntN(3)), to)
		h.CupPlane = to
		if off := sphere.Between(was, Assemble(h, d, roundAperture).CupAxis()); off > 1e-12 {
			t.Fatalf("the axis moved by %.3g°", off.Degrees())
		}
	}
}

// BenchmarkMap fills 61×61 cells with 20 motions, on one goroutine.
func BenchmarkMap(b *testing.B) {
	list := twenty(rand.New(rand.NewPCG(13, 44)))
	for name, c := range map[string]Case{"round": caseOf(stemmed()), "lip": caseOf(lipped())} {
		b.Run(name, func(b *testing.B) {
			m := new(Map)
			for b.Loop() {
				// A stem that is dragged: nothing can be kept.
				c.Designs[0].Stem.Anteversion += 1e-3 * unit.Degree
				if err := Survey(context.Background(), c, 0, list, PlacementGrid(hip.ByRadiograph, hip.APP), 1, m); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
