package kinematics

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// A motion that just grazes the rim: the cup's arc is chosen so that the least
// margin on the way is as wanted. By rule a margin of 1e-9° or less is contact;
// closed form and search must tell graze from gap wherever the margin is at
// least twice that away from it, in either direction.
func TestAGrazeIsContactAndANarrowGapIsNone(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 62))
	told := map[Status]int{}
	for range 400 {
		d := randomPlain(r)
		start := randomPosture(r)
		angle := hip.JointAngle(r.IntN(3))
		path := motion.Sweep(start, angle, start.Angle(angle)+deg(200+150*r.Float64()), hip.APP)
		least, at := leastOn(NewJoint(Hip{}, d), path)
		if at < 0.05 || at > 0.95 {
			continue // not a graze: the margin is least at an end
		}
		wanted := math.Pow(10, -3-5*r.Float64()) // degrees
		if r.IntN(2) == 0 {
			wanted = -wanted
		}
		d.Rim.Arc += 2 * (least - deg(wanted))
		if d.Rim.Arc < deg(60) || d.Rim.Arc > deg(300) {
			continue
		}
		j := NewJoint(Hip{}, d)
		closed := j.Limit(path)
		began := time.Now()
		search, ended := searched(j, path)
		if took := time.Since(began); ended && took > time.Second {
			t.Fatalf("least margin %.3g°: the search takes %v", wanted, took)
		}
		if !ended {
			t.Fatalf("least margin %.3g°: the search does not end", wanted)
		}
		told[closed.Status]++
		if want := wanted > 0; (closed.Status == Free) != want || (search.Status == Free) != want {
			t.Errorf("least margin %.3g° at %.4f of the way: closed %s, searched %s", wanted, at, brief(closed), brief(search))
			continue
		}
		if closed.Status == Stopped {
			compare(t, j, path)
			for _, l := range []Limit{closed, search} {
				if m := l.Contact.Margin.Degrees(); math.Abs(m) > 2.1e-9 {
					t.Errorf("least margin %.3g°: stops at a margin of %.3g°", wanted, m)
				}
			}
		}
	}
	if told[Free] < 50 || told[Stopped] < 50 {
		t.Errorf("seen by status %v: the test asks too little", told)
	}
}

// leastOn returns the least margin on a leg and its place, by sampling and
// narrowing.
func leastOn(j Joint, m motion.Path) (least unit.Angle, at float64) {
	margin := func(x float64) unit.Angle {
		return j.Aperture.Nearest(j.pose(m.At(motion.Place{Fraction: x}), m.Zero)).Margin
	}
	least = unit.Angle(math.Inf(1))
	for i := range 401 {
		if v := margin(float64(i) / 400); v < least {
			least, at = v, float64(i)/400
		}
	}
	for h := 1.0 / 400; h > 1e-10; h *= 0.7 {
		for _, x := range []float64{at - h/2, at + h/2} {
			if v := margin(math.Max(0, math.Min(1, x))); v < least {
				least, at = v, math.Max(0, math.Min(1, x))
			}
		}
	}
	return least, at
}

func TestAHipHeldJustPastItsLimitIsInContact(t *testing.T) {
	j := NewJoint(Hip{}, usual())
	p := FlexionMovement.Path(hip.Neutral, 180*unit.Degree, hip.APP)
	past := j.Limit(p).Posture
	past.Flexion += deg(2e-9) // where a limit is placed the margin is 1e-9°, give or take rounding
	held := motion.Path{Waypoints: []hip.Posture{past, past}}
	for name, got := range map[string]Limit{"closed": j.Limit(held), "searched": j.SearchedLimit(held)} {
		if got.Status != StartsInContact {
			t.Errorf("%s: a hip held just past its limit has status %d, want contact at the start", name, got.Status)
		}
	}
	back := motion.Path{Waypoints: []hip.Posture{past, hip.Neutral}}
	for name, got := range map[string]Limit{"closed": j.Limit(back), "searched": j.SearchedLimit(back)} {
		if got.Status != StartsInContact || len(got.Intervals) != 1 || got.Intervals[0].To.Fraction > 1e-6 {
			t.Errorf("%s: going back from there: %s, want contact at the very start alone", name, brief(got))
		}
	}
}

func TestAPathOfOnePostureIsFreeOrInContact(t *testing.T) {
	j := NewJoint(Hip{}, usual())
	for _, c := range []struct {
		p    hip.Posture
		want Status
	}{{hip.Neutral, Free}, {posture(150, 0, 0), StartsInContact}} {
		l := j.Limit(motion.Path{Waypoints: []hip.Posture{c.p}})
		if l.Status != c.want || l.Posture != c.p {
			t.Errorf("held at %+v: status %d, want %d", c.p, l.Status, c.want)
		}
	}
}

func TestIntervalsGoOnFromLegToLeg(t *testing.T) {
	j := NewJoint(Hip{}, usual())
	// Into contact by flexion, turning about in contact, and out again.
	m := motion.Path{Waypoints: []hip.Posture{hip.Neutral, posture(140, 0, 0), posture(140, 0, 5), posture(60, 0, 5)}}
	for name, l := range map[string]Limit{"closed": j.Limit(m), "searched": j.SearchedLimit(m)} {
		if len(l.Intervals) != 1 || l.Intervals[0].From.Leg != 0 || l.Intervals[0].To.Leg != 2 {
			t.Errorf("%s: %s, want one contact from the first leg to the third", name, brief(l))
		}
		if l.Status != Stopped || l.Moving != hip.Flexion {
			t.Errorf("%s: status %d, moving %d", name, l.Status, l.Moving)
		}
	}
}
