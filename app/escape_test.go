package app

import (
	"testing"

	"fyne.io/fyne/v2"

	"rimclear/app/control"
)

func TestEscapeLeavesNothingOverTheWindow(t *testing.T) {
	w, _ := start(t, t.TempDir())
	over := w.window.Canvas().Overlays()
	for name, open := range map[string]func(){
		"a file dialog": w.open, "the label": w.askLabel, "about": w.showAbout, "the keys": w.showShortcuts,
	} {
		open()
		if over.Top() == nil {
			t.Errorf("%s: nothing has opened", name)
		}
		w.window.Canvas().Unfocus()
		w.typed(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if over.Top() != nil {
			t.Errorf("%s: after Escape something still lies over the window and catches its clicks", name)
		}
	}
}

func TestEscapeTypedInTheLabelClosesIt(t *testing.T) {
	w, _ := start(t, t.TempDir())
	w.askLabel()
	c := w.window.Canvas()
	entry, ok := c.Focused().(*control.Line)
	if !ok {
		t.Fatalf("%T has the keys, want the label's line", c.Focused())
	}
	before := w.session.Now().Case.Label
	entry.TypedRune('x')
	entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if c.Overlays().Top() != nil {
		t.Error("after Escape the label's dialog is still there")
	}
	if now := w.session.Now().Case.Label; now != before {
		t.Errorf("Escape has taken the label %q", now)
	}
}

func TestKeysOfTheMenuDoNothingUnderADialog(t *testing.T) {
	w, _ := start(t, t.TempDir())
	w.set(t, "head_diameter_mm", 36)
	w.askLabel()
	over := w.window.Canvas().Overlays()
	top, n := over.Top(), len(over.List())
	changed := w.session.Now().Case
	for _, i := range items(w.menu.main) {
		if i.Shortcut != nil && i.Action != nil {
			i.Action()
		}
	}
	if w.session.Now().Case != changed || over.Top() != top || len(over.List()) != n {
		t.Error("a key of the menu has done something under a dialog")
	}
}
