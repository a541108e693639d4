package implant

import (
	"math"
	"math/rand/v2"
	"testing"

	"rimclear/kinematics/unit"
)

// The corner of a tapered neck's profile lies on its surface: seen from the
// head centre at that very distance the neck is as wide as the corner says.
func TestATaperIsAtItsCornersAsWideAsItsDiameterThere(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		start := 15 * r.Float64()
		taper := Taper{StartDiameter: 10 + 8*r.Float64(), Start: start, EndDiameter: 8 + 8*r.Float64(), End: start + 6 + 20*r.Float64()}
		n := Neck{Taper: taper}
		for _, c := range [][2]float64{{taper.Start, taper.StartDiameter / 2}, {taper.End, taper.EndDiameter / 2}} {
			rho := math.Hypot(c[0], c[1])
			if rho < 0.6*taper.StartDiameter {
				continue // deep inside any head
			}
			got, want := n.Beta(0, rho), unit.Angle(math.Asin(c[1]/rho))
			if (got - want).Abs() > 1e-9 {
				t.Fatalf("%+v: Beta at its corner (%.4f mm along, %.4f mm across) is %.5f°, want %.5f°", taper, c[0], c[1], got.Degrees(), want.Degrees())
			}
		}
	}
}

// A point just inside the half-width lies within the neck, one just outside it
// does not.
func TestTheHalfWidthIsWhereTheSurfaceOfTheNeckStands(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 5000 {
		start := 15 * r.Float64()
		n := Neck{Taper: Taper{StartDiameter: 10 + 8*r.Float64(), Start: start, EndDiameter: 8 + 12*r.Float64(), End: start + 6 + 20*r.Float64()}}
		if r.IntN(2) == 0 {
			n.Skirt = Skirt{Diameter: 12 + 8*r.Float64(), Length: 5 + 20*r.Float64()}
		}
		rho := 12 + 20*r.Float64()
		b := n.Beta(0, rho)
		within := func(a unit.Angle) bool {
			s, c := a.Sincos()
			return rho*s <= n.Radius(0, rho*c)
		}
		if !within(b-1e-9) || within(b+1e-9) {
			t.Fatalf("%+v: at %.4f mm Beta is %.5f°, but just inside it within the neck: %v; just outside: %v", n, rho, b.Degrees(), within(b-1e-9), within(b+1e-9))
		}
	}
}
