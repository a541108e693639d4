package kinematics

import (
	"testing"

	"pgregory.net/rapid"

	"rimclear/kinematics/hip"
	_ "rimclear/kinematics/seeded"
	"rimclear/kinematics/unit"
)

// anyPlain draws a stemmed hip in the middle of the usual ranges, whose limits
// in all six directions are reached.
func anyPlain(t *rapid.T) Design {
	f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	return plain(32, f("neck", 11, 16), f("arc", 178, 184), f("inclination", 36, 46), f("anteversion", 8, 22), f("stem version", 5, 22), f("neck-shaft", 128, 138))
}

// shift checks that a change of one degree moves each named limit by so many
// degrees exactly.
func shift(t *rapid.T, d Design, change func(*Design, unit.Angle), want map[string]float64) {
	more := d
	change(&more, deg(1))
	for _, c := range columns {
		w, asked := want[c.name]
		if !asked {
			continue
		}
		before, l := reach(d, c.movement, posture(c.flexion, 0, 0))
		after, m := reach(more, c.movement, posture(c.flexion, 0, 0))
		if l.Status != Stopped || m.Status != Stopped {
			continue
		}
		if got := (after - before).Degrees(); got-w > 1e-9 || w-got > 1e-9 {
			t.Fatalf("%+v: one degree moves %s by %.12f°, want %g", d, c.name, got, w)
		}
	}
}

func TestInternalRotationAtARightAngleRisesDegreeForDegreeWithInclination(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shift(t, anyPlain(t), func(d *Design, by unit.Angle) { d.Cup.Inclination += by },
			map[string]float64{"ir90": 1, "er90": -1, "abduction": 1, "adduction": -1})
	})
}

func TestRotationsMoveDegreeForDegreeWithStemVersion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shift(t, anyPlain(t), func(d *Design, by unit.Angle) { d.Stem.Anteversion += by },
			map[string]float64{"ir90": 1, "er90": -1, "ir0": 1, "er0": -1})
	})
}

func TestFlexionMovesDegreeForDegreeWithTiltOfTheCupsPlane(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, p := anyPlain(t), unit.Angle(rapid.Float64Range(-15, 15).Draw(t, "posterior tilt"))*unit.Degree
		// A motion in the room, zero standing: the pelvis tilts backward by p.
		h := Hip{Tilts: hip.Tilts{Standing: -p}, PosturePlane: hip.Standing}
		for _, c := range columns[:2] {
			path := c.movement.Path(hip.Neutral, 180*unit.Degree, hip.Standing)
			room, l := NewJoint(h, d).Limit(path), NewJoint(Hip{}, d).Limit(c.movement.Path(hip.Neutral, 180*unit.Degree, hip.APP))
			sign := 1.0
			if c.movement == Extension {
				sign = -1
			}
			got := (c.movement.Reading(path, room.At) - c.movement.Reading(path, l.At)).Degrees()
			if want := sign * p.Degrees(); got-want > 1e-9 || want-got > 1e-9 {
				t.Fatalf("posterior tilt of %.4f° moves %s by %.9f°, want %.9f°", p.Degrees(), c.name, got, want)
			}
		}
	})
}

func TestOnlyTheDifferenceOfTheTwoPlanesActs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, p := anyPlain(t), unit.Angle(rapid.Float64Range(-30, 30).Draw(t, "tilt"))*unit.Degree
		q := posture(rapid.Float64Range(-40, 120).Draw(t, "flexion"), rapid.Float64Range(-40, 40).Draw(t, "adduction"), rapid.Float64Range(-60, 60).Draw(t, "rotation"))
		both := NewJoint(Hip{Tilts: hip.Tilts{Supine: p}, CupPlane: hip.Supine, PosturePlane: hip.Supine}, d)
		none := NewJoint(Hip{}, d)
		if got, want := both.Margin(q), none.Margin(q); (got - want).Abs() > 1e-13 {
			t.Fatalf("cup and motion in one plane tilted by %v: margin %v, want %v", p, got, want)
		}
	})
}

// A motion given in pelvic joint angles does not know how the pelvis tilts.
func TestTiltLeavesPelvicMotionsAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, p := anyPlain(t), unit.Angle(rapid.Float64Range(-40, 40).Draw(t, "tilt"))*unit.Degree
		h := Hip{Tilts: hip.Tilts{Supine: p, Standing: -p, RelaxedSitting: 2 * p, FlexedSitting: p / 2}}
		for _, c := range columns {
			path := c.movement.Path(posture(c.flexion, 0, 0), 180*unit.Degree, hip.APP)
			if a, b := NewJoint(h, d).Limit(path), NewJoint(Hip{}, d).Limit(path); a.At != b.At || a.Contact != b.Contact {
				t.Fatalf("%s moved from %v to %v by pelvic tilt", c.name, b.At, a.At)
			}
		}
	})
}

func TestTheArcsOfMotionDependOnTheConeAndNotOnVersionAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyPlain(t)
		arc := func(d Design, a, b Movement, flexion float64) unit.Angle {
			x, l := reach(d, a, posture(flexion, 0, 0))
			y, m := reach(d, b, posture(flexion, 0, 0))
			if l.Status != Stopped || m.Status != Stopped {
				t.Skip("no limit on one side")
			}
			return x + y
		}
		for _, c := range []struct {
			name   string
			a, b   Movement
			change func(*Design)
		}{
			{"abduction and adduction with inclination", Abduction, AdductionMovement, func(d *Design) { d.Cup.Inclination += deg(1) }},
			{"internal and external rotation with stem version", Internal, External, func(d *Design) { d.Stem.Anteversion += deg(1) }},
		} {
			more := d
			c.change(&more)
			if before, after := arc(d, c.a, c.b, 0), arc(more, c.a, c.b, 0); (before - after).Abs() > 1e-11 {
				t.Fatalf("the arc of %s moves from %.10f° to %.10f°", c.name, before.Degrees(), after.Degrees())
			}
		}
	})
}
