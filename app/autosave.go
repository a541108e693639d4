package app

import (
	"encoding/json"
	"slices"
	"time"

	"rimclear/app/casefile"
	"rimclear/app/session"
	"rimclear/app/store"
	"rimclear/assets"
)

// autosave keeps the case on screen in the program's own folder, so that
// neither a crash nor a closed window loses it.
type autosave struct {
	desk   *store.Desk // nil where nothing can be kept
	writer *session.Latest[work, error]
	asked  work

	latest  func() work
	after   func(time.Duration, func()) func()
	post    func(func())
	failed  func(error) // told of the first fault of a row
	fault   error
	waiting bool
}

// work is what a window is at.
type work struct {
	file casefile.File
	note
}

// note is what is kept beside the case, in one file with it, so that the two
// can never be of different moments.
type note struct {
	Path string     `json:"path"`   // the case's own file, "" if it has none
	Mark store.Mark `json:"sha256"` // what that file held when last read or written
	// Unsaved says that the case is in no file as it is here. Open says that
	// the window was open: where that stays, it has crashed.
	Unsaved bool `json:"unsaved"`
	Open    bool `json:"open"`
}

// noteField is the field of an autosave that holds the note; to any other reader
// it is a field it does not know.
const noteField = "autosave"

// autosaveEvery is how often, at most, the case is kept: a crash costs no more
// than the work of this time, and a drag is not slowed by the disk.
const autosaveEvery = 1500 * time.Millisecond

func newAutosave(d *store.Desk, latest func() work, after func(time.Duration, func()) func(), post func(func()), failed func(error)) *autosave {
	a := &autosave{desk: d, latest: latest, after: after, post: post, failed: failed}
	a.begin()
	return a
}

func (a *autosave) begin() {
	a.writer = session.NewLatest(a.write, a.post, func(_ work, err error) { a.wrote(err) })
}

func (k work) same(o work) bool { return k.note == o.note && k.file.Same(o.file) }

// encode returns the work as the contents of a file.
func (k work) encode() ([]byte, error) {
	n, err := json.Marshal(k.note)
	if err != nil {
		return nil, err
	}
	f := withoutNote(k.file)
	f.Others = append(f.Others, casefile.Member{Key: noteField, Value: n})
	return casefile.Encode(f)
}

// withoutNote returns the file without an autosave's note, in lists of its own.
func withoutNote(f casefile.File) casefile.File {
	f.Others = slices.DeleteFunc(slices.Clone(f.Others), func(m casefile.Member) bool { return m.Key == noteField })
	return f
}

// readWork reads what was kept at path.
func readWork(path string) (k work, err error) {
	f, err := casefile.Open(path)
	if err != nil {
		return work{}, err
	}
	for _, m := range f.Others {
		if m.Key == noteField && json.Unmarshal(m.Value, &k.note) != nil {
			k.note = note{} // the case is whole all the same
		}
	}
	k.file = withoutNote(f)
	return k, nil
}

func (a *autosave) write(k work) error {
	if a.desk == nil {
		return nil
	}
	data, err := k.encode()
	if err != nil {
		return err
	}
	return store.Write(a.desk.Path(), data)
}

// wrote tells of a fault once, not at every change while it lasts.
func (a *autosave) wrote(err error) {
	if a.fault == nil && err != nil {
		a.failed(err)
	}
	if a.fault = err; err != nil {
		a.asked = work{} // so that the next change tries again
	}
}

// ask keeps the case, soon.
func (a *autosave) ask() {
	if a.waiting || a.latest().same(a.asked) {
		return
	}
	a.waiting = true
	a.after(autosaveEvery, func() {
		a.waiting = false
		k := a.latest()
		a.asked = k
		a.writer.Ask(k)
	})
}

// finish keeps the case now, as of a window that is closed. A desk beside the
// first is cleared if nothing would be lost with it.
func (a *autosave) finish() error {
	if a.desk == nil {
		return nil
	}
	a.writer.Close()
	k := a.latest()
	k.Open = false
	if !k.Unsaved && !a.desk.First() {
		return a.desk.Clear()
	}
	err := a.write(k)
	if err != nil {
		a.begin() // the window stays
	}
	return err
}

func (a *autosave) close() {
	a.writer.Close()
	if a.desk != nil {
		a.desk.Release()
	}
}

// move goes to a desk on which nothing lies: what lies on the present one is
// left there for another start.
func (a *autosave) move(h store.Home) error {
	d, err := h.Desk(true)
	if err != nil {
		return err
	}
	a.writer.Close()
	old := a.desk
	a.desk, a.asked = d, work{}
	a.begin()
	return old.Release()
}

// sample returns a built-in case.
func sample(i int) (casefile.File, error) { return casefile.Decode(assets.Cases()[i].Data) }
