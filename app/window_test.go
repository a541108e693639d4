package app

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"rimclear/app/casefile"
	"rimclear/app/control"
	"rimclear/app/store"
	"rimclear/assets"
	"rimclear/kinematics"
)

// queue holds what was posted to the goroutine that draws.
type queue struct {
	mu   sync.Mutex
	list []func()
}

func (q *queue) post(f func()) {
	q.mu.Lock()
	defer q.mu.Unlock()
	q.list = append(q.list, f)
}

func (q *queue) do() {
	q.mu.Lock()
	list := q.list
	q.list = nil
	q.mu.Unlock()
	for _, f := range list {
		f()
	}
}

// start makes a window that keeps its files in a folder.
func start(t *testing.T, home string) (*Window, *queue) {
	t.Helper()
	t.Setenv(store.HomeVariable, home)
	q := &queue{}
	w := New(test.NewTempApp(t), time.Now, q.post)
	t.Cleanup(func() {
		if !w.closed {
			w.Close()
		}
	})
	return w, q
}

func (w *Window) set(t *testing.T, key string, v float64) {
	t.Helper()
	if f := w.session.Set(kinematics.ParameterByKey(key), v); len(f) > 0 {
		t.Fatal(f)
	}
}

func items(m *fyne.MainMenu) map[string]*fyne.MenuItem {
	all := map[string]*fyne.MenuItem{}
	var walk func([]*fyne.MenuItem)
	walk = func(list []*fyne.MenuItem) {
		for _, i := range list {
			if !i.IsSeparator {
				all[i.Label] = i
			}
			if i.ChildMenu != nil {
				walk(i.ChildMenu.Items)
			}
		}
	}
	for _, m := range m.Items {
		walk(m.Items)
	}
	return all
}

func TestEveryMenuItemHasWordsAndKeysOfItsOwn(t *testing.T) {
	w, _ := start(t, t.TempDir())
	keys := map[string]string{}
	for label, i := range items(w.menu.main) {
		if label == "" || strings.Contains(label, "[") {
			t.Errorf("an item is called %q", label)
		}
		if i.Shortcut == nil {
			continue
		}
		k := keysOf(i.Shortcut)
		if other, taken := keys[k]; taken {
			t.Errorf("%s is both %q and %q", k, label, other)
		}
		keys[k] = label
	}
}

func TestTheMenuNamesWhatIsUndone(t *testing.T) {
	w, _ := start(t, t.TempDir())
	if !w.menu.undo.Disabled || !w.menu.redo.Disabled {
		t.Error("there is something to undo or redo at the start")
	}
	w.set(t, "cup_inclination_deg", 50)
	if got := w.menu.undo.Label; got != "Undo: Inclination" || w.menu.undo.Disabled {
		t.Errorf("undo is called %q", got)
	}
	w.menu.undo.Action()
	if got := w.menu.redo.Label; got != "Redo: Inclination" {
		t.Errorf("redo is called %q", got)
	}
	if got := w.session.Now().Design().Cup.Inclination.Degrees(); got < 39.9 || got > 40.1 {
		t.Errorf("after undo the inclination is %v", got)
	}
}

func TestACaseIsSavedAndOpenedAgain(t *testing.T) {
	w, _ := start(t, t.TempDir())
	w.set(t, "cup_anteversion_deg", 22.5)
	if !strings.Contains(w.window.Title(), "*") {
		t.Errorf("title of a changed case is %q", w.window.Title())
	}
	path := filepath.Join(t.TempDir(), "stiff"+casefile.Extension)
	if err := w.SaveFile(path); err != nil {
		t.Fatal(err)
	}
	if got := w.window.Title(); got != "stiff – Rimclear" {
		t.Errorf("title of a saved case is %q", got)
	}
	saved := w.session.Now().Case
	w.newCase()
	if w.session.Now().Case == saved {
		t.Fatal("a new case is the old one")
	}
	if err := w.OpenFile(path); err != nil {
		t.Fatal(err)
	}
	if w.session.Now().Case != saved || w.session.Now().Unsaved {
		t.Error("the opened case is not the saved one")
	}
	if _, ok := w.session.Undoable(); ok {
		t.Error("opening can be undone into another case")
	}
}

