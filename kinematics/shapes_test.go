package kinematics

import (
	"testing"

	"pgregory.net/rapid"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// never checks that a change of the design lengthens no motion.
func never(t *testing.T, what string, change func(*rapid.T, *Design)) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyPlain(t)
		more := d
		change(t, &more)
		c := columns[rapid.IntRange(0, len(columns)-1).Draw(t, "movement")]
		before, l := reach(d, c.movement, posture(c.flexion, 0, 0))
		after, m := reach(more, c.movement, posture(c.flexion, 0, 0))
		if m.Status == StartsInContact || l.Status == Free {
			return
		}
		if m.Status == Free || after > before+1e-11 {
			t.Fatalf("%s lengthens %s from %.9f° to %.9f° (status %d)", what, c.name, before.Degrees(), after.Degrees(), m.Status)
		}
	})
}

func TestALipNeverLengthensAMotion(t *testing.T) {
	never(t, "a lip", func(t *rapid.T, d *Design) {
		f := func(name string, lo, hi float64) unit.Angle { return deg(rapid.Float64Range(lo, hi).Draw(t, name)) }
		d.Rim.Lips[0] = implant.Lip{Height: f("height", 1, 20), Centre: f("centre", -180, 180), Plateau: f("plateau", 0, 120), Ramp: f("ramp", 0, 40)}
	})
}

func TestASkirtNeverLengthensAMotion(t *testing.T) {
	never(t, "a skirt", func(t *rapid.T, d *Design) {
		d.Neck.Skirt = implant.Skirt{Diameter: rapid.Float64Range(12, 24).Draw(t, "diameter"), Length: rapid.Float64Range(10, 30).Draw(t, "length")}
	})
}

func TestABumpOfTheNeckNeverLengthensAMotion(t *testing.T) {
	never(t, "a bump", func(t *rapid.T, d *Design) {
		d.Neck.Bump = implant.Bump{Height: rapid.Float64Range(0.5, 3).Draw(t, "height"), Centre: deg(rapid.Float64Range(-180, 180).Draw(t, "centre")), Plateau: deg(30), Ramp: deg(20)}
	})
}

func TestAWiderNeckNeverLengthensAMotion(t *testing.T) {
	never(t, "a wider neck", func(t *rapid.T, d *Design) { d.Neck.Diameter += rapid.Float64Range(0.1, 3).Draw(t, "wider") })
}

func TestAHeadDeeperUnderTheRimNeverMovesFarther(t *testing.T) {
	never(t, "an inset", func(t *rapid.T, d *Design) { d.Rim.Inset = rapid.Float64Range(0.1, 3).Draw(t, "inset") })
}

// A lip on the far side of the rim changes nothing of a motion that ends on
// the near side.
func TestALipWhereNothingTouchesChangesNothing(t *testing.T) {
	d := usual()
	_, l := reach(d, FlexionMovement, hip.Neutral)
	d.Rim.Lips[0] = implant.Lip{Height: deg(10), Centre: l.Contact.Azimuth + 180*unit.Degree, Plateau: deg(60), Ramp: deg(20)}
	got, _ := reach(d, FlexionMovement, hip.Neutral)
	closeTo(t, "flexion with a lip opposite", got, l.Angle, 1e-8)
	d.Rim.Lips[0].Centre = l.Contact.Azimuth
	if got, _ := reach(d, FlexionMovement, hip.Neutral); got > l.Angle-deg(5) {
		t.Errorf("with a lip of 10° at the contact flexion reads %.3f°, want clearly less than %.3f°", got.Degrees(), l.Angle.Degrees())
	}
}
