package playback

import (
	"math"
	"os"
	"testing"
	"time"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

const deg = unit.Degree

// clock stands still until it is moved.
type clock struct{ now time.Time }

func (c *clock) time() time.Time { return c.now }

func (c *clock) wait(s float64) { c.now = c.now.Add(time.Duration(s * float64(time.Second))) }

func bend() Clip {
	return Paced(motion.Through(hip.APP, hip.Posture{Flexion: 90 * deg}, hip.Posture{Flexion: 90 * deg, InternalRotation: 45 * deg}))
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9 {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

func TestAMotionTakesAsLongAsItsAngles(t *testing.T) {
	c := bend()
	near(t, "duration", c.Duration(), 3)
	near(t, "flexion after one second", c.Path.At(c.Place(1)).Flexion.Degrees(), 45)
	near(t, "rotation after two and a half", c.Path.At(c.Place(2.5)).InternalRotation.Degrees(), 22.5)
	for _, s := range []float64{0, 0.3, 2, 2.9, 3} {
		near(t, "time there and back", c.Time(c.Place(s)), s)
	}
	near(t, "flexion before the start", c.Path.At(c.Place(-1)).Flexion.Degrees(), 0)
	near(t, "rotation after the end", c.Path.At(c.Place(9)).InternalRotation.Degrees(), 45)
}

func TestPlayingGoesByTheClockAndStopsAtTheEnd(t *testing.T) {
	k := &clock{}
	p := NewPlayer(k.time)
	p.Load(bend())
	k.wait(5)
	near(t, "time before it plays", p.Time(), 0)
	p.Play()
	k.wait(1)
	near(t, "time after a second", p.Time(), 1)
	p.Pause()
	k.wait(1)
	near(t, "time in a pause", p.Time(), 1)
	p.SetSpeed(0.25)
	p.Play()
	k.wait(2)
	near(t, "time after two slow seconds", p.Time(), 1.5)
	p.Seek(2.9)
	k.wait(4)
	if p.Playing() || p.Time() != 3 {
		t.Errorf("playing %v at %v, want stopped at 3", p.Playing(), p.Time())
	}
	p.Play()
	near(t, "time when played again from the end", p.Time(), 0)
	p.Seek(-4)
	near(t, "time before the start", p.Time(), 0)
}

func TestAnotherPatientsClipStaysAtTheSameShare(t *testing.T) {
	k := &clock{}
	p := NewPlayer(k.time)
	p.Load(bend())
	p.Seek(1.5)
	p.Replace(Paced(motion.Through(hip.APP, hip.Posture{Flexion: 45 * deg})))
	near(t, "time", p.Time(), 0.5)
}

func TestAPostureOfAnotherPlaneIsTheSamePose(t *testing.T) {
	tilts := hip.Tilts{Standing: 7 * deg, RelaxedSitting: -20 * deg}
	c := Clip{Path: motion.Path{Zero: hip.RelaxedSitting, Mechanical: 6 * deg, Waypoints: []hip.Posture{{}, {Flexion: 80 * deg, Adduction: 5 * deg}}}}
	c = Clip{Path: c.Path, times: Paced(c.Path).times}
	h := kinematics.Default()
	h.Hip.Tilts, h.Hip.PosturePlane = tilts, hip.Standing
	j := kinematics.NewJoint(h.Hip, h.Designs[0])
	for _, s := range []float64{0, 0.7, c.Duration()} {
		want := j.On(c.Path).Margin(c.Path.At(c.Place(s)))
		got := j.Margin(c.Posture(s, hip.Standing, tilts))
		near(t, "margin", got.Degrees(), want.Degrees())
	}
}

func TestTheTraceMeetsTheRimWhenTheLimitSays(t *testing.T) {
	h := kinematics.Default()
	j := kinematics.NewJoint(h.Hip, h.Designs[0])
	c := Paced(motion.Through(hip.Standing, hip.Posture{Flexion: 150 * deg}))
	tr := TraceOf(j, c, 200)
	if !tr.Stops {
		t.Fatal("150° of flexion is free")
	}
	for i, s := range tr.Times {
		if free := tr.Margins[i] > 0; free != (s < tr.Contact) && math.Abs(s-tr.Contact) > 1e-3 {
			t.Errorf("margin %.3f° at %.3f s, contact at %.3f s", tr.Margins[i].Degrees(), s, tr.Contact)
		}
	}
	if tr := TraceOf(j, Paced(motion.Through(hip.Standing, hip.Posture{Flexion: 40 * deg})), 9); tr.Stops {
		t.Error("40° of flexion is in contact")
	}
}

func TestARecordingIsPlayedAsItWas(t *testing.T) {
	f, err := os.Open("../../testdata/recordings/invented_walk.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	table, err := motion.ReadTable(f)
	if err != nil {
		t.Fatal(err)
	}
	r, err := table.Recording(table.Guess(hip.Right).Mapping)
	if err != nil {
		t.Fatal(err)
	}
	c := Timed(r, motion.Setting{Mechanical: motion.UsualMechanical})
	near(t, "duration", c.Duration(), r.Duration())
	for _, s := range []float64{0, 0.11, r.Duration() / 2, r.Duration()} {
		near(t, "flexion", c.Path.At(c.Place(s)).Flexion.Degrees(), r.At(s).Flexion.Degrees())
	}
}
