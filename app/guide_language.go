package app

import (
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"

	"rimclear/app/present"
)

// words returns the words of the language that is set, or else of the system's.
func (w *Window) words() *present.Words {
	return present.Preferred(w.settings.Language, os.Getenv("LC_ALL"), os.Getenv("LC_MESSAGES"), os.Getenv("LANG"))
}

// languages is the menu of languages, each by its own name.
func (w *Window) languages() *fyne.MenuItem {
	all := item(w, "guide_language", nil, "", 0)
	all.ChildMenu = fyne.NewMenu("")
	for _, l := range present.Languages() {
		i := fyne.NewMenuItem(l.Name, func() { w.setLanguage(l) })
		i.Checked = l.Tag == w.context.Words.Language()
		all.ChildMenu.Items = append(all.ChildMenu.Items, i)
	}
	return all
}

// setLanguage has the window speak another language from its next start on, and
// says so.
func (w *Window) setLanguage(l present.Language) {
	w.settings.Language = l.Tag
	w.saveSettings()
	if words := w.context.Words; l.Tag != words.Language() {
		dialog.ShowInformation(words.Phrase("guide_language"), words.Phrase("guide_language_later", "language", l.Name), w.window)
	}
}

// stillness is the menu item by which nothing moves but what is asked for.
func (w *Window) stillness() *fyne.MenuItem {
	w.context.Still = w.settings.ReducedMotion
	i := item(w, "guide_still", nil, "", 0)
	i.Checked = w.settings.ReducedMotion
	i.Action = func() {
		w.settings.ReducedMotion = !w.settings.ReducedMotion
		i.Checked, w.context.Still = w.settings.ReducedMotion, w.settings.ReducedMotion
		w.menu.main.Refresh()
		w.saveSettings()
	}
	return i
}
