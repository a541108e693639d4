package scene

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// open returns the number of edges that are not passed exactly once in each
// direction, after points at the same place are made one.
func open(m *Mesh) int {
	type place [3]float32
	type edge [2]place
	seen := map[edge]int{}
	for _, c := range m.corners {
		for k := range c {
			a, b := place(m.points[c[k]]), place(m.points[c[(k+1)%3]])
			seen[edge{a, b}]++
			seen[edge{b, a}]--
		}
	}
	n := 0
	for _, v := range seen {
		if v != 0 {
			n++
		}
	}
	return n
}

// volume returns the volume a closed mesh holds, negative if inside out.
func volume(m *Mesh) float64 {
	v := 0.0
	for _, c := range m.corners {
		a, b, d := m.Point(int(c[0])), m.Point(int(c[1])), m.Point(int(c[2]))
		v += a.X*(b.Y*d.Z-b.Z*d.Y) + a.Y*(b.Z*d.X-b.X*d.Z) + a.Z*(b.X*d.Y-b.Y*d.X)
	}
	return v / 6
}

func parts() map[string]*Mesh {
	liner, shell := Cup{Bearing: 18, Liner: 23, Shell: 26, Rim: Flat(math.Pi)}.Meshes()
	_, resurfaced := Cup{Bearing: 25, Liner: 25, Shell: 29, Rim: Flat(160 * math.Pi / 180)}.Meshes()
	_, opened := Cup{Bearing: 18, Liner: 18, Shell: 26, Rim: Flat(math.Pi), Gap: 1.5, GapAt: 1}.Meshes()
	lip := func(clock, _ float64) float64 {
		return math.Pi/2 - 0.2*math.Exp(-8*math.Pow(math.Remainder(clock-2, 2*math.Pi), 2))
	}
	lipped, _ := Cup{Bearing: 18, Liner: 24, Shell: 27, Rim: lip, ShellRim: Flat(math.Pi)}.Meshes()
	oval := func(d, azimuth float64) float64 { return (6 + d/20) * (1 + 0.15*math.Cos(2*azimuth)) }
	ring := []r3.Vec{{X: 10}, {X: 7, Y: 1, Z: 7}, {Z: 10}, {X: -10}, {Z: -10}}
	return map[string]*Mesh{
		"opened shell": opened, "lipped liner": lipped,
		"oval neck": Neck(oval, 10, 40), "skirted neck": Neck(Taper(10, 6, 36, 7), 10, 36, 20),
		"wedge":  Mark{Rim: lip, Clock: 0.05, Inner: 18, Outer: 27}.Mesh(),
		"thread": Thread(0.5, false, ring[0], ring[1], ring[2]), "closed thread": Thread(0.5, true, ring...),
		"liner": liner, "shell": shell, "resurfacing cup": resurfaced,
		"head": Head(18),
		"neck": Neck(Taper(10, 6, 36, 7), 10, 36),
		"stem": UsualStem(neckAxis(130, 15)).Mesh(),
	}
}

func TestPartsAreWatertightAndOutsideOut(t *testing.T) {
	for name, m := range parts() {
		if n := open(m); n != 0 {
			t.Errorf("%s: %d open edges, want 0", name, n)
		}
		if v := volume(m); v <= 0 {
			t.Errorf("%s: volume %.1f mm³, want positive", name, v)
		}
	}
}

func TestHeadHasTheVolumeOfItsBall(t *testing.T) {
	want := 4.0 / 3 * math.Pi * 18 * 18 * 18
	if got := volume(Head(18)); math.Abs(got-want) > 0.01*want {
		t.Errorf("volume of Head(18) = %.0f mm³, want %.0f within 1 %%", got, want)
	}
}

func TestNormalsPointOutOfTheirTriangles(t *testing.T) {
	for name, m := range parts() {
		for _, c := range m.corners {
			a, b, d := m.Point(int(c[0])), m.Point(int(c[1])), m.Point(int(c[2]))
			face := r3.Cross(r3.Sub(b, a), r3.Sub(d, a))
			for _, k := range c {
				if n := m.Normal(int(k)); r3.Dot(n, face) <= 0 {
					t.Fatalf("%s: normal %v against its face", name, n)
				}
			}
		}
	}
}
