package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/app/view"
	"rimclear/assets"
	"rimclear/kinematics"
)

// menu is the window's menu and the items in it that change.
type menu struct {
	main       *fyne.MainMenu
	undo, redo *fyne.MenuItem
	remove     *fyne.MenuItem
	add        *fyne.MenuItem
	discard    *fyne.MenuItem
	brightness [3]*fyne.MenuItem
	shown      string // what display last showed
}

func newMenu(w *Window) menu {
	m := menu{}
	m.main = fyne.NewMainMenu(m.file(w), m.edit(w), m.view(w), m.help(w))
	return m
}

const ctrl, ctrlShift = fyne.KeyModifierShortcutDefault, fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift

// item returns an item with its words and its keys. Under a dialog or a sheet
// the keys do nothing: what it asks comes first.
func item(w *Window, key string, act func(), k fyne.KeyName, mod fyne.KeyModifier) *fyne.MenuItem {
	i := fyne.NewMenuItem(w.context.Words.Phrase(key), nil)
	if act != nil {
		i.Action = func() {
			if !w.covered() {
				act()
			}
		}
	}
	if k != "" {
		i.Shortcut = &desktop.CustomShortcut{KeyName: k, Modifier: mod}
	}
	return i
}

func (m *menu) file(w *Window) *fyne.Menu {
	samples := item(w, "window_samples", nil, "", 0)
	samples.ChildMenu = fyne.NewMenu("")
	for i, s := range assets.Cases() {
		samples.ChildMenu.Items = append(samples.ChildMenu.Items, fyne.NewMenuItem(w.context.Words.Sample(s.Name), func() { w.openSample(i) }))
	}
	m.discard = item(w, "file_discard", nil, "", 0)
	m.discard.ChildMenu = fyne.NewMenu("")
	quit := item(w, "window_quit", w.quit, fyne.KeyQ, ctrl)
	quit.IsQuit = true
	return fyne.NewMenu(w.context.Words.Phrase("window_file"),
		item(w, "window_new", w.newCase, fyne.KeyN, ctrl),
		item(w, "window_open", w.open, fyne.KeyO, ctrl),
		w.recent.item,
		samples,
		item(w, "window_read_recording", w.readRecording, fyne.KeyI, ctrl),
		m.discard,
		fyne.NewMenuItemSeparator(),
		item(w, "window_save", w.save, fyne.KeyS, ctrl),
		item(w, "window_save_as", w.saveAs, fyne.KeyS, ctrlShift),
		item(w, "file_label", w.askLabel, fyne.KeyL, ctrl),
		fyne.NewMenuItemSeparator(),
		item(w, "report_save", w.saveReport, fyne.KeyP, ctrl),
		item(w, "report_save_figure", w.saveFigure, "", 0),
		item(w, "report_save_tables", w.saveTables, "", 0),
		fyne.NewMenuItemSeparator(),
		quit)
}

func (m *menu) edit(w *Window) *fyne.Menu {
	m.undo = fyne.NewMenuItem(w.context.Words.Phrase("window_undo_none"), func() { w.undo(w.session.Undo, &fyne.ShortcutUndo{}) })
	m.undo.Shortcut = &fyne.ShortcutUndo{}
	m.redo = fyne.NewMenuItem(w.context.Words.Phrase("window_redo_none"), func() { w.undo(w.session.Redo, &fyne.ShortcutRedo{}) })
	m.redo.Shortcut = &fyne.ShortcutRedo{}
	m.add = item(w, "window_add", w.session.Duplicate, fyne.KeyD, ctrl)
	m.remove = item(w, "window_remove", w.session.Remove, fyne.KeyD, ctrlShift)
	items := []*fyne.MenuItem{m.undo, m.redo, fyne.NewMenuItemSeparator(), m.add, m.remove, fyne.NewMenuItemSeparator()}
	for i := range kinematics.MaxDesigns {
		d := item(w, "window_look_at", func() { w.session.Activate(i) }, fyne.KeyName('1'+rune(i)), fyne.KeyModifierAlt)
		d.Label = w.context.Words.Phrase("window_look_at", "letter", present.Letter(i))
		items = append(items, d)
	}
	return fyne.NewMenu(w.context.Words.Phrase("window_edit"), items...)
}

// covered reports whether something lies over the window.
func (w *Window) covered() bool { return w.window.Canvas().Overlays().Top() != nil }

// undo takes a step back or forth; in an entry that is being typed in, the
// entry does.
func (w *Window) undo(act func(), typed fyne.Shortcut) {
	focused := w.window.Canvas().Focused()
	n, number := focused.(*control.Number)
	switch {
	case number && n.Typing():
		n.TypedShortcut(typed)
	case !w.covered():
		act()
	default:
		if in, ok := focused.(fyne.Shortcutable); ok {
			in.TypedShortcut(typed)
		}
	}
}