func TestAFileThatCannotBeReadLeavesTheCase(t *testing.T) {
	w, _ := start(t, t.TempDir())
	before := w.session.Now()
	path := filepath.Join(t.TempDir(), "bad.json")
	if err := os.WriteFile(path, []byte(`{"format":"rimclear-case","version":1,"designs":[{"head_diameter_mm":5}]}`), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := w.OpenFile(path); err == nil || !strings.Contains(err.Error(), "head_diameter_mm") {
		t.Errorf("the error is %v, want one that names head_diameter_mm", err)
	}
	if err := w.OpenFile(filepath.Join(t.TempDir(), "none.json")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the error for a missing file is %v", err)
	}
	if w.session.Now() != before {
		t.Error("the case changed")
	}
}

func TestWhatWasNotSavedIsThereAtTheNextStart(t *testing.T) {
	home := t.TempDir()
	w, _ := start(t, home)
	path := filepath.Join(t.TempDir(), "a"+casefile.Extension)
	if err := w.SaveFile(path); err != nil {
		t.Fatal(err)
	}
	w.set(t, "head_diameter_mm", 36)
	w.setBrightness(control.AlwaysDark)
	w.setScale(1.2)
	left := w.session.Now().Case
	w.quit()
	w.Close()

	again, _ := start(t, home)
	s := again.session.Now()
	if s.Case != left || s.Path != path || !s.Unsaved {
		t.Errorf("at the next start: same case %v, path %q, unsaved %v", s.Case == left, s.Path, s.Unsaved)
	}
	if th := again.context.Theme; th.Brightness != control.AlwaysDark || th.Scale != 1.2 {
		t.Errorf("at the next start the theme is %+v", th)
	}
}

func TestACrashLosesNothing(t *testing.T) {
	home := t.TempDir()
	w, q := start(t, home)
	w.set(t, "head_diameter_mm", 40)
	left := w.session.Now().Case
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		q.do()
		if k, err := readWork(w.autosave.desk.Path()); err == nil && k.file.Case == left {
			return // without having closed anything
		}
	}
	t.Error("the case is not in the autosave within 10 s")
}

func TestADamagedAutosaveDoesNotKeepTheWindowShut(t *testing.T) {
	home := t.TempDir()
	if err := os.WriteFile(filepath.Join(home, "last"+casefile.Extension), []byte(`{"format`), 0o600); err != nil {
		t.Fatal(err)
	}
	w, _ := start(t, home)
	if w.session.Now().Case.Count < 1 {
		t.Error("there is no case")
	}
}

func TestTheStateFileTellsWhatIsOnScreen(t *testing.T) {
	path := filepath.Join(t.TempDir(), "state.json")
	t.Setenv(stateVariable, path)
	w, q := start(t, t.TempDir())
	w.explore.Picture().Paint(100, 100)
	w.set(t, "flexion_deg", 30)
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		q.do()
		text, _ := os.ReadFile(path)
		if s := string(text); strings.Contains(s, `"ready":true`) && strings.Contains(s, `"flexion_deg":30`) &&
			strings.Contains(s, `"joint":[`) && strings.Contains(s, `"cup_inclination_deg":[`) {
			return
		}
	}
	text, _ := os.ReadFile(path)
	t.Errorf("the state file reads %.400s", text)
}

func TestEveryItemOfTheMenuCanBeChosen(t *testing.T) {
	w, _ := start(t, t.TempDir())
	w.window.Resize(fyne.NewSize(1280, 800))
	for label, i := range items(w.menu.main) {
		if i.Action == nil || i.IsQuit {
			continue
		}
		i.Action()
		if top := w.window.Canvas().Overlays().Top(); top != nil {
			w.window.Canvas().Overlays().Remove(top)
		} else if strings.HasSuffix(label, "…") {
			t.Errorf("%q opens nothing", label)
		}
	}
}

func TestSheetsSayTheKeysAndTheCaution(t *testing.T) {
	w, _ := start(t, t.TempDir())
	w.window.Resize(fyne.NewSize(1280, 800))
	w.showShortcuts()
	if w.window.Canvas().Overlays().Top() == nil {
		t.Error("the sheet of keys does not open")
	}
	w.window.Canvas().Overlays().Remove(w.window.Canvas().Overlays().Top())
	w.showAbout()
	if w.window.Canvas().Overlays().Top() == nil {
		t.Error("the sheet about the program does not open")
	}
	text := w.context.Words.Phrase("window_about_text", "version", assets.Version(), "caution", w.context.Words.Caution())
	for _, must := range []string{"not a medical device", "licensed surgeon", "Apache"} {
		if !strings.Contains(text, must) {
			t.Errorf("the text about the program lacks %q", must)
		}
	}
}

func TestWithoutADisplayTheMessageSaysWhatToDo(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		t.Skip("this system always has a display")
	}
	t.Setenv("DISPLAY", "")
	if err := Display(); err == nil || !strings.Contains(err.Error(), "rimcalc") {
		t.Errorf("without a display the error is %v", err)
	}
	t.Setenv("DISPLAY", ":64999")
	if err := Display(); err == nil || !strings.Contains(err.Error(), ":64999") {
		t.Errorf("with a dead display the error is %v", err)
	}
}
