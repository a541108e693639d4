package present

import (
	"context"
	"strings"
	"testing"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

const deg = unit.Degree

// asking is a design asked for motions to some angles.
func asking(t testing.TB, d kinematics.Design, b kinematics.Bounds, list ...motion.Requirement) Serve {
	t.Helper()
	h := kinematics.Default().Hip
	j := kinematics.NewJoint(h, d)
	target, err := kinematics.FindTarget(context.Background(), kinematics.Search{Hip: h, Design: d, Required: list, Bounds: b})
	if err != nil {
		t.Fatal(err)
	}
	s := Serve{Required: list, Verdict: j.Judge(list, 5*deg), Cup: d.Cup, Known: true, Target: target}
	if target.Fits && target.Reachable {
		d.Cup = target.Constrained.Cup
		s.AtBest = kinematics.NewJoint(h, d).Judge(list, 5*deg)
	}
	return s
}

// asks is a motion through postures.
func asks(name string, p ...hip.Posture) motion.Requirement {
	return motion.Requirement{Key: strings.ToLower(name), Name: name, Paths: []motion.Path{motion.Through(hip.APP, p...)}}
}

func flexed(by float64) motion.Requirement {
	return asks("Bending", hip.Posture{Flexion: unit.Angle(by) * deg})
}

func turnedOut(by float64) motion.Requirement {
	return asks("Turning", hip.Posture{InternalRotation: -unit.Angle(by) * deg})
}

func spread(by float64) motion.Requirement {
	return asks("Spreading", hip.Posture{Adduction: -unit.Angle(by) * deg})
}

func usual() kinematics.Design { return kinematics.Default().Designs[0] }

func TestHowManyMotionsAreServedIsSaidWithTheRightNumber(t *testing.T) {
	for _, c := range []struct {
		list []motion.Requirement
		want string
	}{
		{nil, "No motion is required. Tick some, or choose a set of criteria."},
		{[]motion.Requirement{flexed(60)}, "Serves the one motion required, “Bending”, by "},
		{[]motion.Requirement{flexed(60), turnedOut(10)}, "Serves all 2 motions; the tightest is “"},
		{[]motion.Requirement{flexed(150)}, "Does not serve the one motion required: “Bending” is short by "},
		{[]motion.Requirement{flexed(150), turnedOut(10)}, "Serves 1 of 2 motions; “Bending” is short by "},
		{[]motion.Requirement{flexed(170), spread(80), turnedOut(10)}, ", and one more is short."},
		{[]motion.Requirement{flexed(170), spread(80), turnedOut(150)}, ", and 2 more are short."},
	} {
		got := English().Serves(asking(t, usual(), kinematics.Bounds{}, c.list...))
		if !strings.Contains(got, c.want) {
			t.Errorf("%q, want %q in it", got, c.want)
		}
	}
}

func TestWhatIsShortIsSaidInTheMovementThatStops(t *testing.T) {
	for want, r := range map[string]motion.Requirement{
		"° of flexion": flexed(150), "° of external rotation": turnedOut(150), "° of abduction": spread(80),
	} {
		if got := English().Serves(asking(t, usual(), kinematics.Bounds{}, r)); !strings.Contains(got, want) {
			t.Errorf("%q, want %q in it", got, want)
		}
	}
}

func TestMotionsNobodyKnowsAreCounted(t *testing.T) {
	s := asking(t, usual(), kinematics.Bounds{}, flexed(60))
	for lost, want := range map[int]string{1: "One motion of this case is not known here and was left out.", 3: "3 motions of this case are not known here and were left out."} {
		s.Lost = lost
		if got := English().Serves(s); !strings.HasSuffix(got, want) {
			t.Errorf("%q, want %q at its end", got, want)
		}
	}
	s.Lost = 0
	if got := English().Serves(s); strings.Contains(got, "left out") {
		t.Errorf("%q", got)
	}
}

func TestWhyNoCupPositionServesIsSaid(t *testing.T) {
	tight := usual()
	tight.Rim.HeadDiameter, tight.Neck.Diameter = 50, 44
	got := English().Aim(asking(t, tight, kinematics.Bounds{}, flexed(120), turnedOut(40), asks("Stretching", hip.Posture{Flexion: -30 * deg})))
	for _, want := range []string{"No cup position serves, because these motions need a total swing of ", "this bearing has ", " edge to edge", " and “"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q, want %q in it", got, want)
		}
	}
	got = English().Aim(asking(t, usual(), kinematics.Bounds{}, flexed(170), asks("Stretching", hip.Posture{Flexion: -60 * deg}), asks("Turning", hip.Posture{Flexion: -60 * deg, InternalRotation: 170 * deg})))
	if !strings.HasPrefix(got, "No cup position serves") {
		t.Errorf("%q", got)
	}
}

// An instruction never stands without what it costs.
func TestAChangeIsNeverNamedWithoutItsCost(t *testing.T) {
	named := 0
	for i := 20.0; i <= 60; i += 8 {
		for a := -10.0; a <= 35; a += 9 {
			d := usual()
			d.Cup.Inclination, d.Cup.Anteversion = unit.Angle(i)*deg, unit.Angle(a)*deg
			s := asking(t, d, kinematics.Bounds{}, flexed(110), turnedOut(30), spread(40))
			got := English().Aim(s)
			if !strings.Contains(got, "In this model ") {
				continue
			}
			named++
			if !strings.Contains(got, " loses ") && !strings.Contains(got, "no required motion loses by it") {
				t.Errorf("%.0f/%.0f: %q names no cost", i, a, got)
			}
			if (s.Target.Constrained.Cup.Anteversion > d.Cup.Anteversion) == strings.Contains(got, " less anteversion") && strings.Contains(got, "anteversion and") {
				t.Errorf("%.0f/%.0f: %q, the best is %.1f", i, a, got, s.Target.Constrained.Cup.Anteversion.Degrees())
			}
		}
	}
	if named < 10 {
		t.Errorf("only %d changes were named", named)
	}
}

