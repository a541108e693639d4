package app

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// showShortcuts shows all keys: those of the menu, read from it, and those of
// the widgets.
func (w *Window) showShortcuts() {
	words := w.context.Words
	grid := container.New(twoColumns{})
	add := func(keys, what string) {
		k, t := widget.NewLabel(keys), widget.NewLabel(what)
		k.TextStyle.Bold = true
		grid.Add(k)
		grid.Add(t)
	}
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
				add(keysOf(i.Shortcut), what)
			}
			if i.ChildMenu != nil {
				walk(i.ChildMenu)
			}
		}
	}
	for _, m := range w.menu.main.Items {
		walk(m)
	}
	for line := range strings.SplitSeq(words.Phrase("window_keys"), "\n") {
		if keys, what, ok := strings.Cut(line, ": "); ok {
			add(keys, what)
		}
	}
	w.sheet(words.Phrase("window_shortcuts"), grid)
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

// twoColumns lays keys and what they do side by side, in as many double
// columns as keep the sheet low.
type twoColumns struct{}

const sheetRows = 18

func (twoColumns) cells(o []fyne.CanvasObject) (key, what, high float32) {
	for i := 0; i+1 < len(o); i += 2 {
		k, t := o[i].MinSize(), o[i+1].MinSize()
		key, what, high = max(key, k.Width), max(what, t.Width), max(high, k.Height-8)
	}
	return
}

func (c twoColumns) MinSize(o []fyne.CanvasObject) fyne.Size {
	key, what, high := c.cells(o)
	columns := (len(o)/2 + sheetRows - 1) / sheetRows
	return fyne.NewSize((key+what)*float32(columns), high*float32(min(len(o)/2, sheetRows))+8)
}

func (c twoColumns) Layout(o []fyne.CanvasObject, _ fyne.Size) {
	key, what, high := c.cells(o)
	for i := 0; i+1 < len(o); i += 2 {
		n := i / 2
		x, y := float32(n/sheetRows)*(key+what), float32(n%sheetRows)*high
		o[i].Move(fyne.NewPos(x, y))
		o[i].Resize(o[i].MinSize())
		o[i+1].Move(fyne.NewPos(x+key, y))
		o[i+1].Resize(o[i+1].MinSize())
	}
}

// showAbout says what the program is and is not, and its licence.
func (w *Window) showAbout() {
	text := widget.NewLabel(w.context.Words.Phrase("window_about_text", "caution", w.context.Words.Caution()))
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
