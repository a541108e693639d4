package kinematics

import (
	"bytes"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"rimclear/assets"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// closeness is what a case has by default.
var closeness = unit.Angle(ParameterByKey("closeness_deg").Default) * unit.Degree

// library is the built-in activities and criteria sets.
func library(t testing.TB) motion.Library {
	t.Helper()
	var all motion.Library
	for _, data := range assets.Activities() {
		l, err := motion.Read(bytes.NewReader(data))
		if err == nil {
			all, err = all.With(l)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	return all
}

// everything asks for all of the library.
func everything(t testing.TB, s motion.Setting) []motion.Requirement {
	l := library(t)
	var list []motion.Requirement
	for _, a := range l.Activities {
		list = append(list, a.Requirement(s))
	}
	for _, c := range l.Criteria {
		list = append(list, c.Requirements()...)
	}
	return list
}

// flexing asks for flexion to an angle.
func flexing(to unit.Angle) []motion.Requirement {
	s := motion.CriteriaSet{}.With(motion.Flexion, motion.Stated{Angle: to})
	return s.Requirements()
}

func TestAMotionBeyondItsLimitIsShortByWhatIsMissing(t *testing.T) {
	j := NewJoint(Hip{}, usual())
	limit, _ := reach(usual(), FlexionMovement, hip.Neutral)
	for by, want := range map[float64]Standing{1e-6: Short, 1: Short, -1: Close, -30: Met} {
		v := j.Judge(flexing(limit+deg(by)), closeness)
		o := v.Outcomes[0]
		if o.Standing != want {
			t.Errorf("flexion to %g° past its limit is %s, want %s", by, o.Standing.Key(), want.Key())
		}
		if want == Short {
			if d := o.Missing.Degrees() - by; math.Abs(d) > 1e-8 {
				t.Errorf("%g° past the limit, %.9f° are missing", by, o.Missing.Degrees())
			}
			if (o.Limit.Angle-limit).Abs() > deg(1e-9) || o.Contact.Margin > 2*Touch {
				t.Errorf("stops at %.9f°, want %.9f°", o.Limit.Angle.Degrees(), limit.Degrees())
			}
		}
	}
}

func TestAMarginBelowWhatTheUserWantsIsClose(t *testing.T) {
	j := NewJoint(Hip{}, usual())
	margin := j.Judge(flexing(deg(110)), 0).Outcomes[0].Least.Margin
	for closeness, want := range map[unit.Angle]Standing{margin - deg(1e-6): Met, margin + deg(1e-6): Close} {
		if got := j.Judge(flexing(deg(110)), closeness).Outcomes[0].Standing; got != want {
			t.Errorf("margin %.3f° under a closeness of %.3f° is %s, want %s", margin.Degrees(), closeness.Degrees(), got.Key(), want.Key())
		}
	}
}

func TestAResurfacingThatStopsBeforeARightAngleIsNotTriedInRotation(t *testing.T) {
	j := NewJoint(Hip{}, plain(50, 44, 168, 40, 15, 15, 135))
	s := motion.CriteriaSet{}.With(motion.InternalAt90, motion.Stated{Angle: deg(30)})
	o := j.Judge(s.Requirements(), closeness).Outcomes[0]
	if o.Standing != Short || o.Reached || o.Limit.At.Leg != 0 {
		t.Errorf("outcome %+v, want short on the first leg", o)
	}
	if want := 90 - 79.27; math.Abs(o.Missing.Degrees()-want) > 0.01 {
		t.Errorf("%.3f° of flexion are missing, want %.2f (limit 79.27)", o.Missing.Degrees(), want)
	}
}

func TestAMotionIsShortExactlyWhenOneOfItsPathsStops(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 6))
	h := Hip{Tilts: motion.NormalMobility.Tilts(motion.MeanStanding)}
	list := everything(t, motion.Setting{Tilts: h.Tilts, Mechanical: motion.UsualMechanical})
	count := [StandingCount]int{}
	for range 25 {
		j := NewJoint(h, wanderingDesign(r))
		v := j.Judge(list, closeness)
		for i, o := range v.Outcomes {
			count[o.Standing]++
			if list[i].Open {
				continue
			}
			stops := false
			for _, p := range list[i].Paths {
				stops = stops || j.Limit(p).Status != Free
			}
			if stops != (o.Standing == Short) {
				t.Errorf("%s %s is %s; a path stops: %v", list[i].Set, list[i].Key, o.Standing.Key(), stops)
			}
			if least := j.On(list[i].Paths[o.Path]).Margin(o.Least.Posture); (least - o.Least.Margin).Abs() > 1e-12 {
				t.Errorf("%s: margin %.9f° at the least place, want %.9f°", list[i].Key, least.Degrees(), o.Least.Margin.Degrees())
			}
			if o.Least.Margin < v.Outcomes[v.First].Least.Margin {
				t.Errorf("%s has less margin than the motion said to fail first", list[i].Key)
			}
		}
	}
	for s, n := range count {
		if n == 0 {
			t.Errorf("no outcome is %s: %v", Standing(s).Key(), count)
		}
	}
}

func TestTheMarginIsTheErrorOfTheCupAxisThatIsTolerated(t *testing.T) {
	set, _ := library(t).Set("ordinary")
	list := set.Requirements()
	rapid.Check(t, func(t *rapid.T) {
		d := anyPlain(t)
		v := NewJoint(Hip{}, d).Judge(list, 0)
		margin := v.Outcomes[v.First].Least.Margin
		if margin < deg(0.5) {
			return
		}
		n := hip.AxisBy(d.Cup.Definition, d.Cup.Inclination, d.Cup.Anteversion)
		across := r3.Unit(r3.Cross(n, r3.Vec{X: 0.3, Y: 0.5, Z: -0.8}))
		worst := deg(1)
		for k := range 72 {
			toward := r3.Rotate(across, float64(k)*math.Pi/36, n)
			erred := margin - deg(0.001)
			s, c := erred.Sincos()
			moved := d
			moved.Cup.Inclination, moved.Cup.Anteversion = hip.AnglesBy(d.Cup.Definition, r3.Add(r3.Scale(c, n), r3.Scale(s, toward)))
			w := NewJoint(Hip{}, moved).Judge(list, 0)
			if !w.Serves() {
				t.Fatalf("margin %.4f°, but a smaller error of the cup axis fails %s", margin.Degrees(), list[w.First].Key)
			}
			worst = min(worst, w.Outcomes[w.First].Least.Margin)
		}
		if worst > deg(0.05) {
			t.Fatalf("no error of the cup axis by the margin uses it up: %.4f° are left", worst.Degrees())
		}
	})
}

func TestAnteversionBuysPosteriorMarginAndSellsAnterior(t *testing.T) {
	set, _ := library(t).Set("severe")
	list := set.Requirements()
	var before Verdict
	for i, anteversion := range []float64{5, 15, 25} {
		d := usual()
		d.Cup.Anteversion = deg(anteversion)
		v := NewJoint(Hip{}, d).Judge(list, closeness)
		if !v.Posterior.Known || !v.Anterior.Known || list[v.Posterior.Motion].Risk != motion.Posterior {
			t.Fatalf("verdict %+v", v)
		}
		if i > 0 && !(v.Posterior.Margin > before.Posterior.Margin && v.Anterior.Margin < before.Anterior.Margin) {
			t.Errorf("anteversion %g°: posterior %.2f°, anterior %.2f°; before %.2f° and %.2f°", anteversion,
				v.Posterior.Margin.Degrees(), v.Anterior.Margin.Degrees(), before.Posterior.Margin.Degrees(), before.Anterior.Margin.Degrees())
		}
		before = v
	}
}

func TestWidmersLineMeetsItsOwnCriteriaAtEveryStemVersion(t *testing.T) {
	set, _ := library(t).Set("strict")
	for version, anteversion := range map[float64]float64{0: 37.3, 10: 30.3, 15: 26.8, 20: 23.3, 30: 16.3} {
		v := NewJoint(Hip{}, plain(32, 12, 180, 42.5, anteversion, version, 135)).Judge(set.Requirements(), closeness)
		if !v.Serves() {
			t.Errorf("stem version %g, cup anteversion %g: %v", version, anteversion, v.Count)
		}
	}
}

func TestAProvocativeManoeuvreIsAskedAndNeverFailed(t *testing.T) {
	grid, _ := library(t).Activity("flexion_adduction_grid")
	v := NewJoint(Hip{}, usual()).Judge([]motion.Requirement{grid.Requirement(motion.Setting{})}, closeness)
	o := v.Outcomes[0]
	if o.Standing != Asked || v.First != -1 || v.Serves() || o.Missing != 0 {
		t.Errorf("verdict %+v", v)
	}
	// The least of the grid is at most flexion and adduction: 110 and 20.
	p := grid.Paths(motion.Setting{})[o.Path]
	if last := p.Waypoints[len(p.Waypoints)-1]; (last.Flexion-deg(110)).Abs() > 1e-12 || (last.Adduction-deg(20)).Abs() > 1e-12 {
		t.Errorf("it goes least far at flexion %g°, adduction %g°", last.Flexion.Degrees(), last.Adduction.Degrees())
	}
}

func TestTiltMovesMotionsOfTheRoomAndNoOthers(t *testing.T) {
	l := library(t)
	sit, _ := l.Activity("about_to_rise")
	stoop, _ := l.Activity("stoop")
	margin := func(flexed float64, a motion.Activity) float64 {
		h := Hip{Tilts: hip.Tilts{FlexedSitting: deg(flexed)}}
		list := []motion.Requirement{a.Requirement(motion.Setting{Tilts: h.Tilts})}
		return NewJoint(h, usual()).Judge(list, closeness).Outcomes[0].Least.Margin.Degrees()
	}
	if back, forward := margin(-20, sit), margin(20, sit); !(back > forward+5) {
		t.Errorf("rising with the pelvis rolled back has margin %.2f°, rolled forward %.2f°", back, forward)
	}
	if a, b := margin(-20, stoop), margin(20, stoop); a != b {
		t.Errorf("a motion of the pelvis has margin %.9f° or %.9f° by tilt", a, b)
	}
}

func TestWhatIsMissingOfARecordingRunsToThePeak(t *testing.T) {
	p := motion.Path{Waypoints: []hip.Posture{{}, posture(40, 0, 0), posture(80, 0, 0), posture(80, 5, 0), posture(150, 5, 0), posture(20, 0, 0)}}
	for leg, want := range []float64{150, 150, 5, 150} {
		moving, _ := p.Moving(leg)
		if got := target(p, leg, moving); math.Abs(got.Degrees()-want) > 1e-9 {
			t.Errorf("on leg %d the target is %g°, want %g", leg, got.Degrees(), want)
		}
	}
}

func BenchmarkJudge(b *testing.B) {
	list := everything(b, motion.Setting{})
	j := NewJoint(Hip{}, usual())
	for range b.N {
		j.Judge(list, closeness)
	}
}