func (m *menu) view(w *Window) *fyne.Menu {
	e := w.explore
	bright := item(w, "window_brightness", nil, "", 0)
	bright.ChildMenu = fyne.NewMenu("")
	for b, key := range [3]string{"window_as_system", "window_light", "window_dark"} {
		m.brightness[b] = item(w, key, func() { w.setBrightness(control.Brightness(b)) }, "", 0)
		bright.ChildMenu.Items = append(bright.ChildMenu.Items, m.brightness[b])
	}
	return fyne.NewMenu(w.context.Words.Phrase("window_view"),
		item(w, view.ExploreView.Word(), func() { w.pages.Open(view.ExploreView) }, fyne.KeyE, ctrl),
		item(w, view.TargetView.Word(), func() { w.pages.Open(view.TargetView) }, fyne.KeyT, ctrl),
		item(w, view.CompareView.Word(), func() { w.pages.Open(view.CompareView) }, fyne.KeyM, ctrl),
		item(w, view.ExplainView.Word(), func() { w.pages.Open(view.ExplainView) }, fyne.KeyJ, ctrl),
		fyne.NewMenuItemSeparator(),
		item(w, "window_reset_view", e.Picture().Reset, fyne.Key0, ctrl),
		item(w, "window_front", e.LookFromFront, fyne.Key1, ctrl),
		item(w, "window_side", e.LookFromSide, fyne.Key2, ctrl),
		item(w, "window_cup", e.LookIntoCup, fyne.Key3, ctrl),
		item(w, "window_toggle_pelvis", e.TogglePelvis, fyne.KeyB, ctrl),
		item(w, "window_toggle_femur", e.ToggleFemur, fyne.KeyB, ctrlShift),
		item(w, "window_toggle_glass", e.ToggleGlass, fyne.KeyG, ctrl),
		item(w, "joint_toggle_cut", e.ToggleCut, fyne.KeyG, ctrlShift),
		item(w, "thigh_toggle_free", e.ToggleFree, fyne.KeyF, ctrl),
		item(w, "thigh_toggle_past", e.TogglePast, fyne.KeyU, ctrl),
		item(w, "window_neutral", e.Neutral, fyne.KeyR, ctrl),
		fyne.NewMenuItemSeparator(),
		bright,
		item(w, "window_larger", func() { w.setScale(w.scale() + control.ScaleStep) }, fyne.KeyEqual, ctrl),
		item(w, "window_smaller", func() { w.setScale(w.scale() - control.ScaleStep) }, fyne.KeyMinus, ctrl),
		w.stillness(),
		w.languages())
}

func (m *menu) help(w *Window) *fyne.Menu {
	return fyne.NewMenu(w.context.Words.Phrase("window_help_menu"),
		item(w, "guide_menu", w.showGuide, fyne.KeyH, ctrl),
		item(w, "about_menu", w.showFocusedNumber, fyne.KeyK, ctrl),
		item(w, "window_shortcuts", w.showShortcuts, fyne.KeySlash, ctrl),
		item(w, "window_about", w.showAbout, "", 0))
}

// display names what can be undone, and greys what cannot be done.
func (m *menu) display(w *Window) {
	undo, canUndo := w.session.Undoable()
	redo, canRedo := w.session.Redoable()
	m.undo.Label, m.undo.Disabled = w.stepLabel("window_undo", undo, canUndo), !canUndo
	m.redo.Label, m.redo.Disabled = w.stepLabel("window_redo", redo, canRedo), !canRedo
	n := w.session.Now().Case.Count
	m.add.Disabled, m.remove.Disabled = n == kinematics.MaxDesigns, n == 1
	b := w.context.Theme.Brightness
	for i, item := range m.brightness {
		item.Checked = control.Brightness(i) == b
	}
	m.discard.ChildMenu.Items = w.discards()
	m.discard.Disabled = len(m.discard.ChildMenu.Items) == 0
	kept := ""
	for _, i := range m.discard.ChildMenu.Items {
		kept += i.Label + "\n"
	}
	if s := m.undo.Label + "\n" + m.redo.Label + string(rune('0'+n)) + string(rune('0'+b)) + kept; s != m.shown {
		m.shown = s
		m.refresh()
	}
}

// refresh draws the menu anew, once there is one.
func (m *menu) refresh() {
	if m.main != nil {
		m.main.Refresh()
	}
}

// stepLabel says what would be undone or redone.
func (w *Window) stepLabel(key string, s session.Step, ok bool) string {
	words := w.context.Words
	if !ok {
		return words.Phrase(key + "_none")
	}
	name := ""
	if p := kinematics.ParameterByKey(s.Key); p != nil {
		name = words.Name(s.Key)
	} else {
		name = words.Phrase("step_" + s.Key)
	}
	return words.Phrase(key, "step", name)
}
