package aperture

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

func TestAGlanceSaysWhatTheExactSearchSays(t *testing.T) {
	undecided, asked := 0, 0
	for k, features := range designs {
		r := rand.New(rand.NewPCG(21, uint64(k)))
		for range 12 {
			p := randomParts(r, strings.Fields(features)...)
			a := p.build()
			for range 150 {
				pose := poseOf(r.Float64()*2.2, r.Float64()*2*math.Pi, r.Float64()*2*math.Pi)
				want := a.Nearest(pose).Margin
				if math.Abs(float64(want)) < 1e-12 {
					continue
				}
				asked++
				if !a.round {
					if _, decided := a.glance().look(a.pair.seen(pose)); !decided {
						undecided++
					}
				}
				if got := a.Free(pose); got != (want > touch) {
					t.Fatalf("plain %s, %+v, pose %v: Free = %v, but the margin is %.9f°", features, p, pose, got, want.Degrees())
				}
			}
		}
	}
	t.Logf("left to the exact search: %d of %d", undecided, asked)
}
