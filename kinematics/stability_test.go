package kinematics_test

import (
	"math"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	. "rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/sphere"
	"rimclear/kinematics/tabletest"
	"rimclear/kinematics/unit"
)

func degrees(x float64) unit.Angle { return unit.Angle(x) * unit.Degree }

// table reads a published table, in numbers; empty cells are NaN.
func table(t testing.TB, name string) []map[string]float64 {
	t.Helper()
	var rows []map[string]float64
	for _, line := range tabletest.Published(t, name) {
		row := map[string]float64{}
		for column, cell := range line {
			x, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				x = math.NaN()
			}
			row[column] = x
		}
		rows = append(rows, row)
	}
	return rows
}

// about reports a number that is not within a tolerance of the one wanted.
func about(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if d := got - want; !(d >= -tolerance && d <= tolerance) {
		t.Errorf("%s = %.6f, want %.6f within %g", what, got, want, tolerance)
	}
}

func cupAt(ri, ra float64) Cup { return Cup{Inclination: degrees(ri), Anteversion: degrees(ra)} }

func axisAt(ri, ra float64) r3.Vec {
	return hip.Radiographic{Inclination: degrees(ri), Anteversion: degrees(ra)}.Axis()
}

// standing returns a design's stability under a load in the coronal plane of
// standing, with the pelvis upright.
func standing(d Design, medial float64) Stability {
	l := Loads[0]
	l.Medial = degrees(medial)
	return NewJoint(Hip{}, d).Stability(d, l, CobaltChrome)
}

func TestJumpDistancesOfSariali(t *testing.T) {
	for _, row := range table(t, "jump.csv") {
		arc := degrees(180) - 2*unit.Angle(math.Asin(row["off"]/(row["head"]/2)))
		got := LateralJump(row["head"]/2, arc, hip.Radiographic{Inclination: degrees(row["inclination"])})
		// Sariali's centre lies outside the opening by off; an arc that puts it
		// there is A = 180 - 2 asin(off/R).
		about(t, "jump distance", got, row["jump"], 0.006)
	}
	for _, row := range table(t, "jump_arc.csv") {
		got := LateralJump(row["head"]/2, degrees(row["arc"]), hip.Radiographic{Inclination: degrees(row["inclination"])})
		about(t, "jump distance under an arc", got, row["jump"], 0.006)
	}
}

func TestPlacedCupHasTheLateralJumpOfTheFormula(t *testing.T) {
	for _, arc := range []float64{150, 168, 180, 190} {
		for ri := 10.0; ri <= 70; ri += 15 {
			for ra := -20.0; ra <= 40; ra += 15 {
				d := bearing(36, 12, arc)
				d.Cup = cupAt(ri, ra)
				s := standing(d, 0)
				about(t, "lateral jump", s.LateralJump, LateralJump(18, degrees(arc), s.Functional), 1e-9)
				if s.LeastJump > s.LateralJump+1e-9 {
					t.Errorf("least jump %.3f mm is above the lateral one, %.3f mm", s.LeastJump, s.LateralJump)
				}
				about(t, "least jump", s.LeastJump, Jump(18, degrees(arc)/2-s.Psi), 1e-9)
			}
		}
	}
}

func TestSarialisFiveTrends(t *testing.T) {
	want, tolerance := map[string]float64{}, map[string]float64{}
	for _, row := range tabletest.Published(t, "jump_trend.csv") {
		want[row["trend"]], _ = strconv.ParseFloat(row["per_unit"], 64)
		tolerance[row["trend"]], _ = strconv.ParseFloat(row["tolerance"], 64)
	}
	jump := func(head, off, inclination float64) float64 {
		arc := degrees(180) - 2*unit.Angle(math.Asin(off/(head/2)))
		return LateralJump(head/2, arc, hip.Radiographic{Inclination: degrees(inclination)})
	}
	anatomic := func(anteversion float64) float64 {
		n := hip.Anatomic{Inclination: degrees(45), Anteversion: degrees(anteversion)}.Axis()
		return LateralJump(16, degrees(180), hip.Radiographic{Inclination: hip.RadiographicOf(n).Inclination})
	}
	got := map[string]float64{
		"inclination_32": (jump(32, 0, 80) - jump(32, 0, 0)) / 80,
		"anteversion_32": (anatomic(40) - anatomic(0)) / 40,
		"diameter_at_45": jump(33, 0, 45) - jump(32, 0, 45),
		"diameter_at_60": jump(33, 0, 60) - jump(32, 0, 60),
		"offset":         (jump(32, 0.01, 45) - jump(32, -0.01, 45)) / 0.02,
	}
	for trend, w := range want {
		about(t, trend, got[trend], w, tolerance[trend])
	}
}

func TestContactPatchDistances(t *testing.T) {
	for _, row := range table(t, "patch.csv") {
		d := bearing(row["head"], row["head"]-6, row["arc"])
		d.Bearing, d.Cup = Resurfacing, cupAt(row["ri"], row["ra"])
		s := standing(d, 10)
		if !math.IsNaN(row["psi"]) {
			about(t, "psi", s.Psi.Degrees(), row["psi"], 0.006)
		}
		about(t, "patch to rim", s.Patch.Centre, row["patch"], 0.006)
		about(t, "patch to rim by formula", row["head"]/2*float64(degrees(row["arc"])/2-s.Psi), s.Patch.Centre, 1e-9)
	}
}

