package aperture

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// designs are the combinations of features whose margins are compared with
// the sampled solids.
var designs = []string{
	"", "taper", "skirt", "inset", "edge", "taper skirt inset",
	"lip", "step", "notch", "oval", "lip oval", "step oval", "notch oval", "lip skirt", "lip taper",
	"lip inset", "step inset", "edge lip", "lip skirt inset", "oval inset", "taper lip inset", "lip oval inset", "lip oval skirt edge",
}

// eachPose calls f with random designs of every kind and random poses, and the
// least gap between the sampled solids.
func eachPose(t *testing.T, count int, f func(p parts, a *Aperture, pose Pose, want float64)) {
	for k, features := range designs {
		r := rand.New(rand.NewPCG(7, uint64(k)))
		t.Run(strings.ReplaceAll("plain "+features, " ", "_"), func(t *testing.T) {
			for range count {
				p := randomParts(r, strings.Fields(features)...)
				a := p.build()
				for range 3 {
					pose := poseOf(r.Float64()*1.4, r.Float64()*2*math.Pi, r.Float64()*2*math.Pi)
					f(p, a, pose, p.margin(pose))
				}
			}
		})
	}
}

func TestNearestIsTheLeastGapBetweenTheSampledSolids(t *testing.T) {
	worst := 0.0
	eachPose(t, 8, func(p parts, a *Aperture, pose Pose, want float64) {
		got := a.Nearest(pose).Margin.Degrees()
		if want <= 0 {
			if got > 1e-6 {
				t.Errorf("%+v, pose %v: margin %.7f°, but the solids overlap by %.7f°", p, pose, got, -want)
			}
			return
		}
		worst = math.Max(worst, math.Abs(got-want))
		if math.Abs(got-want) > 1e-5 {
			t.Errorf("%+v, pose %v: margin %.7f°, want %.7f°", p, pose, got, want)
		}
	})
	t.Logf("worst difference %.2g°", worst)
}
