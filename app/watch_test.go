package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rimclear/app/casefile"
	"rimclear/assets"
)

func TestAFileChangedBySomebodyElseIsNotWrittenOverUnasked(t *testing.T) {
	w, _ := start(t, t.TempDir())
	path := newFile(t, "a")
	if err := w.SaveFile(path); err != nil {
		t.Fatal(err)
	}
	w.set(t, "head_diameter_mm", 36)
	w.save()
	if f := read(t, path); f.Case != w.session.Now().Case || w.window.Canvas().Overlays().Top() != nil {
		t.Fatal("the window's own file is not saved at once")
	}
	theirs := read(t, path)
	theirs.Case.Label = "theirs"
	if err := casefile.Save(path, theirs); err != nil {
		t.Fatal(err)
	}
	w.set(t, "head_diameter_mm", 40)
	w.save()
	if text, _ := asked(w); !strings.Contains(text, path) || !strings.Contains(text, "another window or program") {
		t.Errorf("the question reads %q", text)
	}
	answer(t, w, "file_cancel")
	if read(t, path).Case.Label != "theirs" || !w.session.Now().Unsaved {
		t.Fatal("their file was written over, or the case counts as saved")
	}
	w.save()
	answer(t, w, "file_overwrite")
	if read(t, path).Case.Label == "theirs" || w.session.Now().Unsaved {
		t.Error("it was not written over after the answer")
	}
}

func TestTwoWindowsOnOneFileAreNoticed(t *testing.T) {
	home := t.TempDir()
	a, _ := start(t, home)
	path, other := newFile(t, "a"), newFile(t, "b")
	if err := a.SaveFile(path); err != nil {
		t.Fatal(err)
	}
	b, _ := start(t, home)
	if err := b.OpenFile(path); err != nil {
		t.Fatal(err)
	}
	if text, _ := asked(b); !strings.Contains(text, "also open in another window") {
		t.Errorf("the second window says %q", text)
	}
	answer(t, b, "window_close")
	if err := b.OpenFile(path); err != nil {
		t.Fatal(err)
	}
	answer(t, b, "window_close")
	if err := b.SaveFile(other); err != nil {
		t.Fatal(err)
	}
	b.saveTo(path)
	if text, _ := asked(b); !strings.Contains(text, "open in another window") {
		t.Errorf("saving over the first window's file asks %q", text)
	}
	answer(t, b, "file_cancel")
	a.Close()
	b.saveTo(path)
	if b.session.Now().Path != path {
		t.Error("with the first window closed it is not saved at once")
	}
}

func TestTwoWindowsKeepTheirWorkApart(t *testing.T) {
	home := t.TempDir()
	a, qa := start(t, home)
	b, qb := start(t, home)
	a.set(t, "head_diameter_mm", 36)
	b.set(t, "head_diameter_mm", 40)
	kept := func(w *Window) func() bool {
		return func() bool {
			k, err := readWork(w.autosave.desk.Path())
			return err == nil && k.file.Case == w.session.Now().Case
		}
	}
	qa.await(t, "the first is kept", kept(a))
	qb.await(t, "the second is kept", kept(b))
	left := b.session.Now().Case
	b.Close() // as a crash: it was not told to quit
	qa.await(t, "the first is kept still", kept(a))
	a.greet()
	if text, _ := asked(a); !strings.Contains(text, "work that is in no file") {
		t.Errorf("the first window says %q", text)
	}
	answer(t, a, "file_left_open") // asks first what is to become of its own work
	answer(t, a, "window_leave_yes")
	if a.session.Now().Case != left || !a.session.Now().Unsaved {
		t.Error("the other window's work is not on screen as unsaved")
	}
	if k, err := readWork(a.autosave.desk.Path()); err != nil || k.file.Case != left || len(a.autosave.desk.Left()) > 0 {
		t.Errorf("it is not kept in this window's place alone: %v", err)
	}
}

func TestAWindowThatCrashedSaysSoAndBringsTheCaseBack(t *testing.T) {
	home := t.TempDir()
	w, q := start(t, home)
	path := newFile(t, "a")
	if err := w.SaveFile(path); err != nil {
		t.Fatal(err)
	}
	w.set(t, "head_diameter_mm", 36)
	left := w.session.Now().Case
	q.await(t, "the change is kept", func() bool {
		k, err := readWork(w.autosave.desk.Path())
		return err == nil && k.file.Case == left && k.Path == path
	})
	w.Close() // without quit
	again, _ := start(t, home)
	s := again.session.Now()
	if s.Case != left || s.Path != path || !s.Unsaved {
		t.Errorf("same case %v, path %q, unsaved %v", s.Case == left, s.Path, s.Unsaved)
	}
	again.greet()
	if text, _ := asked(again); !strings.Contains(text, "did not come to its end") {
		t.Errorf("it says %q", text)
	}
	answer(t, again, "window_close")
	again.quit()
	again.Close()
	third, _ := start(t, home)
	third.greet()
	if text, _ := asked(third); text != "" || !third.session.Now().Unsaved {
		t.Errorf("after a proper end it says %q, unsaved %v", text, third.session.Now().Unsaved)
	}
}

