package session

import (
	"path/filepath"
	"testing"

	"rimclear/app/casefile"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// bow is a short recording.
func bow() casefile.Recording {
	return casefile.Recording{Name: "Bow", Recording: motion.Recording{
		Times: []float64{0, 1, 2}, Postures: []hip.Posture{{}, {Flexion: 50 * unit.Degree}, {}},
	}}
}

func TestARecordingStaysWithItsCase(t *testing.T) {
	d := newDesk(t)
	m := NewMotions().Follow(d.Session)
	key, err := d.Record(bow())
	if err != nil {
		t.Fatal(err)
	}
	if list, lost := m.Required(&d.Now().Case); list[len(list)-1].Key != key || len(lost) > 0 {
		t.Errorf("required last %q, lost %q", list[len(list)-1].Key, lost)
	}
	path := filepath.Join(t.TempDir(), "a.json")
	if err := casefile.Save(path, d.File()); err != nil {
		t.Fatal(err)
	}
	d.Saved(path)
	other := d.File() // the same case, that came without its recording
	other.Recordings = nil
	d.Begin(other, "")
	if _, lost := m.Required(&d.Now().Case); len(lost) != 1 || len(m.Recordings) > 0 {
		t.Errorf("in another case: lost %q, %d recordings", lost, len(m.Recordings))
	}
	f, err := casefile.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	d.Begin(f, path)
	list, lost := m.Required(&d.Now().Case)
	if got := list[len(list)-1]; got.Key != key || got.Kind != motion.OfRecording || len(lost) > 0 {
		t.Errorf("opened again: required last %q, lost %q", got.Key, lost)
	}
	if got := list[len(list)-1]; got.Basis != motion.Own {
		t.Errorf("a user's own recording is said to rest on %q", got.Basis.Key())
	}
	if r, ok := m.Recorded(key); !ok || r.Postures[1].Flexion.Degrees() != 50 {
		t.Errorf("opened again: %+v, %v", r, ok)
	}
}

func TestReadingARecordingIsUndoneWhole(t *testing.T) {
	d := newDesk(t)
	m := NewMotions().Follow(d.Session)
	before := d.Now().Case
	key, err := d.Record(bow())
	if err != nil {
		t.Fatal(err)
	}
	d.Undo()
	if d.Now().Case != before || len(m.Recordings) > 0 || d.Now().Unsaved {
		t.Errorf("after undo: %d recordings, unsaved %v", len(m.Recordings), d.Now().Unsaved)
	}
	d.Redo()
	if _, ok := m.Recorded(key); !ok {
		t.Error("redo does not bring it back")
	}
	d.Discard(key)
	if _, ok := m.Recorded(key); ok || d.Now().Case.Goal.Motions.Has(key) {
		t.Error("discarded, it is still there")
	}
	d.Undo()
	if _, ok := m.Recorded(key); !ok || !d.Now().Case.Goal.Motions.Has(key) {
		t.Error("undo does not bring back what was discarded")
	}
}

func TestARequiredRecordingThatIsLostKeepsItsKey(t *testing.T) {
	d := newDesk(t)
	f, err := casefile.Decode([]byte(`{"format":"rimclear-case","version":2,"motions":["recorded_bow"],"designs":[{}]}`))
	if err != nil {
		t.Fatal(err)
	}
	d.Begin(f, "")
	if key, err := d.Record(bow()); err != nil || key != "recorded_bow_2" {
		t.Errorf("key %q, %v: another recording must not stand in for the lost one", key, err)
	}
}