func TestAChangeWithinTheScatterIsSaidToBe(t *testing.T) {
	s := asking(t, usual(), kinematics.Bounds{}, flexed(110), turnedOut(30), spread(40))
	const want = "That is within the scatter set for placement"
	if got := English().Aim(s); strings.Contains(got, want) {
		t.Errorf("without scatter: %q", got)
	}
	s.SD[kinematics.CupInclination], s.SD[kinematics.CupAnteversion] = 40*deg, 40*deg
	if got := English().Aim(s); !strings.Contains(got, want) {
		t.Errorf("within scatter: %q", got)
	}
}

func TestACupAtItsBestIsToldSo(t *testing.T) {
	s := asking(t, usual(), kinematics.Bounds{}, flexed(110), turnedOut(30), spread(40))
	d := usual()
	d.Cup = s.Target.Constrained.Cup
	got := English().Aim(asking(t, d, kinematics.Bounds{}, flexed(110), turnedOut(30), spread(40)))
	if !strings.HasPrefix(got, "No position within the bounds does better in this model") {
		t.Errorf("%q", got)
	}
}

func TestWhatTheBoundsCostIsSaid(t *testing.T) {
	b := kinematics.Bounds{Inclination: kinematics.Range{Least: 30 * deg, Most: 35 * deg}}
	list := []motion.Requirement{flexed(110), turnedOut(20), asks("Across", hip.Posture{Flexion: 90 * deg, Adduction: 20 * deg})}
	s := asking(t, usual(), b, list...)
	if s.Target.Cost() < 0.1*deg {
		t.Fatal("the bound costs nothing; the test needs another")
	}
	got := English().Aim(s)
	if !strings.Contains(got, "The bounds cost ") && !strings.Contains(got, "Without the bounds ") {
		t.Errorf("%q", got)
	}
	b = kinematics.Bounds{LeastJump: 60, Load: kinematics.Loads[0]}
	if got := English().Aim(asking(t, usual(), b, list...)); got != "No cup position keeps the bounds that are set." {
		t.Errorf("%q", got)
	}
}

func TestARowOfTheTableSaysWhereAMotionStops(t *testing.T) {
	list := []motion.Requirement{flexed(150), flexed(60)}
	list[0].Basis, list[1].Converted = motion.Assumed, true
	rows := English().OutcomeRows(list, kinematics.NewJoint(kinematics.Default().Hip, usual()).Judge(list, 5*deg))
	short, met := rows[0], rows[1]
	if short.Standing != kinematics.Short || !strings.HasPrefix(short.Margin, "−") || short.Clock == "" || short.Escape == "" || !short.Doubtful || !short.First {
		t.Errorf("%+v", short)
	}
	for _, want := range []string{"stops at ", "° flexion, ", " short, neck on rim at ", " o'clock; the head would be levered "} {
		if !strings.Contains(short.Detail, want) {
			t.Errorf("%q, want %q in it", short.Detail, want)
		}
	}
	if !strings.Contains(short.Basis, "not converted") || strings.Contains(met.Basis, "not converted") {
		t.Errorf("basis %q and %q", short.Basis, met.Basis)
	}
	if met.Clock != "" || met.Escape != "" || !strings.Contains(met.Detail, " mm clear") {
		t.Errorf("%+v", met)
	}
}

func TestTheContactPatchIsOnlyThatOfAResurfacing(t *testing.T) {
	w, d := English(), usual()
	has := func(d kinematics.Design) bool {
		for _, l := range w.StabilityLines(kinematics.NewJoint(kinematics.Default().Hip, d), d) {
			if strings.HasPrefix(l.Key, "patch") {
				return true
			}
		}
		return false
	}
	if has(d) {
		t.Error("a stemmed design has a contact patch")
	}
	d.Bearing = kinematics.Resurfacing
	if !has(d) {
		t.Error("a resurfacing has none")
	}
}

func TestTotalsFromMemorySaySo(t *testing.T) {
	n := 0
	for _, l := range English().StabilityLines(kinematics.NewJoint(kinematics.Default().Hip, usual()), usual()) {
		if strings.HasPrefix(l.Key, "total") {
			n++
			if !strings.Contains(l.Value, "from memory") {
				t.Errorf("%+v", l)
			}
		}
	}
	if n != 3 {
		t.Errorf("%d total arcs", n)
	}
}

func TestAShareIsGivenWithItsErrorAndNeverCalledSuccess(t *testing.T) {
	list := []motion.Requirement{flexed(110), turnedOut(30)}
	share, err := kinematics.Placement(context.Background(), kinematics.Simulation{Scatter: kinematics.UsualScatter,
		Search: kinematics.Search{Hip: kinematics.Default().Hip, Design: usual(), Required: list}})
	if err != nil {
		t.Fatal(err)
	}
	lines := English().ShareLines(list, share)
	if !strings.Contains(lines[0].Value, " % ± ") || !strings.Contains(lines[0].Value, "standard error") || !strings.Contains(lines[0].Value, "8192") {
		t.Errorf("%q", lines[0].Value)
	}
	for _, l := range lines {
		if strings.Contains(strings.ToLower(l.Name+l.Value), "success") {
			t.Errorf("%+v", l)
		}
	}
	if len(lines) < 1+int(kinematics.VariableCount)+1 {
		t.Errorf("%d lines", len(lines))
	}
}
