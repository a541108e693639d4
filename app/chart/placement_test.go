package chart

import (
	"bytes"
	"image"
	"path/filepath"
	"strings"
	"testing"

	"rimclear/app/figure"
	"rimclear/kinematics"
)

// placements are invented shares of three designs under three motions.
func placements() Placements {
	c := sample(0)
	p := Placements{Motions: []string{"Tying a shoe", "Low chair", "Standing and turning"}}
	for i := range 3 {
		p.Designs = append(p.Designs, kinematics.Design{Name: c.Designs[i].Name})
	}
	p.Shares = []kinematics.Share{
		{Share: 0.62, StandardError: 0.004, Placements: 8192, First: []float64{0.20, 0.15, 0.03}},
		{Share: 0, StandardError: 0.002, Placements: 512, First: []float64{0.9, 0.1, 0}},
		{Share: 1, StandardError: 0.0001, Placements: 8192, First: []float64{0, 0, 0}},
	}
	return p
}

func TestGoldenPlacementShare(t *testing.T) {
	look := Look{Size: figure.Pt(380, 300), Palette: figure.Light()}
	compareGolden(t, filepath.Join("..", "..", "testdata", "chart", "placement_share.svg"), bareSVG(t, PlacementShare(placements(), look)))
}

// The filled part of a bar is as long as the share, wherever the bar lies.
func TestABarIsFilledToItsShare(t *testing.T) {
	p := placements()
	c := &placementChart{Placements: p, look: Look{Size: figure.Pt(400, 300), Palette: figure.Light()}.complete()}
	c.layout()
	img := PlacementShare(p, c.look).Image(2)
	free, box := tints(c.look.Palette)[2], c.frame.Box
	for i, s := range p.Shares {
		n, all := 0, 0
		y := box.Min.Y + float64(i)*c.pitch + (0.3+0.95+0.45+0.25)*c.look.Text // in the bar, above its whisker
		for x := int(2*box.Min.X) + 1; x < int(2*box.Max.X); x++ {
			all++
			if q := img.RGBAAt(x, int(2*y)); q.R == free.R && q.G == free.G && q.B == free.B {
				n++
			}
		}
		if got := float64(n) / float64(all); got < s.Share-0.02 || got > s.Share+0.02 {
			t.Errorf("design %d: %.3f of the bar is filled, want %.3f", i, got, s.Share)
		}
	}
}

func TestAShareIsSaidWithItsErrorAndWhatFailsFirst(t *testing.T) {
	got := string(bareSVG(t, PlacementShare(placements(), Look{Size: figure.Pt(460, 320), Palette: figure.Light()})))
	for _, want := range []string{"62.0 % ± 0.4 %", "Tying a shoe 20 %", "Low chair 15 %", "0.0 %", "100.0 %"} {
		if !strings.Contains(strings.ReplaceAll(got, "\u00a0", " "), want) {
			t.Errorf("%q is not in the chart", want)
		}
	}
	if i, k := strings.Index(got, "Tying a shoe 20"), strings.Index(got, "Low chair 15"); i > k {
		t.Error("what fails most often does not stand first")
	}
}

func TestPlacementsAreDrawnAlikeEachTime(t *testing.T) {
	look := Look{Size: figure.Pt(300, 200), Palette: figure.Dark()}
	if !bytes.Equal(bareSVG(t, PlacementShare(placements(), look)), bareSVG(t, PlacementShare(placements(), look))) {
		t.Error("drawn twice it differs")
	}
}

// BenchmarkPlacementShare draws the shares of three designs at 500×500.
func BenchmarkPlacementShare(b *testing.B) {
	p, img := placements(), image.NewRGBA(image.Rect(0, 0, 500, 500))
	for b.Loop() {
		PlacementShare(p, Look{Size: figure.Pt(500, 500), Palette: figure.Light()}).DrawStatic(img, 1)
	}
}