func TestAFileChangedBetweenTwoStartsIsAskedAboutOrReadAnew(t *testing.T) {
	for _, change := range []bool{false, true} {
		home, path := t.TempDir(), newFile(t, "a")
		w, _ := start(t, home)
		if err := w.SaveFile(path); err != nil {
			t.Fatal(err)
		}
		if change {
			w.set(t, "head_diameter_mm", 36)
		}
		w.quit()
		w.Close()
		theirs := read(t, path)
		theirs.Case.Label = "theirs"
		if err := casefile.Save(path, theirs); err != nil {
			t.Fatal(err)
		}
		again, _ := start(t, home)
		if got := again.session.Now().Case.Label == "theirs"; got == change {
			t.Errorf("with changes of its own %v it shows their case: %v", change, got)
		}
		again.save()
		if text, _ := asked(again); (text != "") != change {
			t.Errorf("with changes of its own %v it asks %q", change, text)
		}
		again.Close()
	}
}

func TestAFileGivenAtTheStartDoesNotCostTheUnsavedWork(t *testing.T) {
	home, path := t.TempDir(), newFile(t, "a")
	w, _ := start(t, home)
	if err := w.SaveFile(path); err != nil {
		t.Fatal(err)
	}
	w.newCase()
	w.set(t, "head_diameter_mm", 36)
	left := w.session.Now().Case
	w.quit()
	w.Close()
	given, _ := start(t, home)
	if err := given.openGiven(path); err != nil {
		t.Fatal(err)
	}
	given.quit()
	given.Close()
	again, _ := start(t, home)
	if again.session.Now().Case != left {
		t.Error("the unsaved work is gone")
	}
	again.greet()
	if text, _ := asked(again); text != "" {
		t.Errorf("nothing was lost, and it says %q", text)
	}
}

func TestABadFileGivenAtTheStartLeavesEverythingAsItIs(t *testing.T) {
	home, path := t.TempDir(), newFile(t, "a")
	w, _ := start(t, home)
	w.set(t, "head_diameter_mm", 36)
	left := w.session.Now().Case
	w.quit()
	w.Close()
	bad := strings.Replace(string(assets.Cases()[0].Data), `"cup_inclination_deg": `, `"cup_inclination_deg": 1`, 1)
	if err := os.WriteFile(path, []byte(bad), 0o600); err != nil {
		t.Fatal(err)
	}
	given, _ := start(t, home)
	desk := given.autosave.desk
	err := given.openGiven(path)
	if err == nil {
		t.Fatal("an inclination above 100° was taken")
	}
	given.complain(err)
	text, _ := asked(given)
	for _, part := range []string{path, "line ", "designs[0].cup_inclination_deg", "from 0 to 90"} {
		if !strings.Contains(text, part) {
			t.Errorf("%q is not in what the window says: %q", part, text)
		}
	}
	if now := given.session.Now(); now.Case != left || !now.Unsaved || given.autosave.desk != desk {
		t.Error("the work of the last time is not as it was")
	}
}

func TestWhatCannotBeReadIsNotWrittenOver(t *testing.T) {
	home := t.TempDir()
	path := filepath.Join(home, "last"+casefile.Extension)
	if err := os.WriteFile(path, []byte(`{"format`), 0o600); err != nil {
		t.Fatal(err)
	}
	w, _ := start(t, home)
	w.greet()
	if data, err := os.ReadFile(path + ".unread"); err != nil || string(data) != `{"format` {
		t.Errorf("it holds %q, %v", data, err)
	}
	if text, _ := asked(w); !strings.Contains(text, "cannot be read") {
		t.Errorf("it says %q", text)
	}
}

func TestACaseThatCannotBeKeptDoesNotCloseTheWindow(t *testing.T) {
	w, _ := start(t, t.TempDir())
	w.set(t, "head_diameter_mm", 36)
	if err := os.Mkdir(w.autosave.desk.Path(), 0o700); err != nil { // in the way of the file
		t.Fatal(err)
	}
	w.quit()
	if text, buttons := asked(w); !strings.Contains(text, "cannot save") || buttons[w.context.Words.Phrase("file_close_anyway")] == nil {
		t.Errorf("it says %q", text)
	}
	answer(t, w, "file_cancel")
	if err := os.Remove(w.autosave.desk.Path()); err != nil {
		t.Fatal(err)
	}
	if err := w.autosave.finish(); err != nil {
		t.Errorf("with the way clear: %v", err)
	}
}
