package app

import (
	"bytes"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/casefile"
	"rimclear/app/store"
	"rimclear/app/view"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// asked returns the question on screen: its words, and its buttons by theirs.
func asked(w *Window) (text string, buttons map[string]*widget.Button) {
	buttons = map[string]*widget.Button{}
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c)
			}
		case *widget.Label:
			text += o.Text + "\n"
		case *widget.Button:
			buttons[o.Text] = o
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(o).Objects() {
				walk(c)
			}
		}
	}
	if top := w.window.Canvas().Overlays().Top(); top != nil {
		walk(top)
	}
	return text, buttons
}

// answer presses a button of the question on screen.
func answer(t *testing.T, w *Window, key string) {
	t.Helper()
	_, buttons := asked(w)
	b := buttons[w.context.Words.Phrase(key)]
	if b == nil {
		t.Fatalf("nothing asked has the button %q", w.context.Words.Phrase(key))
	}
	b.OnTapped()
}

func (q *queue) await(t *testing.T, what string, is func() bool) {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		if q.do(); is() {
			return
		}
	}
	t.Fatalf("not within 20 s: %s", what)
}

func read(t *testing.T, path string) casefile.File {
	t.Helper()
	f, err := casefile.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func newFile(t *testing.T, name string) string {
	t.Helper()
	return filepath.Join(t.TempDir(), name+casefile.Extension)
}

func TestTheDialogToSaveDoesNotTouchTheFile(t *testing.T) {
	start(t, t.TempDir())
	path := filepath.Join(t.TempDir(), "case.json")
	if err := os.WriteFile(path, []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
	u, err := storage.Writer(storage.NewFileURI(path)) // as the toolkit's dialog does
	if err != nil {
		t.Fatal(err)
	}
	if data, _ := os.ReadFile(path); string(data) != "old" {
		t.Errorf("opened for writing it holds %q", data)
	}
	if _, err := u.Write([]byte("new")); err != nil {
		t.Fatal(err)
	}
	if data, _ := os.ReadFile(path); string(data) != "old" {
		t.Errorf("half written it holds %q", data)
	}
	if err := u.Close(); err != nil {
		t.Fatal(err)
	}
	if data, _ := os.ReadFile(path); string(data) != "new" {
		t.Errorf("closed it holds %q", data)
	}
	other := filepath.Join(filepath.Dir(path), "other.json")
	u, err = storage.Writer(storage.NewFileURI(other))
	if err != nil {
		t.Fatal(err)
	}
	if err := u.Close(); err != nil || isFile(other) {
		t.Errorf("a file nothing was written to was made, %v", err)
	}
}

// typeName types a name into the dialog on screen and presses its button.
func typeName(t *testing.T, w *Window, name, button string) {
	t.Helper()
	var find func(o fyne.CanvasObject) *widget.Entry
	find = func(o fyne.CanvasObject) *widget.Entry {
		var inside []fyne.CanvasObject
		switch o := o.(type) {
		case *widget.Entry:
			return o
		case *fyne.Container:
			inside = o.Objects
		case fyne.Widget:
			inside = test.WidgetRenderer(o).Objects()
		}
		for _, c := range inside {
			if e := find(c); e != nil {
				return e
			}
		}
		return nil
	}
	e := find(w.window.Canvas().Overlays().Top())
	if e == nil {
		t.Fatal("nothing on screen takes a name")
	}
	e.SetText(name)
	_, buttons := asked(w)
	if buttons[button] == nil {
		t.Fatalf("no button %q", button)
	}
	buttons[button].OnTapped()
}

func TestAFileChosenInTheDialogIsUntouchedUntilTheLastAnswer(t *testing.T) {
	home := t.TempDir()
	a, _ := start(t, home)
	path := newFile(t, "a")
	if err := a.SaveFile(path); err != nil {
		t.Fatal(err)
	}
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	b, _ := start(t, home)
	b.window.Resize(fyne.NewSize(1280, 800))
	b.settings.Folder = filepath.Dir(path)
	b.set(t, "head_diameter_mm", 40)
	untouched := func(when string) {
		t.Helper()
		if data, err := os.ReadFile(path); err != nil || !bytes.Equal(data, before) {
			t.Errorf("%s it holds %d bytes, %v", when, len(data), err)
		}
	}
	b.saveAs()
	typeName(t, b, filepath.Base(path), "Save")
	untouched("chosen")
	_, buttons := asked(b)
	buttons["Yes"].OnTapped() // the toolkit's own question
	untouched("confirmed to the toolkit")
	answer(t, b, "file_cancel") // the other window has it
	untouched("refused")
	b.saveAs()
	typeName(t, b, "other.json", "Save")
	if b.session.Now().Path != filepath.Join(filepath.Dir(path), "other.json") {
		t.Errorf("saved at %q", b.session.Now().Path)
	}
}

func TestANameWithoutAnEndingGetsOursAndAsksAboutWhatIsThere(t *testing.T) {
	w, _ := start(t, t.TempDir())
	path := filepath.Join(t.TempDir(), "a")
	w.saveNamed(path)
	whole := path + casefile.Extension
	if w.session.Now().Path != whole || isFile(path) {
		t.Errorf("saved at %q", w.session.Now().Path)
	}
	w.newCase()
	w.set(t, "head_diameter_mm", 40)
	w.saveNamed(path)
	if read(t, whole).Case == w.session.Now().Case {
		t.Error("it was written over without a question")
	}
	answer(t, w, "file_overwrite")
	if read(t, whole).Case != w.session.Now().Case {
		t.Error("it was not written after the answer")
	}
}

func TestRecentCasesAreListedAndMissingOnesGreyed(t *testing.T) {
	home := t.TempDir()
	w, _ := start(t, home)
	a, b := newFile(t, "first"), newFile(t, "second")
	for _, path := range []string{a, b} {
		if err := w.SaveFile(path); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Remove(a); err != nil {
		t.Fatal(err)
	}
	w.Close()
	w, q := start(t, home)
	list := func() []*fyne.MenuItem { return w.recent.item.ChildMenu.Items }
	q.await(t, "the missing one is greyed", func() bool { return len(list()) == 4 && list()[1].Disabled })
	if l := list()[0]; l.Disabled || !strings.HasPrefix(l.Label, "second") || !strings.Contains(list()[1].Label, "not there") {
		t.Errorf("listed are %q, %q", l.Label, list()[1].Label)
	}
	list()[0].Action()
	if w.session.Now().Path != b {
		t.Errorf("it opens %q", w.session.Now().Path)
	}
	list()[3].Action()
	if r, err := store.Home(home).LoadRecents(); len(r) > 0 || err != nil || !w.recent.item.Disabled {
		t.Errorf("cleared, the list is %q, %v", r, err)
	}
}

func TestViewAndLayoutAreThereAgain(t *testing.T) {
	home := t.TempDir()
	w, _ := start(t, home)
	w.explore.SetLayout(map[string]string{"hip": "open", "bearing": "closed"})
	w.pages.Open(view.TargetView)
	want := w.explore.Layout()
	w.quit()
	w.Close()
	again, _ := start(t, home)
	if again.pages.Now() != view.TargetView || !maps.Equal(again.explore.Layout(), want) {
		t.Errorf("the view is %q, laid out as %q, want %q", again.pages.Now().Key(), again.explore.Layout(), want)
	}
}

func drop(w *Window, paths ...string) {
	var list []fyne.URI
	for _, p := range paths {
		list = append(list, storage.NewFileURI(p))
	}
	w.dropped(fyne.NewPos(10, 10), list)
}

func TestWhatIsDroppedIsOpenedOrRead(t *testing.T) {
	w, _ := start(t, t.TempDir())
	w.window.Resize(fyne.NewSize(1280, 800))
	path := newFile(t, "a")
	if err := w.SaveFile(path); err != nil {
		t.Fatal(err)
	}
	w.newCase()
	drop(w, path)
	if w.session.Now().Path != path {
		t.Error("the case is not open")
	}
	drop(w, path, path)
	if text, _ := asked(w); !strings.Contains(text, "one case file or one table") {
		t.Errorf("two files: %q", text)
	}
	answer(t, w, "window_close")
	whole, err := filepath.Abs("../testdata/recordings/invented_walk.csv")
	if err != nil {
		t.Fatal(err)
	}
	drop(w, whole)
	if _, buttons := asked(w); buttons[w.context.Words.Phrase("record_take")] == nil {
		t.Error("a recording is not asked about")
	}
}

func TestAProgramStartedOnARecordingAsksHowToReadIt(t *testing.T) {
	w, _ := start(t, t.TempDir())
	w.window.Resize(fyne.NewSize(1280, 800))
	if err := w.openGiven("../testdata/recordings/invented_walk.csv"); err != nil {
		t.Fatal(err)
	}
	if _, buttons := asked(w); buttons[w.context.Words.Phrase("record_take")] == nil {
		t.Error("a recording is not asked about")
	}
}

func TestARecordingCanBeTakenOutByTheMenu(t *testing.T) {
	w, _ := start(t, t.TempDir())
	if !w.menu.discard.Disabled {
		t.Error("there is something to take out at the start")
	}
	key, err := w.session.Record(casefile.Recording{Name: "Bow", Recording: motion.Recording{
		Times: []float64{0, 1}, Postures: []hip.Posture{{}, {Flexion: 50 * unit.Degree}},
	}})
	if err != nil {
		t.Fatal(err)
	}
	items := w.menu.discard.ChildMenu.Items
	if len(items) != 1 || items[0].Label != "Bow" || w.menu.discard.Disabled {
		t.Fatalf("%d items", len(items))
	}
	items[0].Action()
	if w.session.File().Recording(key) >= 0 || w.menu.undo.Label != "Undo: recording taken out" {
		t.Errorf("it is still there, or undo is called %q", w.menu.undo.Label)
	}
}

func TestTheLabelIsAskedForWithWhatDoesNotBelongThere(t *testing.T) {
	w, _ := start(t, t.TempDir())
	w.askLabel()
	if text, _ := asked(w); !strings.Contains(text, "no name, number or date of birth") {
		t.Errorf("it says %q", text)
	}
	w.relabel("stiff spine")
	if w.session.Now().Case.Label != "stiff spine" || w.menu.undo.Label != "Undo: case label" {
		t.Errorf("label %q, undo %q", w.session.Now().Case.Label, w.menu.undo.Label)
	}
	w.session.Undo()
	if w.session.Now().Case.Label == "stiff spine" {
		t.Error("it cannot be undone")
	}
}

func TestUnknownFieldsAreToldAndTheNoteOfAnAutosaveIsNone(t *testing.T) {
	w, _ := start(t, t.TempDir())
	path := newFile(t, "a")
	if err := os.WriteFile(path, []byte(`{"format":"rimclear-case","version":2,"later":1,"autosave":{"path":"/x"},"designs":[{}]}`), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := w.OpenFile(path); err != nil {
		t.Fatal(err)
	}
	if text, _ := asked(w); !strings.Contains(text, ": later.") {
		t.Errorf("it says %q", text)
	}
	answer(t, w, "window_close")
	if err := w.SaveFile(path); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil || !bytes.Contains(data, []byte(`"later": 1`)) || bytes.Contains(data, []byte("autosave")) {
		t.Errorf("saved as %.200s, %v", data, err)
	}
}

func TestAFaultOfTheAutosaveIsToldOnce(t *testing.T) {
	var told int
	a := &autosave{failed: func(error) { told++ }}
	for _, err := range []error{os.ErrPermission, os.ErrPermission, nil, os.ErrPermission} {
		a.asked = work{note: note{Path: "x"}}
		a.wrote(err)
		if retried := a.asked.Path == ""; retried != (err != nil) {
			t.Errorf("after %v it is tried again: %v", err, retried)
		}
	}
	if told != 2 {
		t.Errorf("told %d times, want 2", told)
	}
}
