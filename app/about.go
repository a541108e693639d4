package app

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/control"
	"rimclear/assets"
)

// showShortcuts shows all keys: those of the menu, read from it, and those of
// the widgets.
func (w *Window) showShortcuts() {
	words := w.context.Words
	w.openList(words.Phrase("window_shortcuts"), w.shortcuts())
}

// shortcuts are the keys of each menu under its name, and those of the widgets.
func (w *Window) shortcuts() []control.SheetRow {
	words := w.context.Words
	var rows []control.SheetRow
	var walk func(*fyne.Menu)
	walk = func(m *fyne.Menu) {
		for _, i := range m.Items {
			if i.Shortcut != nil {
				what := i.Label
				switch i {
				case w.menu.undo:
					what = words.Phrase("window_undo_plain")
				case w.menu.redo:
					what = words.Phrase("window_redo_plain")
				}
				rows = append(rows, control.SheetRow{Name: what, Value: keysOf(i.Shortcut)})
			}
			if i.ChildMenu != nil {
				walk(i.ChildMenu)
			}
		}
	}
	for _, m := range w.menu.main.Items {
		rows = append(rows, control.SheetRow{Heading: true, Name: m.Label})
		walk(m)
	}
	rows = append(rows, control.SheetRow{Heading: true, Name: words.Phrase("guide_anywhere")})
	for line := range strings.SplitSeq(words.Phrase("window_keys"), "\n") {
		if keys, what, ok := strings.Cut(line, ": "); ok {
			rows = append(rows, control.SheetRow{Name: what, Value: keys})
		}
	}
	return rows
}

// keysOf writes a shortcut as it is printed on keys.
func keysOf(s fyne.Shortcut) string {
	k, ok := s.(fyne.KeyboardShortcut)
	if !ok {
		return s.ShortcutName()
	}
	var parts []string
	for _, m := range []struct {
		mod  fyne.KeyModifier
		name string
	}{
		{fyne.KeyModifierControl, "Ctrl"}, {fyne.KeyModifierSuper, "Cmd"},
		{fyne.KeyModifierAlt, "Alt"}, {fyne.KeyModifierShift, "Shift"},
	} {
		if k.Mod()&m.mod != 0 {
			parts = append(parts, m.name)
		}
	}
	name := string(k.Key())
	if name == "=" {
		name = "+"
	}
	return strings.Join(append(parts, name), " ")
}

// showAbout says what the program is and is not, and its licence.
func (w *Window) showAbout() {
	text := widget.NewLabel(w.context.Words.Phrase("window_about_text", "version", assets.Version(), "caution", w.context.Words.Caution()))
	text.Wrapping = fyne.TextWrapWord
	box := container.NewStack(text)
	w.sheet(w.context.Words.Phrase("window_about"), box)
}

// sheet shows something to be read over the window.
func (w *Window) sheet(title string, content fyne.CanvasObject) {
	s := w.window.Canvas().Size()
	d := dialog.NewCustom(title, w.context.Words.Phrase("window_close"), container.NewVScroll(content), w.window)
	m := content.MinSize()
	d.Resize(fyne.NewSize(min(max(m.Width+40, 480), s.Width*0.9), min(max(m.Height+120, 320), s.Height*0.9)))
	d.Show()
}
