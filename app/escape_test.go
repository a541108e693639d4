package app

import (
	"testing"

	"fyne.io/fyne/v2"
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
