package app

import (
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"

	"rimclear/app/session"
	"rimclear/app/store"
)

// recent is the menu of the cases last opened or saved. Whether a file is still
// there is asked in the background: a drive that is gone can take long to say.
type recent struct {
	item  *fyne.MenuItem
	list  store.Recents
	there *session.Latest[store.Recents, map[string]bool]
}

func newRecent(w *Window) *recent {
	r := &recent{item: item(w, "file_recent", nil, "", 0)}
	r.item.ChildMenu = fyne.NewMenu("")
	r.there = session.NewLatest(stillThere, w.context.Post, func(list store.Recents, there map[string]bool) { r.show(w, list, there) })
	if w.home != "" {
		r.list, _ = w.home.LoadRecents() // a damaged list is an empty one
	}
	r.show(w, r.list, nil)
	r.there.Ask(r.list)
	return r
}

// stillThere tells which of some files are there.
func stillThere(list store.Recents) map[string]bool {
	there := map[string]bool{}
	for _, path := range list {
		s, err := os.Stat(path)
		there[path] = err == nil && s.Mode().IsRegular()
	}
	return there
}

// show lists the cases. Those that are not there are greyed and say so; before
// that is known, none is.
func (r *recent) show(w *Window, list store.Recents, there map[string]bool) {
	words := w.context.Words
	items := make([]*fyne.MenuItem, 0, len(list)+2)
	for _, path := range list {
		i := fyne.NewMenuItem(words.Phrase("file_recent_case", "name", fileName(path), "folder", filepath.Dir(path)), func() {
			w.leave(func() { w.openRecent(path) })
		})
		if is, known := there[path]; known && !is {
			i.Label, i.Disabled = words.Phrase("file_recent_missing", "case", i.Label), true
		}
		items = append(items, i)
	}
	r.item.Disabled = len(items) == 0
	if len(items) > 0 {
		items = append(items, fyne.NewMenuItemSeparator(), item(w, "file_recent_clear", func() { w.remember(nil) }, "", 0))
	}
	r.item.ChildMenu.Items = items
	w.menu.refresh()
}

// openRecent opens a case of the list; one that is gone is then greyed.
func (w *Window) openRecent(path string) {
	if err := w.OpenFile(path); err != nil {
		w.complain(err)
		w.recent.there.Ask(w.recent.list)
	}
}

// recall puts a case at the head of the list. Another window may have changed
// the list meanwhile.
func (w *Window) recall(path string) {
	list := w.recent.list
	if w.home != "" {
		if now, err := w.home.LoadRecents(); err == nil {
			list = now
		}
	}
	w.remember(list.With(path))
}

// remember makes that the list.
func (w *Window) remember(list store.Recents) {
	w.recent.list = list
	w.recent.show(w, list, nil)
	w.recent.there.Ask(list)
	if w.home != "" {
		w.complain(w.home.SaveRecents(list))
	}
}
