package aperture

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
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

// The look-up may overstate a margin by what the aperture says, and hide contact
// by no more.
func TestTheLookUpIsNearTheExactMargin(t *testing.T) {
	for k, features := range designs {
		r := rand.New(rand.NewPCG(37, uint64(k)))
		worst, most := 0.0, 0.0
		for range 12 {
			a := randomParts(r, strings.Fields(features)...).build()
			off := overstatement(r, a, 40)
			worst, most = math.Max(worst, off), math.Max(most, a.Overstated().Degrees())
			if off > a.Overstated().Degrees() {
				t.Errorf("[%s] the look-up is off by %.4f°, want %.4f° at most", features, off, a.Overstated().Degrees())
			}
		}
		t.Logf("[%s] worst difference %.2g°, bound up to %.2g°", features, worst, most)
	}
}

// overstatement is by how much the look-up exceeds the exact margin at most, in
// degrees, of some poses that are free.
func overstatement(r *rand.Rand, a *Aperture, poses int) (worst float64) {
	for range poses {
		pose := poseOf(r.Float64()*1.4, r.Float64()*2*math.Pi, r.Float64()*2*math.Pi)
		if exact := a.Nearest(pose).Margin; exact > 0 {
			worst = math.Max(worst, (a.Margin(pose) - exact).Degrees())
		}
	}
	return worst
}

// Low lips with steep flanks, notches and lips together, thin necks, and necks
// with sharp corners are those whose look-up is farthest off.
func TestTheLookUpOfSharpShapesIsWithinItsBound(t *testing.T) {
	const d = unit.Degree
	lip := func(height, plateau, ramp, centre float64) implant.Lip {
		return implant.Lip{Height: unit.Angle(height) * d, Plateau: unit.Angle(plateau) * d, Ramp: unit.Angle(ramp) * d, Centre: unit.Angle(centre) * d}
	}
	sharp := implant.Neck{Trapezoid: implant.Trapezoid{Width: 15, Superior: 12, Inferior: 10}}
	plain := implant.Rim{HeadDiameter: 32, Arc: 180 * d, Wall: 5}
	low, both := plain, plain
	low.Lips[0] = lip(1, 20, 0.5, 30)
	both.Lips = [2]implant.Lip{lip(10, 40, 8, -60), lip(6, 60, 3, 100)}
	both.Notch = lip(5, 30, 0, 60)
	for name, c := range map[string]struct {
		rim  implant.Rim
		neck implant.Neck
	}{
		"low lip":                  {low, implant.Neck{Diameter: 12}},
		"low lip, thin neck":       {low, implant.Neck{Diameter: 4}},
		"two lips and a notch":     {both, implant.Neck{Diameter: 12}},
		"sharp neck":               {plain, sharp},
		"sharp neck and low lip":   {low, sharp},
		"sharp neck and much else": {both, sharp},
		"oval neck and much else":  {both, ovalNeck()},
	} {
		a := Build(c.rim, c.neck)
		worst := overstatement(rand.New(rand.NewPCG(38, 39)), a, 1000)
		t.Logf("%s: off by up to %.4f°, bound %.4f°", name, worst, a.Overstated().Degrees())
		if worst > a.Overstated().Degrees() {
			t.Errorf("%s: the look-up is off by %.4f°, want %.4f° at most", name, worst, a.Overstated().Degrees())
		}
		freeBesideContact(t, name, a)
	}
}

// freeBesideContact asks at a glance what is free on both sides of where contact
// begins.
func freeBesideContact(t *testing.T, name string, a *Aperture) {
	r := rand.New(rand.NewPCG(40, 41))
	for range 100 {
		azimuth, roll := r.Float64()*2*math.Pi, r.Float64()*2*math.Pi
		free, contact := 0.0, 2.0
		for contact-free > 1e-6 {
			if middle := (free + contact) / 2; a.Nearest(poseOf(middle, azimuth, roll)).Margin > touch {
				free = middle
			} else {
				contact = middle
			}
		}
		for range 6 {
			p := poseOf(free+0.006*(r.Float64()-0.5), azimuth, roll)
			if got, want := a.Free(p), a.Nearest(p).Margin; got != (want > touch) {
				t.Fatalf("%s: free is %v at a glance at a margin of %.6f°", name, got, want.Degrees())
			}
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
