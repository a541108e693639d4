package session

import (
	"math"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"go.uber.org/goleak"

	"rimclear/app/casefile"
	"rimclear/kinematics"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// desk is a session with a clock that stands still and a queue in place of the
// goroutine that draws.
type desk struct {
	*Session
	at    time.Time
	mu    sync.Mutex
	queue []func()
	came  chan struct{}
}

func newDesk(t *testing.T) *desk {
	t.Helper()
	d := &desk{at: time.Unix(1e9, 0), came: make(chan struct{}, 100)}
	d.Session = New(kinematics.Default(), d.post, func() time.Time { return d.at })
	t.Cleanup(d.Close)
	return d
}

func (d *desk) post(f func()) {
	d.mu.Lock()
	d.queue = append(d.queue, f)
	d.mu.Unlock()
	d.came <- struct{}{}
}

// await waits for something posted and does it.
func (d *desk) await(t *testing.T) {
	t.Helper()
	select {
	case <-d.came:
	case <-time.After(time.Minute):
		t.Fatal("nothing came from the background within a minute")
	}
	d.mu.Lock()
	f := d.queue[0]
	d.queue = d.queue[1:]
	d.mu.Unlock()
	f()
}

func (d *desk) set(t *testing.T, key string, v float64) {
	t.Helper()
	if faults := d.Set(kinematics.ParameterByKey(key), v); len(faults) > 0 {
		t.Fatalf("%s = %v is refused: %+v", key, v, faults)
	}
}

func (d *desk) get(key string) float64 {
	return kinematics.ParameterByKey(key).Get(&d.Now().Case, d.Now().Active)
}

func TestUndoTakesBackOneStepAndRedoBringsItAgain(t *testing.T) {
	d := newDesk(t)
	d.set(t, "cup_inclination_deg", 45)
	d.at = d.at.Add(time.Minute)
	d.set(t, "cup_inclination_deg", 50)
	d.set(t, "head_diameter_mm", 36)
	for _, want := range []struct {
		act               func()
		inclination, head float64
	}{{d.Undo, 50, 32}, {d.Undo, 45, 32}, {d.Undo, 40, 32}, {d.Undo, 40, 32}, {d.Redo, 45, 32}, {d.Redo, 50, 32}, {d.Redo, 50, 36}, {d.Redo, 50, 36}} {
		want.act()
		if i, h := d.get("cup_inclination_deg"), d.get("head_diameter_mm"); i != want.inclination || h != want.head {
			t.Fatalf("inclination %v, head %v; want %v, %v", i, h, want.inclination, want.head)
		}
	}
}

func TestADragIsUndoneAsOneStep(t *testing.T) {
	d := newDesk(t)
	for v := 41.0; v <= 60; v++ {
		d.at = d.at.Add(16 * time.Millisecond)
		d.set(t, "cup_inclination_deg", v)
	}
	d.set(t, "cup_anteversion_deg", 20)
	d.Undo()
	d.Undo()
	if got := d.get("cup_inclination_deg"); got != 40 {
		t.Errorf("after undoing the drag the inclination is %v, want 40", got)
	}
	if _, ok := d.Undoable(); ok {
		t.Error("there is something left to undo")
	}
}

func TestAStepIsNamedByWhatItChanged(t *testing.T) {
	d := newDesk(t)
	d.set(t, "flexion_deg", 30)
	d.Duplicate()
	if s, ok := d.Undoable(); !ok || s.Key != "add_design" {
		t.Errorf("undoable is %v, %v; want add_design", s, ok)
	}
	d.Undo()
	if s, ok := d.Undoable(); !ok || s != (Step{"flexion_deg", -1}) {
		t.Errorf("undoable is %v, %v; want flexion_deg of the case", s, ok)
	}
	if s, ok := d.Redoable(); !ok || s.Key != "add_design" {
		t.Errorf("redoable is %v, %v; want add_design", s, ok)
	}
}

func TestAnImpossibleValueLeavesTheLastValidState(t *testing.T) {
	d := newDesk(t)
	before := *d.Now()
	for key, v := range map[string]float64{
		"neck_diameter_mm": 33, "head_diameter_mm": 11, "cup_inclination_deg": math.NaN(), "cup_arc_deg": 1e9,
	} {
		if faults := d.Set(kinematics.ParameterByKey(key), v); len(faults) == 0 {
			t.Errorf("%s = %v is taken", key, v)
		}
	}
	if d.Now().Case != before.Case || d.Now().Serial != before.Serial {
		t.Error("a refused value changed the snapshot")
	}
	if _, ok := d.Undoable(); ok {
		t.Error("a refused value can be undone")
	}
}

func TestWatchersSeeEverySnapshotAndNoneChangesLater(t *testing.T) {
	d := newDesk(t)
	var seen []*Snapshot
	stop := d.Watch(func(s *Snapshot) { seen = append(seen, s) })
	for v := 41.0; v < 44; v++ {
		d.set(t, "cup_inclination_deg", v)
	}
	stop()
	d.set(t, "cup_inclination_deg", 60)
	if len(seen) != 3 {
		t.Fatalf("%d snapshots seen, want 3", len(seen))
	}
	for i, s := range seen {
		if got := s.Design().Cup.Inclination.Degrees(); math.Abs(got-(41+float64(i))) > 1e-9 {
			t.Errorf("snapshot %d now has inclination %v, want %v", i, got, 41+i)
		}
	}
}

func TestAnswersAreThoseOfTheCaseOnScreen(t *testing.T) {
	d := newDesk(t)
	d.set(t, "cup_anteversion_deg", 25)
	d.set(t, "flexion_deg", 50)
	s := d.Now()
	j := kinematics.NewJoint(s.Case.Hip, *s.Design())
	if diff := cmp.Diff(j.Answers(s.Case.Hip), s.Answers); diff != "" {
		t.Errorf("answers differ from those worked out anew (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(j.Contact(s.Case.Posture), s.Contact); diff != "" {
		t.Errorf("contact differs from that worked out anew (-want +got):\n%s", diff)
	}
	if s.Solving {
		t.Error("a round design is still being solved")
	}
}

// lipped gives the design looked at a lip, so that its answers take long.
func lipped(c *kinematics.Case) {
	c.Designs[0].Rim.Lips[0] = implant.Lip{Height: 8 * unit.Degree, Plateau: 60 * unit.Degree, Ramp: 20 * unit.Degree}
}

func TestAnswersThatTakeLongComeFromTheBackground(t *testing.T) {
	d := newDesk(t)
	if faults := d.Edit(Step{Key: "lip"}, lipped); len(faults) > 0 {
		t.Fatal(faults)
	}
	if !d.Now().Solving {
		t.Fatal("a lipped rim was solved at once: this test no longer tests anything")
	}
	d.await(t)
	s := d.Now()
	if s.Solving {
		t.Error("still solving after the answers came")
	}
	want := kinematics.NewJoint(s.Case.Hip, *s.Design()).Answers(s.Case.Hip)
	if diff := cmp.Diff(want, s.Answers); diff != "" {
		t.Errorf("answers differ (-want +got):\n%s", diff)
	}
}

func TestALateAnswerDoesNotReplaceANewerOne(t *testing.T) {
	d := newDesk(t)
	d.Edit(Step{Key: "lip"}, lipped)
	d.Undo()
	round := d.Now().Answers
	d.await(t)
	if s := d.Now(); s.Solving || !cmp.Equal(round, s.Answers) {
		t.Error("the answers of the lipped rim were shown for the round one")
	}
}

func TestTheLatestQuestionWins(t *testing.T) {
	var mu sync.Mutex
	var solved []int
	hold, started := make(chan struct{}), make(chan struct{}, 10)
	l := NewLatest(func(q int) int {
		started <- struct{}{}
		<-hold
		return q * q
	}, func(f func()) { f() }, func(q, a int) {
		mu.Lock()
		solved = append(solved, q, a)
		mu.Unlock()
	})
	l.Ask(1)
	<-started
	for q := 2; q <= 9; q++ {
		l.Ask(q)
	}
	hold <- struct{}{}
	<-started
	hold <- struct{}{}
	l.idle.Wait()
	if want := []int{1, 1, 9, 81}; !cmp.Equal(want, solved) {
		t.Errorf("answered %v, want %v", solved, want)
	}
	l.Close()
	l.Ask(10)
	if l.Busy() {
		t.Error("a closed Latest still works")
	}
}

func TestACopiedDesignIsLookedAtAndTakenAwayAgain(t *testing.T) {
	d := newDesk(t)
	d.set(t, "head_diameter_mm", 36)
	for want := 2; want <= kinematics.MaxDesigns; want++ {
		d.Duplicate()
		if s := d.Now(); s.Case.Count != want || s.Active != want-1 || s.Design().Rim.HeadDiameter != 36 {
			t.Fatalf("count %d, active %d, head %v; want %d, %d, 36", s.Case.Count, s.Active, s.Design().Rim.HeadDiameter, want, want-1)
		}
	}
	d.Duplicate()
	if s := d.Now(); s.Case.Count != kinematics.MaxDesigns {
		t.Errorf("%d designs", s.Case.Count)
	}
	d.set(t, "head_diameter_mm", 40)
	d.Activate(0)
	if d.get("head_diameter_mm") != 36 {
		t.Error("changing the copy changed the original")
	}
	d.Remove()
	if s := d.Now(); s.Case.Count != 3 || s.Case.Designs[2].Rim.HeadDiameter != 40 {
		t.Errorf("after removing A: %d designs, last head %v; want 3, 40", s.Case.Count, s.Case.Designs[2].Rim.HeadDiameter)
	}
	for range 5 {
		d.Remove()
	}
	if s := d.Now(); s.Case.Count != 1 {
		t.Errorf("%d designs left, want 1", s.Case.Count)
	}
}

func TestTheFieldsOfALaterVersionFollowTheirDesign(t *testing.T) {
	d := newDesk(t)
	f := casefile.File{Case: kinematics.Default()}
	f.Case.Count = 2
	f.DesignOthers[1] = []casefile.Member{{Key: "coating", Value: []byte(`"x"`)}}
	d.Begin(f, "")
	d.Remove()
	if got := d.File().DesignOthers[0]; len(got) != 1 || got[0].Key != "coating" {
		t.Errorf("after removing the first design, the fields of the other are %v", got)
	}
	d.Undo()
	if got := d.File().DesignOthers[1]; len(got) != 1 {
		t.Errorf("after undo, the fields of the second design are %v", got)
	}
}

func TestUnsavedIsWhatTheFileDoesNotHold(t *testing.T) {
	d := newDesk(t)
	if d.Now().Unsaved {
		t.Error("a case just begun is unsaved")
	}
	d.set(t, "head_diameter_mm", 36)
	if !d.Now().Unsaved {
		t.Error("a changed case is not unsaved")
	}
	d.Undo()
	if d.Now().Unsaved {
		t.Error("a case whose change was undone is unsaved")
	}
	d.Redo()
	d.Saved("a.json")
	if s := d.Now(); s.Unsaved || s.Path != "a.json" {
		t.Errorf("after saving: unsaved %v, path %q", s.Unsaved, s.Path)
	}
}

func TestTheAperturesKeptAreBounded(t *testing.T) {
	var a apertures
	c := kinematics.Default()
	first := a.of(c.Designs[0])
	if a.of(c.Designs[0]) != first {
		t.Error("the same shapes were built twice")
	}
	for i := range 3 * kept {
		c.Designs[0].Rim.HeadDiameter = 33 + float64(i)/8
		a.of(c.Designs[0])
	}
	if len(a.has) > kept || len(a.keys) != len(a.has) {
		t.Errorf("%d apertures are kept under %d keys, want at most %d", len(a.has), len(a.keys), kept)
	}
}

func TestAnAnswerIsAStepOfItsOwn(t *testing.T) {
	d := newDesk(t)
	d.Answer("bone_density", casefile.Answer{Rule: "x"})
	if !d.Now().Unsaved || d.File().Weighing["bone_density"].Rule != "x" {
		t.Errorf("unsaved %v, answers %q", d.Now().Unsaved, d.File().Weighing)
	}
	d.Answer("bone_density", casefile.Answer{Rule: "x"})
	if s, ok := d.Undoable(); !ok || s.Key != "weighing" {
		t.Errorf("undoable is %v, %v; want weighing", s, ok)
	}
	d.Undo()
	if _, more := d.Undoable(); more || d.Now().Unsaved || len(d.File().Weighing) > 0 {
		t.Errorf("after undo: more %v, unsaved %v, answers %q", more, d.Now().Unsaved, d.File().Weighing)
	}
	d.Redo()
	if len(d.File().Weighing) != 1 {
		t.Error("redo does not bring the answer back")
	}
}

func TestACopyIsNamedAfterItsOriginal(t *testing.T) {
	d := newDesk(t)
	name := func(s string) {
		d.Edit(Step{Key: "name", Design: d.Now().Active}, func(c *kinematics.Case) { c.Designs[d.Now().Active].Name = s })
	}
	name("Stem 32")
	d.Duplicate()
	d.Duplicate() // of the copy
	d.Activate(0)
	d.Duplicate()
	for i, want := range []string{"Stem 32", "Stem 32 (2)", "Stem 32 (3)", "Stem 32 (4)"} {
		if got := d.Now().Case.Designs[i].Name; got != want {
			t.Errorf("design %d is called %q, want %q", i, got, want)
		}
	}
	d.Activate(1)
	d.Remove()
	d.Duplicate()
	if got := d.Now().Design().Name; got != "Stem 32 (2)" {
		t.Errorf("the freed name is not taken again: %q", got)
	}
	for d.Now().Case.Count > 1 {
		d.Remove()
	}
	name(strings.Repeat("ä", casefile.MaxName))
	d.Duplicate()
	if got := d.Now().Design().Name; got != "" {
		t.Errorf("a name that would be too long for a file is given: %q", got)
	}
	d.Activate(0)
	name("")
	d.Duplicate()
	if got := d.Now().Design().Name; got != "" {
		t.Errorf("the copy of a design without a name is called %q", got)
	}
}
