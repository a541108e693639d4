package aperture

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

func TestAMarginForSteppingNeverPromisesTooMuch(t *testing.T) {
	for k, features := range designs {
		r := rand.New(rand.NewPCG(31, uint64(k)))
		for range 12 {
			a := randomParts(r, strings.Fields(features)...).build()
			for range 25 {
				pose := poseOf(r.Float64()*2.2, r.Float64()*2*math.Pi, r.Float64()*2*math.Pi)
				clear, exact := a.Clear(pose), a.Nearest(pose).Margin
				if clear > exact+1e-12 {
					t.Fatalf("[%s] Clear = %.9f°, but the margin is %.9f°", features, clear.Degrees(), exact.Degrees())
				}
				if clear <= 0 && exact > 0 {
					t.Fatalf("[%s] Clear = %.9f° says contact, the margin is %.9f°", features, clear.Degrees(), exact.Degrees())
				}
			}
		}
	}
}

func TestAGlanceNeverPromisesTooMuch(t *testing.T) {
	for k, features := range designs {
		r := rand.New(rand.NewPCG(33, uint64(k)))
		short := 0.0
		for range 12 {
			a := randomParts(r, strings.Fields(features)...).build()
			for range 100 {
				pose := poseOf(r.Float64()*math.Pi, r.Float64()*2*math.Pi, r.Float64()*2*math.Pi)
				below, looked := a.Below(pose), a.Margin(pose)
				exact := min(looked, a.Nearest(pose).Margin)
				if below > exact+1e-12 {
					t.Fatalf("[%s] Below = %.9f°, but the margin is %.9f°", features, below.Degrees(), exact.Degrees())
				}
				if exact > 0 {
					short = math.Max(short, (exact - below).Degrees())
				}
			}
		}
		t.Logf("[%s] up to %.2f° short", features, short)
		known := features == "lip" || features == "step" || features == "notch" || features == "oval"
		if most := 4.0; known && short > most {
			t.Errorf("[%s] Below is %.2f° below the margin, want %v° at most", features, short, most)
		}
	}
}

func TestACellLiesWithinItsCap(t *testing.T) {
	r := rand.New(rand.NewPCG(34, 35))
	worst := 0.0
	for range 200000 {
		u := poseOf(math.Acos(2*r.Float64()-1), r.Float64()*2*math.Pi, 0).Axis
		middle, radius := fieldCap(fieldCell(u))
		worst = math.Max(worst, radius.Degrees())
		if off := between(middle, u); off > radius+1e-12 {
			t.Fatalf("%v is %.4f° from the middle of its cell, whose radius is %.4f°", u, off.Degrees(), radius.Degrees())
		}
	}
	t.Logf("cells reach up to %.2f°", worst)
}

// The look-up may overstate a margin by what its words say: 0.005°, and 0.3°
// where a skirt ends on a lipped face that is not radial. It may never hide that there is contact by more than that.
func TestTheLookUpIsNearTheExactMargin(t *testing.T) {
	for k, features := range designs {
		r := rand.New(rand.NewPCG(37, uint64(k)))
		worst := 0.0
		for range 12 {
			a := randomParts(r, strings.Fields(features)...).build()
			for range 40 {
				pose := poseOf(r.Float64()*1.4, r.Float64()*2*math.Pi, r.Float64()*2*math.Pi)
				if exact := a.Nearest(pose).Margin; exact > 0 {
					worst = math.Max(worst, (a.Margin(pose) - exact).Abs().Degrees())
				}
			}
		}
		t.Logf("[%s] worst difference %.2g°", features, worst)
		most := 0.005
		if features == "lip skirt inset" {
			most = 0.3 // the skirt's end may fall between two samples
		}
		if worst > most {
			t.Errorf("[%s] the look-up is off by %.4f°, want %v° at most", features, worst, most)
		}
	}
}

func TestTheMarginNeverFallsFasterThanItsRate(t *testing.T) {
	for k, features := range designs {
		r := rand.New(rand.NewPCG(41, uint64(k)))
		worst := 0.0
		for range 12 {
			a := randomParts(r, strings.Fields(features)...).build()
			for range 40 {
				polar, azimuth, roll := r.Float64()*1.5, r.Float64()*2*math.Pi, r.Float64()*2*math.Pi
				from := poseOf(polar, azimuth, roll)
				before := a.Nearest(from).Margin
				if before <= 0 {
					continue
				}
				// Turn by a small angle about any axis.
				to, turned := turn(r, from, math.Pow(10, -4*r.Float64())*0.3)
				after := a.Nearest(to).Margin
				rate := float64(before-after) / turned
				worst = math.Max(worst, rate/a.Rate())
				if rate > a.Rate()+1e-9 {
					t.Fatalf("[%s] turning by %.3g° the margin falls from %.6f° to %.6f°: %.4f per degree, more than the rate %.4f",
						features, turned*180/math.Pi, before.Degrees(), after.Degrees(), rate, a.Rate())
				}
			}
		}
		t.Logf("[%s] fastest fall %.3f of the rate", features, worst)
	}
}
