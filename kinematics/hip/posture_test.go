package hip

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	_ "rimclear/kinematics/seeded"
	"rimclear/kinematics/unit"
)

func posture(flexion, adduction, internal float64) Posture {
	return Posture{unit.Angle(flexion) * unit.Degree, unit.Angle(adduction) * unit.Degree, unit.Angle(internal) * unit.Degree}
}

// Derived check value of the rotation order Z-X-Y.
func TestTheRotationOfThirtyTenTwenty(t *testing.T) {
	want := Rotation{
		{0.784102, -0.492404, 0.377786},
		{0.521281, 0.852869, 0.029696},
		{-0.336824, 0.173648, 0.925417},
	}
	got := posture(30, 10, 20).PelvisFromFemur()
	for i := range 3 {
		for k := range 3 {
			if math.Abs(got[i][k]-want[i][k]) > 5.1e-7 {
				t.Errorf("PelvisFromFemur(30, 10, 20)[%d][%d] = %.6f, want %.6f", i, k, got[i][k], want[i][k])
			}
		}
	}
}

func TestOrderIsFlexionThenAdductionThenRotation(t *testing.T) {
	r := rand.New(rand.NewPCG(2002, 543))
	for range 500 {
		p := posture(360*r.Float64()-180, 180*r.Float64()-90, 360*r.Float64()-180)
		z := r3.NewRotation(p.Flexion.Radians(), r3.Vec{Z: 1})
		x := r3.NewRotation(p.Adduction.Radians(), r3.Vec{X: 1})
		y := r3.NewRotation(p.InternalRotation.Radians(), r3.Vec{Y: 1})
		got := p.PelvisFromFemur()
		for _, v := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
			want := z.Rotate(x.Rotate(y.Rotate(v)))
			if off := r3.Norm(r3.Sub(got.Apply(v), want)); off > 1e-14 {
				t.Fatalf("%v takes %v to %v, want %v", p, v, got.Apply(v), want)
			}
		}
	}
}

// Of a right hip: X anterior, Y superior, Z lateral; the knee lies below the
// hip, the toes point forward.
var knee, toes = r3.Vec{Y: -1}, r3.Vec{X: 1}

func TestFlexionBringsTheKneeForward(t *testing.T) {
	if got := posture(90, 0, 0).PelvisFromFemur().Apply(knee); got.X < 0.999 {
		t.Errorf("at 90° flexion the knee points to %v, want forward", got)
	}
	if got := posture(-20, 0, 0).PelvisFromFemur().Apply(knee); got.X > -0.3 {
		t.Errorf("at 20° extension the knee points to %v, want backward", got)
	}
}

func TestAdductionBringsTheKneeToTheOtherLeg(t *testing.T) {
	if got := posture(0, 30, 0).PelvisFromFemur().Apply(knee); got.Z > -0.49 {
		t.Errorf("at 30° adduction the knee points to %v, want medially", got)
	}
	if got := posture(0, -30, 0).PelvisFromFemur().Apply(knee); got.Z < 0.49 {
		t.Errorf("at 30° abduction the knee points to %v, want laterally", got)
	}
}

func TestInternalRotationTurnsTheToesInwards(t *testing.T) {
	if got := posture(0, 0, 30).PelvisFromFemur().Apply(toes); got.Z > -0.49 {
		t.Errorf("at 30° internal rotation the toes point to %v, want medially", got)
	}
	if got := posture(0, 0, -30).PelvisFromFemur().Apply(toes); got.Z < 0.49 {
		t.Errorf("at 30° external rotation the toes point to %v, want laterally", got)
	}
}

func TestInternalRotationOfASeatedHipSwingsTheFootOutwards(t *testing.T) {
	// Seated, knee bent square: the foot hangs where the shin points, which is
	// the thigh's posterior side.
	shin := r3.Scale(-1, toes)
	if got := posture(90, 0, 30).PelvisFromFemur().Apply(shin); got.Z < 0.49 || got.Y > 0 {
		t.Errorf("seated, at 30° internal rotation the foot hangs to %v, want down and laterally", got)
	}
}

func TestNeutralTurnsNothing(t *testing.T) {
	if got := Neutral.PelvisFromFemur(); got != Identity {
		t.Errorf("Neutral.PelvisFromFemur() = %v", got)
	}
}

func TestAPostureIsAProperRotationAndItsInverseUndoesIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-180, 180)
		r := posture(a.Draw(t, "flexion"), a.Draw(t, "adduction"), a.Draw(t, "rotation")).PelvisFromFemur()
		p := r.Mul(r.Inverse())
		for i := range 3 {
			for k := range 3 {
				if math.Abs(p[i][k]-Identity[i][k]) > 1e-14 {
					t.Fatalf("r·r⁻¹ = %v", p)
				}
			}
		}
		if det := r3.Dot(r3.Cross(r.Column(0), r.Column(1)), r.Column(2)); math.Abs(det-1) > 1e-14 {
			t.Fatalf("determinant %v: a mirror, not a turn", det)
		}
	})
}

func TestTowardRunsStraightInTheJointAngles(t *testing.T) {
	a, b := posture(10, -20, 30), posture(90, 10, -30)
	if got := a.Toward(b, 0.25); got != posture(30, -12.5, 15) {
		closeTo(t, "flexion a quarter of the way", got.Flexion, 30*unit.Degree, 1e-12)
		closeTo(t, "adduction a quarter of the way", got.Adduction, -12.5*unit.Degree, 1e-12)
		closeTo(t, "rotation a quarter of the way", got.InternalRotation, 15*unit.Degree, 1e-12)
	}
	for j := Flexion; j <= InternalRotation; j++ {
		if got := a.With(j, 7).Angle(j); got != 7 {
			t.Errorf("With(%d, 7).Angle(%d) = %v", j, j, got)
		}
		for k := Flexion; k <= InternalRotation; k++ {
			if k != j && a.With(j, 7).Angle(k) != a.Angle(k) {
				t.Errorf("With(%d, …) moved angle %d", j, k)
			}
		}
	}
}

func TestALeftHipIsTheMirrorImageOfARightOne(t *testing.T) {
	v := r3.Vec{X: 1, Y: 2, Z: 3}
	if Right.Mirror(v) != v || Left.Mirror(v) != (r3.Vec{X: 1, Y: 2, Z: -3}) || Left.Mirror(Left.Mirror(v)) != v {
		t.Errorf("Right.Mirror = %v, Left.Mirror = %v", Right.Mirror(v), Left.Mirror(v))
	}
}
