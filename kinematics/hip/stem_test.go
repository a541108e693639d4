package hip

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"rimclear/kinematics/unit"
)

func stem(version, neckShaft, varus, sagittal float64) Stem {
	return Stem{Anteversion: unit.Angle(version) * unit.Degree, NeckShaft: unit.Angle(neckShaft) * unit.Degree,
		Varus: unit.Angle(varus) * unit.Degree, SagittalTilt: unit.Angle(sagittal) * unit.Degree}
}

// Derived check values: cup 40/15, stem 15, neck-shaft 135.
func TestCupAndNeckAxisOfTheUsualHip(t *testing.T) {
	n := Radiographic{40 * unit.Degree, 15 * unit.Degree}.Axis()
	v := stem(15, 135, 0, 0).Axis()
	for _, c := range []struct {
		name      string
		got, want r3.Vec
	}{
		{"cup axis", n, r3.Vec{X: 0.258819, Y: -0.739942, Z: 0.620885}},
		{"neck axis", v, r3.Vec{X: -0.183013, Y: -0.707107, Z: 0.683013}},
	} {
		if r3.Norm(r3.Sub(c.got, c.want)) > 1e-6 {
			t.Errorf("%s = %v, want %v", c.name, c.got, c.want)
		}
	}
	closeTo(t, "angle between them", unit.Angle(math.Acos(r3.Dot(n, v))), 25.852*unit.Degree, printed)
}

func TestTheNeckStandsAtTheNeckShaftAngleToTheShaft(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := stem(rapid.Float64Range(-30, 75).Draw(t, "version"), rapid.Float64Range(100, 165).Draw(t, "neck-shaft"), 0, 0)
		// From the shaft to the head the neck runs against its axis; the shaft runs down.
		got := unit.Angle(math.Acos(r3.Dot(r3.Scale(-1, s.Axis()), r3.Vec{Y: -1})))
		if (got - s.NeckShaft).Abs() > 1e-9 {
			t.Fatalf("neck to shaft below it %.6f°, want %.6f°", got.Degrees(), s.NeckShaft.Degrees())
		}
	})
}

func TestAnteversionTurnsTheHeadForward(t *testing.T) {
	// The head lies up the neck, against the axis.
	head := func(s Stem) r3.Vec { return r3.Scale(-1, s.Axis()) }
	if got := head(stem(20, 135, 0, 0)); got.X <= 0 || got.Z >= 0 || got.Y <= 0 {
		t.Errorf("head of a stem anteverted by 20° lies to %v, want forward, medially and up", got)
	}
	if got := head(stem(-20, 135, 0, 0)); got.X >= 0 {
		t.Errorf("head of a stem retroverted by 20° lies to %v, want backward", got)
	}
}

func TestVarusLaysTheNeckFlatterAndTheTipOutwards(t *testing.T) {
	plain, varus := stem(0, 135, 0, 0).Axis(), stem(0, 135, 8, 0).Axis()
	closeTo(t, "neck-shaft angle in the femur", unit.Angle(math.Atan2(varus.Z, varus.Y)), 127*unit.Degree, 1e-9)
	if varus.Y <= plain.Y {
		t.Errorf("varus neck axis %v is no flatter than %v", varus, plain)
	}
	if tip := stem(0, 135, 8, 0).tilt().Apply(r3.Vec{Y: -1}); tip.Z <= 0 {
		t.Errorf("tip of a varus stem lies to %v, want laterally", tip)
	}
}

func TestSagittalTiltTakesTheTipBackAndTheHeadForward(t *testing.T) {
	s := stem(0, 135, 0, 6)
	if tip := s.tilt().Apply(r3.Vec{Y: -1}); tip.X >= 0 {
		t.Errorf("tip lies to %v, want posteriorly", tip)
	}
	if head := r3.Scale(-1, s.Axis()); head.X <= 0 {
		t.Errorf("head lies to %v, want anteriorly", head)
	}
}

func TestNeckAzimuthCountsFromSuperiorTowardsAnterior(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := stem(rapid.Float64Range(-30, 75).Draw(t, "version"), rapid.Float64Range(100, 165).Draw(t, "neck-shaft"), 0, 0)
		r := s.FemurFromNeck()
		x, y, z := r.Column(0), r.Column(1), r.Column(2)
		if r3.Norm(r3.Sub(z, s.Axis())) > 1e-15 {
			t.Fatalf("Z = %v, want the neck axis %v", z, s.Axis())
		}
		if math.Abs(r3.Dot(x, z)) > 1e-14 || math.Abs(r3.Dot(y, z)) > 1e-14 || math.Abs(r3.Dot(x, y)) > 1e-14 {
			t.Fatalf("the frame is not square: %v %v %v", x, y, z)
		}
		if x.Y <= 0 || math.Abs(y.Y) > 1e-14 {
			t.Fatalf("X = %v is not the most superior direction across the neck, Y = %v not level", x, y)
		}
		if y.X <= 0 {
			t.Fatalf("Y = %v does not point forward", y)
		}
	})
}

func TestTheRimsTwelveOClockIsUpAndThreeIsForward(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := Radiographic{unit.Angle(rapid.Float64Range(5, 85).Draw(t, "ri")) * unit.Degree, unit.Angle(rapid.Float64Range(-40, 60).Draw(t, "ra")) * unit.Degree}.Axis()
		r := PlaneFromCup(n)
		twelve, three := r.Column(0), r.Column(1)
		if math.Abs(r3.Dot(twelve, n)) > 1e-14 || math.Abs(r3.Dot(three, n)) > 1e-14 {
			t.Fatalf("12 and 3 o'clock are not in the opening's plane")
		}
		if twelve.Y <= 0 || math.Abs(three.Y) > 1e-14 || three.X <= 0 {
			t.Fatalf("12 o'clock %v is not up, or 3 o'clock %v not forward", twelve, three)
		}
		if r.Inverse().Apply(n) != (r3.Vec{}) && r3.Norm(r3.Sub(r.Inverse().Apply(n), r3.Vec{Z: 1})) > 1e-14 {
			t.Fatalf("the axis is not Z in the cup's frame: %v", r.Inverse().Apply(n))
		}
	})
}

// A component set five degrees more valgus than the neck under it leaves that
// neck where it was: the neck runs five degrees flatter than the component.
func TestAComponentInValgusDoesNotTurnTheNeckUnderIt(t *testing.T) {
	native := stem(12, 132, 0, 0)
	covered := stem(12, 137, 0, 0)
	covered.ComponentToNeck = 5 * unit.Degree
	if got, want := covered.Axis(), native.Axis(); r3.Norm(r3.Sub(got, want)) > 1e-14 {
		t.Errorf("the neck under the component runs along %v, want %v", got, want)
	}
	if covered.Axis().Y <= stem(12, 137, 0, 0).Axis().Y {
		t.Error("the neck runs steeper than the component that sits on it in valgus")
	}
}
