package motion

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"rimclear/kinematics/hip"
	_ "rimclear/kinematics/seeded"
	"rimclear/kinematics/unit"
)

func posture(flexion, adduction, internal float64) hip.Posture {
	return hip.Posture{
		Flexion: unit.Angle(flexion) * unit.Degree, Adduction: unit.Angle(adduction) * unit.Degree,
		InternalRotation: unit.Angle(internal) * unit.Degree,
	}
}

// app returns the rotation from the shaft to the anterior pelvic plane at a
// place of a path, written out from the model's definitions.
func app(p Path, at Place, t hip.Tilts) hip.Rotation {
	return hip.RotationZ(t.Of(p.Zero)).Mul(p.At(at).PelvisFromFemur()).Mul(hip.RotationX(p.Mechanical))
}

func apart(a, b hip.Rotation) float64 {
	most := 0.0
	for i := range 3 {
		most = math.Max(most, r3.Norm(r3.Sub(a.Column(i), b.Column(i))))
	}
	return most
}

func tilts(t *rapid.T) hip.Tilts {
	a := func(name string) unit.Angle { return unit.Angle(rapid.Float64Range(-0.6, 0.6).Draw(t, name)) }
	return hip.Tilts{Supine: a("supine"), Standing: a("standing"), RelaxedSitting: a("relaxed"), FlexedSitting: a("flexed")}
}

func waypoint(t *rapid.T, plane hip.Plane) Waypoint {
	w := Waypoint{Plane: plane}
	for k, most := range []float64{2, 1, 2} {
		w.Angles[k].Angle = unit.Angle(rapid.Float64Range(-most, most).Draw(t, "angle"))
	}
	return w
}

func TestAThighInTheRoomIsTurnedByTheTiltOfEachPosture(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Setting{Tilts: tilts(t)}
		a := Activity{
			Zero:   Zero{Reference: RoomReference, Plane: hip.Standing},
			Routes: [][]Waypoint{{waypoint(t, hip.APP), waypoint(t, hip.RelaxedSitting), waypoint(t, hip.FlexedSitting)}},
		}
		p := a.Paths(s)[0]
		for i, tilt := range []unit.Angle{s.Tilts.Standing, s.Tilts.RelaxedSitting, s.Tilts.FlexedSitting} {
			want := hip.RotationZ(tilt).Mul(a.Routes[0][i].Posture().PelvisFromFemur())
			at := Place{Leg: max(0, i-1), Fraction: min(1, float64(i))}
			if d := apart(app(p, at, s.Tilts), want); d > 1e-12 {
				t.Errorf("waypoint %d is %g off Rz(p)·roomFromFemur", i, d)
			}
		}
	})
}

func TestAnErrorOfTiltCommonToAllPosturesTurnsTheWholeMotion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Setting{Tilts: tilts(t)}
		by := unit.Angle(rapid.Float64Range(-0.3, 0.3).Draw(t, "error"))
		erred := hip.Tilts{Supine: s.Tilts.Supine + by, Standing: s.Tilts.Standing + by,
			RelaxedSitting: s.Tilts.RelaxedSitting + by, FlexedSitting: s.Tilts.FlexedSitting + by}
		a := Activity{
			Zero:   Zero{Reference: RoomReference, Plane: hip.Standing},
			Routes: [][]Waypoint{{waypoint(t, hip.APP), waypoint(t, hip.RelaxedSitting)}},
		}
		made, anew := a.Paths(s)[0], a.Paths(Setting{Tilts: erred})[0]
		at := Place{Fraction: rapid.Float64Range(0, 1).Draw(t, "at")}
		if d := apart(app(made, at, erred), app(anew, at, erred)); d > 1e-12 {
			t.Errorf("the path made before the error is %g off the one made after", d)
		}
	})
}

func TestTiltNeverActsOnAMotionOfThePelvis(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := Activity{
			Zero:   Zero{Reference: rapid.SampledFrom([]Reference{PelvisReference, RecordingReference}).Draw(t, "zero")},
			Routes: [][]Waypoint{{waypoint(t, hip.APP), waypoint(t, hip.APP)}},
		}
		s := Setting{Tilts: tilts(t)}
		tilted, level := a.Paths(s)[0], a.Paths(Setting{})[0]
		at := Place{Fraction: rapid.Float64Range(0, 1).Draw(t, "at")}
		if d := apart(app(tilted, at, s.Tilts), app(level, at, hip.Tilts{})); d > 0 {
			t.Errorf("the tilt moved it by %g", d)
		}
	})
}

