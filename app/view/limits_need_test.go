package view

import (
	"math"
	"strings"
	"testing"

	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
)

// asking is an Explore of the default case with a set of criteria and motions.
func asking(t *testing.T, criteria string, motions ...string) *stage {
	e := open(t, 1280, 776)
	e.Session.Edit(session.Step{Key: "criteria", Design: -1}, func(c *kinematics.Case) {
		c.Goal.Criteria, c.Goal.Motions = criteria, kinematics.JoinMotions(motions...)
	})
	return e
}

// A mark is right if it says what its ruler answers: the motion is free just
// where the ruler's limit lies beyond the mark.
func TestARulersMarkIsMetJustWhereTheMotionIsFree(t *testing.T) {
	e := asking(t, "severe", "sit_at_ease", "about_to_rise", "stride_behind", "lie_turned_out", "low_chair", "stoop", "posterior_test")
	limits, tried := e.answers.limits, map[bool]int{}
	for _, tilt := range []float64{0, -7, 4} {
		for _, neck := range []float64{12, 22, 28} {
			e.Session.Set(kinematics.ParameterByKey("tilt_standing_deg"), tilt)
			e.Session.Set(kinematics.ParameterByKey("neck_diameter_mm"), neck)
			s := e.Session.Now()
			if limits.needs.far || len(limits.needs.list) == 0 {
				t.Fatalf("tilt %v: no motion has a mark", tilt)
			}
			for _, n := range limits.needs.list {
				i := n.line.low
				if n.high {
					i = n.line.high
				}
				a := s.Joint.Answer(s.Case.Hip, kinematics.Questions[i])
				free := true
				for _, p := range n.of.Paths {
					free = free && s.Joint.On(p).Limit(p).Status == kinematics.Free
				}
				met := a.Reached && a.Reading >= n.at
				if math.Abs((a.Reading - n.at).Degrees()) < 0.1 {
					continue
				}
				tried[free]++
				if met != free {
					t.Errorf("tilt %v, neck %v: %s has a mark at %.1f° of %s; met %v, the motion free %v",
						tilt, neck, limits.nameOf(n.of), n.at.Degrees(), a.Question.Key, met, free)
				}
			}
		}
	}
	if tried[true] < 5 || tried[false] < 5 {
		t.Errorf("met %d times and missed %d times: the test shows too little", tried[true], tried[false])
	}
}

// Motions that turn several angles, or are not at the ruler's own flexion, have
// no mark.
func TestNoMarkStandsForAMotionThatLeavesItsRuler(t *testing.T) {
	e := asking(t, "severe", "low_chair", "shoe_on_floor", "leg_crossed")
	l := e.answers.limits
	for _, n := range l.needs.list {
		if n.of.Kind != motion.OfCriterion {
			t.Errorf("%s has a mark", n.of.Key)
		}
	}
	if got := len(l.needs.list); got != 4 {
		t.Errorf("%d marks, want those of the four criteria", got)
	}
	// With the pelvis tilted the rulers count flexion from elsewhere: rotation at
	// 90° from the pelvis is no longer at 90° of the ruler.
	e.Session.Set(kinematics.ParameterByKey("tilt_standing_deg"), -6)
	for _, n := range l.needs.list {
		if n.line.joint != hip.Flexion {
			t.Errorf("%s keeps its mark on a ruler of %v", n.of.Key, n.line.joint)
		}
	}
	s := e.Session.Now()
	want := 120 - s.Case.Hip.Tilts.Of(s.Case.Hip.PosturePlane).Degrees()
	for _, n := range l.needs.list {
		if n.high && math.Abs(n.at.Degrees()-want) > 1e-9 {
			t.Errorf("flexion of 120° from the pelvis is marked at %.2f°, want %.2f° as the ruler counts", n.at.Degrees(), want)
		}
	}
}

func TestHollowMarksStandOnlyWhereNoMotionIsSimple(t *testing.T) {
	e := asking(t, "", "low_chair", "extension_turned_out")
	e.rest()
	l := e.answers.limits
	if !l.needs.far || len(l.needs.list) != 2 {
		t.Fatalf("marks %v, want two hollow ones", l.needs.list)
	}
	for _, n := range l.needs.list {
		if n.line.joint != hip.Flexion || n.high && math.Abs(n.at.Degrees()-115) > 1e-9 {
			t.Errorf("mark of %s at %v", n.of.Key, n.at.Degrees())
		}
	}
	if text := l.needed(l.lines[0], true, "x"); !strings.Contains(text, "115°") || !strings.Contains(text, "Low chair") || !strings.Contains(text, "5° abduction") {
		t.Errorf("the pointer is told %q", text)
	}
	e.Session.Edit(session.Step{Key: "criteria", Design: -1}, func(c *kinematics.Case) { c.Goal.Criteria = "daily_minimum" })
	if l.needs.far || len(l.needs.list) != 3 {
		t.Errorf("with criteria that are simple the marks are %v", l.needs.list)
	}
}

func TestAHollowNeedleIsExplained(t *testing.T) {
	e := open(t, 1280, 776)
	s := e.Session.Now()
	l := e.answers.limits
	why := e.Words.Phrase("joint_needle_hollow")
	if strings.Contains(l.hinted(s, l.lines[0], true, "x"), why) {
		t.Error("a needle on its line is said to be hollow")
	}
	goTo(e.Session, hip.Posture{Flexion: degrees(30), Adduction: degrees(10)})
	if text := l.hinted(e.Session.Now(), l.lines[0], true, "x"); !strings.Contains(text, why) {
		t.Errorf("the pointer is told %q", text)
	}
	if l.legend().Off == "" {
		t.Error("the legend does not say what a hollow needle is")
	}
}
