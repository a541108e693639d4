package main

import (
	"bytes"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// edges returns the number of edges not passed once in each direction.
func edges(s solid) int {
	seen := map[[2]int32]int{}
	for _, c := range s.corners {
		for k := range c {
			a, b := c[k], c[(k+1)%3]
			seen[[2]int32{a, b}]++
			seen[[2]int32{b, a}]--
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

func volume(s solid) float64 {
	v := 0.0
	for _, c := range s.corners {
		v += r3.Dot(s.points[c[0]], r3.Cross(s.points[c[1]], s.points[c[2]])) / 6
	}
	return v
}

func TestBallKeepsItsVolumeThroughExtractionAndThinning(t *testing.T) {
	want := 4.0 / 3 * math.Pi * 1000
	f := ball(at(1, 2, 3), 10)
	s := extract(f, at(-12, -12, -12), at(14, 15, 16), 1)
	for _, triangles := range []int{len(s.corners), 800} {
		m := thin(s, triangles)
		settle(m, f)
		if n := edges(m); n != 0 {
			t.Errorf("%d triangles: %d open edges, want 0", triangles, n)
		}
		if v := volume(m); math.Abs(v-want) > 0.03*want {
			t.Errorf("%d triangles: volume %.0f, want %.0f within 3 %%", triangles, v, want)
		}
		if len(m.corners) > triangles {
			t.Errorf("thin left %d triangles, want at most %d", len(m.corners), triangles)
		}
	}
}

func TestCoarseBonesAreClosed(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and nothing in it runs at once")
	}
	for _, b := range bones()[:3] {
		s := extract(b.field, b.lo, b.hi, 5)
		if n := edges(s); n != 0 {
			t.Errorf("%s: %d open edges, want 0", b.name, n)
		}
		if v := volume(s); v < 1e5 {
			t.Errorf("%s: volume %.0f mm³, want above 100,000", b.name, v)
		}
	}
}

func TestMakingABoneTwiceGivesTheSameBytes(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and nothing in it runs at once")
	}
	b := bones()[0]
	b.triangles = 300
	first := b.make(7).encode()
	if again := b.make(7).encode(); !bytes.Equal(first, again) {
		t.Error("two runs differ")
	}
}

// The landmarks are where the frame says: the two spines of the anterior plane
// at the same depth, the shaft below and lateral, the socket round the origin.
func TestLandmarksLieInTheFrame(t *testing.T) {
	pelvis, thigh := hemipelvis(), femur(8)
	for name, p := range map[string]struct {
		f      field
		p      r3.Vec
		inside bool
	}{
		"hip centre is in the open socket":     {pelvis, at(0, 0, 0), false},
		"roof above the head":                  {pelvis, at(0, 31, -4), true},
		"superior spine":                       {pelvis, at(46, 75, 33), true},
		"nothing before the anterior plane":    {pelvis, at(58, 75, 33), false},
		"pubic tubercle":                       {pelvis, at(47, -8, -59), true},
		"obturator foramen is open":            {pelvis, at(8, -45, -50), false},
		"tuberosity":                           {pelvis, at(-34, -72, -28), true},
		"midline is free":                      {pelvis, at(40, -25, -86), false},
		"shaft":                                {thigh, r3.Add(shaftAt, at(8, -200, 0)), true},
		"greater trochanter":                   {thigh, at(-15, -28, 60), true},
		"lesser trochanter, behind and medial": {thigh, at(-30, -65, 25.5), true},
		"nothing in its place in front":        {thigh, at(16, -65, 25.5), false},
		"medial condyle":                       {thigh, at(-6, -426, 18.5), true},
		"lateral condyle":                      {thigh, at(-6, -426, 63.5), true},
		"notch between the condyles, behind":   {thigh, at(-36, -430, 41), false},
		"neck":                                 {thigh, r3.Scale(25, neckAxis), true},
		"head is left out":                     {thigh, r3.Scale(-10, neckAxis), false},
	} {
		if got := p.f(p.p) < 0; got != p.inside {
			t.Errorf("%s: %v inside = %v, want %v", name, p.p, got, p.inside)
		}
	}
}
