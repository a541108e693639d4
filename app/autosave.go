package app

import (
	"errors"
	"io/fs"
	"time"

	"rimclear/app/casefile"
	"rimclear/app/session"
	"rimclear/app/store"
	"rimclear/assets"
)

// autosave keeps the case on screen in the program's own folder, so that
// neither a crash nor a closed window loses it.
type autosave struct {
	home   store.Home
	writer *session.Latest[casefile.File, error]
	asked  casefile.File
	failed error

	latest  func() casefile.File
	after   func(time.Duration, func()) func()
	waiting bool
}

const autosaveName = "last" + casefile.Extension

// autosaveEvery is how often, at most, the case is kept: a crash costs no more
// than the work of this time, and a drag is not slowed by the disk.
const autosaveEvery = 1500 * time.Millisecond

func newAutosave(h store.Home, latest func() casefile.File, after func(time.Duration, func()) func(), post func(func())) *autosave {
	a := &autosave{home: h, latest: latest, after: after}
	a.writer = session.NewLatest(a.write, post, func(_ casefile.File, err error) { a.failed = err })
	return a
}

func (a *autosave) write(f casefile.File) error {
	if a.home == "" {
		return nil
	}
	return casefile.Save(a.home.Path(autosaveName), f)
}

// ask keeps the case, soon.
func (a *autosave) ask() {
	if a.waiting || a.latest().Same(a.asked) {
		return
	}
	a.waiting = true
	a.after(autosaveEvery, func() {
		a.waiting = false
		f := a.latest()
		a.asked = f
		a.writer.Ask(f)
	})
}

// finish keeps the case now.
func (a *autosave) finish(f casefile.File) {
	a.writer.Close()
	a.failed = a.write(f)
}

func (a *autosave) close() { a.writer.Close() }

// lastCase returns the case of the last time, what its file holds, and where
// that is. ok is false at the first start, and where the kept case cannot be
// read.
func (w *Window) lastCase() (f, saved casefile.File, path string, ok bool) {
	if w.home == "" {
		return
	}
	f, err := casefile.Open(w.home.Path(autosaveName))
	if err != nil {
		if !errors.Is(err, fs.ErrNotExist) {
			w.settings.LastCase = ""
		}
		return
	}
	saved = f
	if path = w.settings.LastCase; path != "" {
		if disk, err := casefile.Open(path); err == nil {
			saved = disk
		} else {
			path = ""
		}
	}
	return f, saved, path, true
}

// sample returns a built-in case.
func sample(i int) (casefile.File, error) { return casefile.Decode(assets.Cases()[i].Data) }
