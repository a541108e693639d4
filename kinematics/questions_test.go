package kinematics

import (
	"math"
	"testing"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

func question(t *testing.T, key string) Question {
	t.Helper()
	for _, q := range Questions {
		if q.Key == key {
			return q
		}
	}
	t.Fatalf("no question %q", key)
	return Question{}
}

func TestRotationInFlexionIsNotReachedWhereFlexionStopsEarlier(t *testing.T) {
	d := plain(50, 44, 168, 40, 15, 15, 135)
	for _, key := range []string{"internal_at_90", "external_at_90", "internal_at_110", "internal_at_90_given_adduction"} {
		a := NewJoint(Hip{GivenAdduction: deg(10)}, d).Answer(Hip{GivenAdduction: deg(10)}, question(t, key))
		if a.Reached || a.Limit.Status != Stopped {
			t.Errorf("%s: reached %v, status %d; want stopped on the way", key, a.Reached, a.Limit.Status)
		}
		if a.Limit.At.Leg != 0 || a.Limit.Moving != hip.Flexion {
			t.Errorf("%s: stops on leg %d moving %d, want on the first, in flexion", key, a.Limit.At.Leg, a.Limit.Moving)
		}
		closeTo(t, key+" stops at a flexion", a.Limit.Angle, deg(79.27), 0.0051)
		if a.BeyondNative() {
			t.Errorf("%s: what is not reached is beyond the native range", key)
		}
	}
}

func TestAnAnswerAtAGivenAdductionNamesTheAdductionThatStopped(t *testing.T) {
	h := Hip{GivenAdduction: deg(35)}
	a := NewJoint(h, plain(50, 44, 168, 40, 15, 15, 135)).Answer(h, question(t, "flexion_given_adduction"))
	if a.Reached || a.Limit.At.Leg != 0 || a.Limit.Moving != hip.Adduction {
		t.Errorf("reached %v, leg %d, moving %d; want stopped in adduction on the first leg", a.Reached, a.Limit.At.Leg, a.Limit.Moving)
	}
	closeTo(t, "adduction that stopped", a.Limit.Angle, deg(27.20), 0.0051)
}

func TestAnswersReadInTheMovementsOwnDirection(t *testing.T) {
	j := NewJoint(Hip{}, usual())
	for key, want := range map[string]float64{
		"flexion": 128.71, "extension": 61.13, "abduction": 59.58, "adduction": 67.60,
		"internal_at_0": 145.79, "external_at_0": 70.53, "internal_at_90": 38.67, "external_at_90": 108.67,
		"external_at_extension_10": 55.44, "internal_at_60": 70.07, "internal_at_110": 20.68,
	} {
		a := j.Answer(Hip{}, question(t, key))
		if !a.Reached || a.Limit.Status != Stopped {
			t.Errorf("%s: reached %v, status %d", key, a.Reached, a.Limit.Status)
		}
		closeTo(t, key, a.Reading, deg(want), 0.0061)
	}
}

func TestGivenAdductionIsTheThirdAngleOfTheQuestion(t *testing.T) {
	for adduction, want := range map[float64]float64{10: 33.779, 20: 27.262, 0: 38.675} {
		h := Hip{GivenAdduction: deg(adduction)}
		a := NewJoint(h, usual()).Answer(h, question(t, "internal_at_90_given_adduction"))
		closeTo(t, "internal rotation at 90 of flexion", a.Reading, deg(want), 0.00051)
	}
}

func TestAMotionThatIsNeverStoppedReadsItsEnd(t *testing.T) {
	d := plain(36, 8, 150, 45, 15, 15, 135)
	for _, a := range NewJoint(Hip{}, d).Answers(Hip{}) {
		if a.Limit.Status == Free && (!a.Reached || (a.Reading-a.Question.End).Abs() > 1e-12) {
			t.Errorf("%s: free, but reached %v and reads %.3f° of %.3f°", a.Question.Key, a.Reached, a.Reading.Degrees(), a.Question.End.Degrees())
		}
		if a.Question.Key == "internal_at_0" && a.Limit.Status != Free {
			t.Errorf("internal rotation of a thin neck in a shallow cup has status %d, want free", a.Limit.Status)
		}
	}
}

func TestAHipInContactInNeutralHasNoAnswers(t *testing.T) {
	for _, a := range NewJoint(Hip{}, plain(48, 44, 180, 20, -15, 15, 135)).Answers(Hip{}) {
		if a.Limit.Status != StartsInContact || a.Reached || a.BeyondNative() {
			t.Errorf("%s: status %d, reached %v", a.Question.Key, a.Limit.Status, a.Reached)
		}
	}
}

func TestEveryQuestionStartsInNeutralAndEndsWithItsOwnMovement(t *testing.T) {
	h := Hip{GivenAdduction: deg(-20), PosturePlane: hip.Supine}
	seen := map[string]bool{}
	for _, q := range Questions {
		if seen[q.Key] {
			t.Errorf("two questions have the key %q", q.Key)
		}
		seen[q.Key] = true
		p := q.Path(h)
		if p.Zero != hip.Supine || p.Waypoints[0] != hip.Neutral {
			t.Errorf("%s starts at %+v of plane %d", q.Key, p.Waypoints[0], p.Zero)
		}
		moving, alone := p.Moving(p.Legs() - 1)
		if angle, _ := q.Movement.Joint(); moving != angle || !alone {
			t.Errorf("%s: its last leg moves angle %d, alone %v", q.Key, moving, alone)
		}
		last := p.Waypoints[len(p.Waypoints)-1]
		if q.Given && last.Adduction != h.GivenAdduction {
			t.Errorf("%s ends at an adduction of %v", q.Key, last.Adduction)
		}
		if math.Abs(float64(last.Adduction)) > float64(90*unit.Degree) {
			t.Errorf("%s runs past the singularity of the joint angles", q.Key)
		}
		if q.Native.Known() && (q.Native.Source == "" || q.Native.Range > q.End) {
			t.Errorf("%s: a native range of %.1f° from %q", q.Key, q.Native.Range.Degrees(), q.Native.Source)
		}
	}
}

func TestBeyondTheNativeRangeIsSaid(t *testing.T) {
	j := NewJoint(Hip{}, usual())
	for key, want := range map[string]bool{"flexion": true, "extension": true, "internal_at_90": true, "internal_at_110": false} {
		if got := j.Answer(Hip{}, question(t, key)).BeyondNative(); got != want {
			t.Errorf("%s beyond the native range: %v, want %v", key, got, want)
		}
	}
	if NewJoint(Hip{}, plain(22, 12, 180, 40, 15, 15, 135)).Answer(Hip{}, question(t, "flexion")).BeyondNative() {
		t.Error("111.55° of flexion is beyond the native range")
	}
}

func TestAMovementCountsInItsOwnDirection(t *testing.T) {
	for m, want := range map[Movement]struct {
		angle hip.JointAngle
		sign  unit.Angle
	}{
		FlexionMovement: {hip.Flexion, 1}, Extension: {hip.Flexion, -1}, AdductionMovement: {hip.Adduction, 1},
		Abduction: {hip.Adduction, -1}, Internal: {hip.InternalRotation, 1}, External: {hip.InternalRotation, -1},
	} {
		angle, sign := m.Joint()
		if angle != want.angle || sign != want.sign {
			t.Errorf("movement %d moves angle %d by sign %v, want %d and %v", m, angle, sign, want.angle, want.sign)
		}
		p := m.Path(posture(10, 5, -5), 40*unit.Degree, hip.Standing)
		if got := m.Reading(p, p.End()); (got-40*unit.Degree).Abs() > 1e-12 || p.Zero != hip.Standing {
			t.Errorf("movement %d ends at a reading of %.3f°, want 40°", m, got.Degrees())
		}
	}
}