func TestContactPatchRadii(t *testing.T) {
	for _, row := range table(t, "hertz.csv") {
		c := CobaltChrome
		c.Clearance = row["clearance"]
		about(t, "patch radius", c.PatchRadius(row["head"]), row["radius"], 0.0006)
	}
}

func TestNothingIsSaidOfTheContactPatchOfAPolyethyleneLiner(t *testing.T) {
	d := bearing(36, 12, 180)
	d.Cup = cupAt(45, 15)
	if p := standing(d, 10).Patch; p != (Patch{}) {
		t.Errorf("patch of a fixed liner = %+v, want none", p)
	}
}

func TestALipRaisesTheJumpDistanceWhereItStandsAndOnlyThere(t *testing.T) {
	d := bearing(32, 12, 180)
	d.Cup = cupAt(45, 15)
	bare := standing(d, 10)
	d.Rim.Lips[0] = implant.Lip{Height: degrees(15), Centre: bare.LeastAzimuth, Plateau: degrees(90), Ramp: degrees(20)}
	if lipped := standing(d, 10); lipped.LeastJump <= bare.LeastJump+1 {
		t.Errorf("least jump %.2f mm with a lip at the weak place, %.2f mm without", lipped.LeastJump, bare.LeastJump)
	}
	d.Rim.Lips[0].Centre += degrees(180)
	about(t, "least jump with the lip opposite", standing(d, 10).LeastJump, bare.LeastJump, 1e-9)
}

func TestPosteriorTiltInSittingLowersTheStandingCupsCover(t *testing.T) {
	h := Hip{Tilts: hip.Tilts{RelaxedSitting: degrees(-22)}}
	d := bearing(36, 12, 180)
	d.Cup = cupAt(45, 15)
	j := NewJoint(h, d)
	up, down := j.Stability(d, Loads[0], CobaltChrome), j.Stability(d, Loads[1], CobaltChrome)
	about(t, "anteversion standing", up.Functional.Anteversion.Degrees(), 15, 1e-9)
	// sin RA' = sin RA cos t + cos RA cos RI sin t (Murray's definitions).
	want := math.Asin(math.Sin(15*math.Pi/180)*math.Cos(22*math.Pi/180) + math.Cos(15*math.Pi/180)*math.Cos(math.Pi/4)*math.Sin(22*math.Pi/180))
	about(t, "anteversion seated", down.Functional.Anteversion.Degrees(), want*180/math.Pi, 1e-9)
	if down.LeastJump >= up.LeastJump {
		t.Errorf("least jump seated %.2f mm, standing %.2f mm: the seated cup opens more to the load", down.LeastJump, up.LeastJump)
	}
}

func TestAForcedTurnLiftsTheHeadTowardsTheOppositeRim(t *testing.T) {
	d := bearing(32, 12, 180)
	d.Cup = cupAt(40, 15)
	d.Stem = stemAt(15, 135)
	j := NewJoint(Hip{}, d)
	w := Loads[0].InAPP(hip.Tilts{})
	for _, m := range []Movement{AdductionMovement, FlexionMovement, External} {
		l := j.Limit(m.Path(hip.Neutral, degrees(180), hip.APP))
		before := j.EscapeJump(l.Contact, w)
		for _, v := range j.Levers(l.Contact, w) {
			about(t, "travel", v.Travel, 2*r3.Norm(l.Contact.RimPoint)*(v.Turn/2).Sin(), 1e-9)
			if v.Barrier >= before {
				t.Errorf("movement %d: barrier %.2f mm after %.0f°, %.2f mm before", m, v.Barrier, v.Turn.Degrees(), before)
			}
			before = v.Barrier
		}
	}
}

func TestAdductionLeversTheHeadOutSuperiorly(t *testing.T) {
	d := bearing(32, 12, 180)
	d.Cup, d.Stem = cupAt(40, 15), stemAt(15, 135)
	l := NewJoint(Hip{}, d).Limit(AdductionMovement.Path(hip.Neutral, degrees(89), hip.APP))
	if l.Contact.Escape.Y <= 0 {
		t.Errorf("escape %v: must be superior", l.Contact.Escape)
	}
	if off := sphere.Between(r3.Unit(l.Contact.Escape), r3.Vec{Y: 1}).Degrees(); off > 60 {
		t.Errorf("escape is %.0f° off superior", off)
	}
}

func TestTotalArcsAreTheSumsOfBothLimits(t *testing.T) {
	d := bearing(32, 12, 180)
	d.Cup, d.Stem = cupAt(40, 15), stemAt(15, 135)
	totals := NewJoint(Hip{}, d).Totals()
	// The limits of limits.csv, first row: 128.71 + 61.13, 59.58 + 67.60, 145.79 + 70.53.
	for i, want := range []float64{189.84, 127.18, 216.32} {
		about(t, totals[i].Key, totals[i].Arc.Degrees(), want, 0.02)
		if !totals[i].Basis.Doubtful() {
			t.Errorf("%s: the standard's figure is from memory and must be marked so", totals[i].Key)
		}
	}
}