func TestSittingWithThePelvisRolledBackAsksForLessFlexion(t *testing.T) {
	sit, found := builtIn(t).Activity("sit_at_ease")
	if !found {
		t.Fatal("no such activity")
	}
	s := Setting{Tilts: hip.Tilts{Standing: -1 * unit.Degree, RelaxedSitting: -23 * unit.Degree}}
	p := sit.Paths(s)[0]
	end := p.At(p.End())
	if got := end.Flexion + s.Tilts.Of(p.Zero); math.Abs(got.Degrees()-67) > 1e-9 {
		t.Errorf("flexion in the anterior pelvic plane = %v°, want 90 - 23", got.Degrees())
	}
}

func TestTheShaftOfAMechanicalPathIsTurnedAboutItsOwnX(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := waypoint(t, hip.APP)
		p := Path{Waypoints: []hip.Posture{w.Posture()}, Mechanical: unit.Angle(rapid.Float64Range(-0.2, 0.2).Draw(t, "mechanical"))}
		want := app(p, Place{}, hip.Tilts{})
		if d := apart(p.ShaftAt(Place{}).PelvisFromFemur(), want); d > 1e-12 {
			t.Errorf("the shaft is %g off Rz·Rx·Ry·Rx", d)
		}
	})
}

func TestTheShaftRunsLateralAboveTheMechanicalAxis(t *testing.T) {
	p := Path{Waypoints: []hip.Posture{hip.Neutral}, Mechanical: UsualMechanical}
	if up := p.ShaftAt(Place{}).PelvisFromFemur().Column(1); !(up.Z > 0.1) || up.Y < 0.9 {
		t.Errorf("the shaft points up along %v, want lateral", up)
	}
}

func TestEveryThresholdOfASetBecomesAMotionToItsAngle(t *testing.T) {
	strict, _ := builtIn(t).Set("strict")
	severe, _ := builtIn(t).Set("severe")
	want := map[string][]hip.Posture{
		"strict flexion":        {{}, posture(130, 0, 0)},
		"strict extension":      {{}, posture(-40, 0, 0)},
		"strict abduction":      {{}, posture(0, -50, 0)},
		"strict adduction":      {{}, posture(0, 50, 0)},
		"strict internal_at_0":  {{}, posture(0, 0, 80)},
		"strict external_at_0":  {{}, posture(0, 0, -40)},
		"severe flexion":        {{}, posture(120, 0, 0)},
		"severe extension":      {{}, posture(-30, 0, 0)},
		"severe internal_at_90": {{}, posture(90, 0, 0), posture(90, 0, 45)},
		"severe external_at_0":  {{}, posture(0, 0, -40)},
	}
	got := 0
	for _, r := range append(strict.Requirements(), severe.Requirements()...) {
		way, ok := want[r.Set+" "+r.Key]
		if !ok || len(way) != len(r.Paths[0].Waypoints) {
			t.Errorf("%s %s: path %v", r.Set, r.Key, r.Paths[0].Waypoints)
			continue
		}
		got++
		for i := range way {
			if !near(way[i], r.Paths[0].Waypoints[i]) {
				t.Errorf("%s %s: waypoint %v, want %v", r.Set, r.Key, r.Paths[0].Waypoints[i], way[i])
			}
		}
	}
	if got != len(want) {
		t.Errorf("%d of %d criteria", got, len(want))
	}
}

func near(a, b hip.Posture) bool {
	return (a.Flexion-b.Flexion).Abs() < 1e-12 && (a.Adduction-b.Adduction).Abs() < 1e-12 &&
		(a.InternalRotation-b.InternalRotation).Abs() < 1e-12
}

func TestAThresholdOfAUsersSetIsReplacedAddedAndTakenAway(t *testing.T) {
	s := CriteriaSet{}
	s = s.With(ExternalAt0, Stated{Angle: 40 * unit.Degree})
	s = s.With(Flexion, Stated{Angle: 100 * unit.Degree})
	s = s.With(Flexion, Stated{Angle: 110 * unit.Degree})
	if v, ok := s.Of(Flexion); !ok || v.Angle != 110*unit.Degree || len(s.Criteria) != 2 || s.Criteria[0].Movement != Flexion {
		t.Errorf("set %+v", s.Criteria)
	}
	if s = s.With(Flexion, Stated{}); len(s.Criteria) != 1 {
		t.Errorf("set %+v, want flexion taken away", s.Criteria)
	}
}

func TestPosteriorAndAnteriorRiskLieOnOppositeMovements(t *testing.T) {
	for m := range MovementCount {
		angle, sign, _ := m.Joint()
		want := NoRisk
		switch {
		case angle == hip.Adduction:
		case sign > 0:
			want = Posterior
		default:
			want = Anterior
		}
		if m.Risk() != want {
			t.Errorf("risk of %s = %s, want %s", m.Key(), m.Risk().Key(), want.Key())
		}
	}
}
