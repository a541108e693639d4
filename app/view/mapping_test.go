package view

import (
	"os"
	"strings"
	"testing"

	"rimclear/kinematics/motion"
)

func tableOf(t *testing.T, text string) motion.Table {
	t.Helper()
	table, err := motion.ReadTable(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func TestARecordingIsReadAsItsHeadingsSay(t *testing.T) {
	e := openTarget(t, 1280, 776)
	data, err := os.ReadFile("../../testdata/recordings/invented_walk.csv")
	if err != nil {
		t.Fatal(err)
	}
	m := NewMapping(e.Context, tableOf(t, string(data)), "invented_walk")
	if m.err != nil || !strings.Contains(m.preview.Text, "flexion") {
		t.Fatalf("%v, %q", m.err, m.preview.Text)
	}
	key, err := m.Take()
	if err != nil {
		t.Fatal(err)
	}
	s := e.Session.Now()
	if !s.Case.Goal.Motions.Has(key) {
		t.Errorf("%q is not required: %q", key, s.Case.Goal.Motions)
	}
	list, lost := e.Motions.Required(&s.Case)
	if last := list[len(list)-1]; last.Key != key || last.Kind != motion.OfRecording || len(lost) > 0 {
		t.Errorf("required last: %+v, lost %q", last.Key, lost)
	}
	e.ShowMotion(key)
	if c := e.Play.player.Clip(); !c.Recorded || c.Duration() != m.recording.Duration() {
		t.Errorf("a clip of %.2f s, recorded %v", c.Duration(), c.Recorded)
	}
	e.Play.Seek(0.02)
	e.Session.Undo()
	e.Session.Undo()
	now := e.Session.Now().Case
	if now.Goal.Motions.Has(key) {
		t.Error("undone, it is still required")
	}
}

func TestASignThatIsTurnedTurnsTheRecording(t *testing.T) {
	e := openTarget(t, 1280, 776)
	m := NewMapping(e.Context, tableOf(t, "time,a,b\n0,10,1\n1,20,2\n2,30,3\n"), "x")
	if m.err == nil {
		t.Fatal("a table without known headings is read")
	}
	if _, err := m.Take(); err == nil || len(e.Motions.Recordings) > 0 {
		t.Error("it is taken")
	}
	m.columns[0].SetSelected("a")
	if m.err != nil || m.recording.Postures[2].Flexion.Degrees() < 29 {
		t.Fatalf("%v", m.err)
	}
	m.turned[0].SetChecked(true)
	if got := m.recording.Postures[2].Flexion.Degrees(); got > -29 {
		t.Errorf("flexion %.1f°, want -30", got)
	}
	m.unit.SetSelectedIndex(1)
	if m.err == nil || !strings.Contains(m.preview.Text, "is the unit right?") {
		t.Errorf("30 radians are read: %q", m.preview.Text)
	}
}

func TestTwoRecordingsOfOneNameHaveTwoKeys(t *testing.T) {
	e := openTarget(t, 1280, 776)
	text := "time,hip_flexion\n0,10\n1,20\n"
	a, err := NewMapping(e.Context, tableOf(t, text), "Walk").Take()
	b, err2 := NewMapping(e.Context, tableOf(t, text), "Walk").Take()
	if err != nil || err2 != nil || a == b {
		t.Errorf("%q and %q, %v, %v", a, b, err, err2)
	}
}
