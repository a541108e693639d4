package kinematics_test

import (
	"math"
	"math/rand/v2"
	"testing"

	. "rimclear/kinematics"
	"rimclear/kinematics/hip"
)

func zone(t testing.TB, key string) Zone {
	t.Helper()
	for _, z := range Zones {
		if z.Key == key {
			return z
		}
	}
	t.Fatalf("no zone %q", key)
	return Zone{}
}

func TestLewinneksZoneIsABoxInItsOwnAngles(t *testing.T) {
	z := zone(t, "lewinnek")
	for _, s := range z.Outline(hip.Tilts{}, degrees(15), hip.ByRadiograph, hip.APP, Range{}) {
		i, a := s.Across.Degrees(), s.Up.Degrees()
		if math.Abs(math.Abs(i-40)-10) > 1e-9 && math.Abs(math.Abs(a-15)-10) > 1e-9 {
			t.Errorf("outline point %.4f/%.4f is not on the edge of 40 ± 10 / 15 ± 10", i, a)
		}
	}
}

func TestLewinneksCornersInOperativeAnglesAreMurrays(t *testing.T) {
	// murray.csv: 30/5 → 29.874/5.769, 50/5 → 49.741/7.751, 50/25 →
	// 43.969/35.959, 30/25 → 26.946/28.300.
	want := [][2]float64{{29.874, 5.769}, {49.741, 7.751}, {43.969, 35.959}, {26.946, 28.300}}
	outline := zone(t, "lewinnek").Outline(hip.Tilts{}, 0, hip.ByOperation, hip.APP, Range{})
	for k, w := range want {
		s := outline[k*len(outline)/4]
		about(t, "operative inclination", s.Across.Degrees(), w[0], 0.001)
		about(t, "operative anteversion", s.Up.Degrees(), w[1], 0.001)
	}
}

func TestEveryOutlineIsTheEdgeOfWhatTheZoneHolds(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 44))
	for _, z := range Zones {
		if z.Kind == LineZone {
			continue
		}
		h := Hip{Tilts: randomTilts(r), CupPlane: hip.Plane(r.IntN(5))}
		d, stem := hip.Definition(r.IntN(3)), degrees(30*r.Float64())
		outline := z.Outline(h.Tilts, stem, d, h.CupPlane, Range{degrees(30), degrees(50)})
		var mi, ma float64
		for _, s := range outline {
			mi, ma = mi+s.Across.Degrees()/float64(len(outline)), ma+s.Up.Degrees()/float64(len(outline))
		}
		at := func(s Spot, f float64) Cup {
			return Cup{Definition: d, Inclination: degrees(mi + f*(s.Across.Degrees()-mi)), Anteversion: degrees(ma + f*(s.Up.Degrees()-ma))}
		}
		for _, s := range outline {
			if !z.Holds(h, at(s, 0.99), stem) {
				t.Errorf("%s does not hold a cup just inside its outline", z.Key)
				break
			}
			if z.Inclination.Present() && z.Holds(h, at(s, 1.01), stem) {
				t.Errorf("%s holds a cup just outside its outline", z.Key)
				break
			}
		}
	}
}

func TestWidmersLineInAMapOfVersionsHasItsSlope(t *testing.T) {
	z := zone(t, "widmer_line")
	line, ok := z.VersionOutline(hip.Tilts{}, hip.ByRadiograph, hip.APP, degrees(42.5), Range{0, degrees(30)})
	if !ok {
		t.Fatal("not held at inclination 42.5")
	}
	for _, s := range line {
		about(t, "RA + 0.7 AT", s.Across.Degrees()+0.7*s.Up.Degrees(), 37.3, 1e-6)
	}
	if _, ok := z.VersionOutline(hip.Tilts{}, hip.ByRadiograph, hip.APP, degrees(60), Range{0, degrees(30)}); ok {
		t.Error("held at inclination 60, outside 40-45")
	}
}

func TestEveryZoneSaysWhatItRestsOn(t *testing.T) {
	for _, z := range Zones {
		if z.Source == "" || z.Key == "" {
			t.Errorf("%+v has no key or source", z)
		}
		if !z.Stated.Doubtful() {
			t.Errorf("%s: no text was seen that states definition and plane; it must say so", z.Key)
		}
	}
}

func TestPosteriorTiltLiftsAZoneOfThePelvisInStandingAngles(t *testing.T) {
	z := zone(t, "lewinnek")
	upright := z.Outline(hip.Tilts{}, 0, hip.ByOperation, hip.Standing, Range{})
	tilted := z.Outline(hip.Tilts{Standing: degrees(-10)}, 0, hip.ByOperation, hip.Standing, Range{})
	for i := range upright {
		about(t, "operative inclination", tilted[i].Across.Degrees(), upright[i].Across.Degrees(), 1e-9)
		about(t, "operative anteversion", tilted[i].Up.Degrees(), upright[i].Up.Degrees()+10, 1e-9)
	}
}
