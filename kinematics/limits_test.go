package kinematics

import (
	"fmt"
	"math"
	"testing"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

func deg(x float64) unit.Angle { return unit.Angle(x) * unit.Degree }

// plain is a cylinder in a round cup: head and neck diameter, arc; cup angles
// radiographic, of the APP, stem version and neck-shaft angle.
func plain(head, neck, arc, ri, ra, version, neckShaft float64) Design {
	return Design{
		Rim:  implant.Rim{HeadDiameter: head, Arc: deg(arc), Wall: 5},
		Neck: implant.Neck{Diameter: neck},
		Cup:  Cup{Inclination: deg(ri), Anteversion: deg(ra)},
		Stem: hip.Stem{Anteversion: deg(version), NeckShaft: deg(neckShaft)},
	}
}

func posture(flexion, adduction, internal float64) hip.Posture {
	return hip.Posture{Flexion: deg(flexion), Adduction: deg(adduction), InternalRotation: deg(internal)}
}

// usual is the hip of the tables: 32/12/180, cup 40/15, stem 15, neck-shaft 135.
func usual() Design { return plain(32, 12, 180, 40, 15, 15, 135) }

// columns of the tables, and the movement each limits.
var columns = []struct {
	name     string
	movement Movement
	flexion  float64
}{
	{"flexion", FlexionMovement, 0}, {"extension", Extension, 0}, {"abduction", Abduction, 0}, {"adduction", AdductionMovement, 0},
	{"ir0", Internal, 0}, {"er0", External, 0}, {"ir90", Internal, 90}, {"er90", External, 90},
}

// reach is how far a movement goes from a posture, counted in its direction.
func reach(d Design, m Movement, start hip.Posture) (unit.Angle, Limit) {
	path := m.Path(start, 180*unit.Degree, hip.APP)
	l := NewJoint(Hip{}, d).Limit(path)
	return m.Reading(path, l.At), l
}

func checkLimits(t *testing.T, name string, row map[string]string, d Design) {
	t.Helper()
	for _, c := range columns {
		want, there := row[c.name]
		if !there {
			continue
		}
		got, l := reach(d, c.movement, posture(c.flexion, 0, 0))
		if want == "" {
			if l.Status != StartsInContact {
				t.Errorf("%s: %s = %.2f° with status %d, want contact at the start", name, c.name, got.Degrees(), l.Status)
			}
			continue
		}
		if l.Status != Stopped {
			t.Errorf("%s: %s has status %d, want a limit at %s°", name, c.name, l.Status, want)
		}
		closeTo(t, name+": "+c.name, got, tabled(t, row, c.name), 0.0051)
	}
}

func TestLimitsOfStemmedHips(t *testing.T) {
	for _, row := range published(t, "limits.csv") {
		n := func(c string) float64 { return figure(t, row, c) }
		d := plain(n("head"), n("neck"), 180, n("ri"), n("ra"), n("at"), n("ccd"))
		checkLimits(t, fmt.Sprintf("%s/%s cup %s/%s stem %s/%s", row["head"], row["neck"], row["ri"], row["ra"], row["at"], row["ccd"]), row, d)
	}
}

func TestLimitsOfResurfacings(t *testing.T) {
	for _, row := range published(t, "resurfacing.csv") {
		n := func(c string) float64 { return figure(t, row, c) }
		d := plain(n("head"), n("neck"), n("arc"), n("ri"), n("ra"), 15, 135)
		checkLimits(t, fmt.Sprintf("resurfacing %s/%s/%s cup %s/%s", row["head"], row["neck"], row["arc"], row["ri"], row["ra"]), row, d)
	}
}

func TestMarginsOfCombinedPostures(t *testing.T) {
	j := NewJoint(Hip{}, usual())
	theta, _ := j.Aperture.Theta()
	closeTo(t, "theta", theta, deg(67.9757), 0.000051)
	for _, row := range published(t, "poses.csv") {
		p := posture(figure(t, row, "flexion"), figure(t, row, "adduction"), figure(t, row, "internal"))
		at := fmt.Sprintf("posture %s/%s/%s: ", row["flexion"], row["adduction"], row["internal"])
		closeTo(t, at+"margin", j.Margin(p), tabled(t, row, "margin"), 0.00051)
		closeTo(t, at+"angle of the axes", theta-j.Margin(p), tabled(t, row, "angle"), 0.00051)
		if c := j.Contact(p); (c.Margin - j.Margin(p)).Abs() > 1e-14 {
			t.Errorf("%sContact has margin %v, Margin says %v", at, c.Margin, j.Margin(p))
		}
	}
}

func TestGreatestRotations(t *testing.T) {
	for _, row := range published(t, "rotation.csv") {
		got, l := reach(usual(), movements[row["movement"]], posture(figure(t, row, "flexion"), figure(t, row, "adduction"), 0))
		if l.Status != Stopped {
			t.Errorf("%s rotation at flexion %s: status %d", row["movement"], row["flexion"], l.Status)
		}
		closeTo(t, fmt.Sprintf("%s rotation at flexion %s, adduction %s", row["movement"], row["flexion"], row["adduction"]), got, tabled(t, row, "limit"), 0.00051)
	}
}

func TestHowMuchADegreeBuys(t *testing.T) {
	change := map[string]func(*Design, unit.Angle){
		"theta": func(d *Design, by unit.Angle) { d.Rim.Arc -= 2 * by },
		"ra":    func(d *Design, by unit.Angle) { d.Cup.Anteversion += by },
		"ccd":   func(d *Design, by unit.Angle) { d.Stem.NeckShaft += by },
	}
	for _, row := range published(t, "sensitivity.csv") {
		for _, c := range columns {
			if c.name != row["limit"] {
				continue
			}
			more := usual()
			change[row["cause"]](&more, deg(1))
			before, _ := reach(usual(), c.movement, posture(c.flexion, 0, 0))
			after, _ := reach(more, c.movement, posture(c.flexion, 0, 0))
			got := (after - before).Degrees()
			if want := figure(t, row, "slope"); math.Abs(got-want) > 0.0051 {
				t.Errorf("%s per degree of %s: %.4f, want %.2f", c.name, row["cause"], got, want)
			}
		}
	}
}

// Kluess et al., Acta Orthop 2008;79:748-754: eight resurfacings, heads of 42
// to 54 mm in hemispherical cups; none reached 90° of flexion without contact,
// and they moved 31 to 48° less than a 32 mm stemmed hip. The counterpart in
// this model, with stem version 15 and neck-shaft angle 135, stays below 90°
// too; the greatest flexion is derived.
func TestNoResurfacingInAHemisphereReachesARightAngle(t *testing.T) {
	greatest, at := unit.Angle(0), ""
	for ratio := 1.10; ratio <= 1.2501; ratio += 0.01 {
		for ri := 40.0; ri <= 45; ri += 0.5 {
			for _, head := range []float64{42, 48, 54} {
				got, l := reach(plain(head, head/ratio, 180, ri, 15, 15, 135), FlexionMovement, hip.Neutral)
				if l.Status == Free || got >= 90*unit.Degree {
					t.Errorf("head %g, ratio %.2f, cup %g/15: flexion %.2f°, status %d; want contact before 90°", head, ratio, ri, got.Degrees(), l.Status)
				}
				if got > greatest {
					greatest, at = got, fmt.Sprintf("ratio %.2f, inclination %g", ratio, ri)
				}
			}
		}
	}
	closeTo(t, "greatest flexion, at "+at, greatest, deg(86.6), 0.051)
	for ratio, want := range map[float64][2]float64{1.2: {78.2, 50.5}, 1.25: {82.8, 45.9}, 1.3: {86.7, 42.0}} {
		got, _ := reach(plain(48, 48/ratio, 180, 40, 15, 15, 135), FlexionMovement, hip.Neutral)
		stemmed, _ := reach(usual(), FlexionMovement, hip.Neutral)
		closeTo(t, fmt.Sprintf("flexion of a resurfacing of ratio %g", ratio), got, deg(want[0]), 0.051)
		// The table's differences are those of rounded values.
		closeTo(t, fmt.Sprintf("what it lacks to a 32 mm stemmed hip, ratio %g", ratio), stemmed-got, deg(want[1]), 0.11)
	}
}

func TestAResurfacingOnAStemOfMoreVersionJustPassesARightAngle(t *testing.T) {
	for name, d := range map[string]Design{
		"stem version 20": plain(48, 48/1.25, 180, 45, 15, 20, 135), "neck-shaft angle 130": plain(48, 48/1.25, 180, 45, 15, 15, 130),
	} {
		if got, _ := reach(d, FlexionMovement, hip.Neutral); got < 90*unit.Degree || got > 95*unit.Degree {
			t.Errorf("%s, ratio 1.25, cup 45/15: flexion %.2f°, want just above 90°", name, got.Degrees())
		}
	}
}
