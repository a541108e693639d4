package app

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2/widget"

	"rimclear/app/casefile"
	"rimclear/app/store"
)

// scrapsAge is after how long what a killed save left behind is swept up, and
// openAge what tells of files that were open.
const (
	scrapsAge = time.Hour
	openAge   = 30 * 24 * time.Hour
)

// work returns what the window is at.
func (w *Window) work() work {
	return work{w.session.File(), note{
		Path: w.place.path, Mark: w.place.mark, Unsaved: w.session.Now().Unsaved, Open: true,
	}}
}

// sit takes a desk and sweeps up what killed saves have left. Without a desk
// nothing is kept; the program works all the same.
func (w *Window) sit() *store.Desk {
	if w.home == "" {
		return nil
	}
	go func() { // what cannot be swept up does no harm
		store.Sweep(string(w.home), scrapsAge)
		w.home.SweepOpen(openAge)
	}()
	d, err := w.home.Desk(false)
	if err != nil {
		return nil
	}
	return d
}

// begin starts on the work of the last time, or else on the first sample.
func (w *Window) begin() {
	if w.autosave.desk != nil {
		k, err := readWork(w.autosave.desk.Path())
		if err == nil {
			w.crashed = k.Open && k.Unsaved
			w.resume(k)
			return
		}
		w.unread = !errors.Is(err, fs.ErrNotExist)
	}
	if f, err := sample(0); err == nil {
		w.session.Begin(f, "")
	}
}

// resume goes on with some work. Where nothing of it is unsaved the case is as
// its file now has it; else what that file holds now tells what is unsaved.
func (w *Window) resume(k work) {
	var saved casefile.File // as no case can be: all is unsaved
	data, err := store.Read(k.Path, casefile.MaxBytes)
	mark := store.MarkOf(data)
	if err == nil {
		saved, err = casefile.Decode(data)
	}
	switch {
	case k.Path == "" && !k.Unsaved:
		saved = k.file
	case k.Path == "":
		saved = casefile.File{}
	case err != nil: // it is gone, or cannot be read any more
		k.Path, k.Mark, saved = "", "", casefile.File{}
	case !k.Unsaved:
		k.file, k.Mark = withoutNote(saved), mark
	}
	w.shared = w.hold(k.Path, k.Mark)
	w.session.Resume(k.file, saved, k.Path)
}

// greet tells, once the window is there, what happened to the work of the last
// time, and offers what other windows have left.
func (w *Window) greet() {
	words := w.context.Words
	switch {
	case w.crashed:
		w.tell(words.Phrase("file_crashed_title"), words.Phrase("file_crashed", "time", timeOf(w.autosave.desk.Path())))
	case w.unread:
		w.tell(words.Phrase("file_unread_title"), words.Phrase("file_unread", "file", w.asideUnread()))
	case w.shared:
		w.tell(words.Phrase("file_shared_title"), words.Phrase("file_shared", "file", w.place.path))
	}
	if w.autosave.desk != nil {
		w.offer(w.autosave.desk.Left())
	}
}

// asideUnread puts a kept case that cannot be read out of the way, so that it is
// not written over, and returns where it lies.
func (w *Window) asideUnread() string {
	from := w.autosave.desk.Path()
	to := from + ".unread"
	if err := os.Rename(from, to); err != nil {
		w.complain(err)
		return from
	}
	return to
}

func timeOf(path string) string {
	s, err := os.Stat(path)
	if err != nil {
		return "?"
	}
	return s.ModTime().Format("2006-01-02 15:04")
}

// offer asks about the first work that another window has left unsaved; work of
// which nothing is unsaved is cleared away.
func (w *Window) offer(left []*store.Desk) {
	asked := false
	for _, d := range left {
		k, err := readWork(d.Path())
		switch {
		case err == nil && !k.Unsaved:
			w.complain(errors.Join(d.Clear(), d.Release()))
		case err != nil || asked:
			w.complain(d.Release())
		default:
			asked = true
			w.offerWork(d, k)
		}
	}
}

func (w *Window) offerWork(d *store.Desk, k work) {
	words := w.context.Words
	name := k.file.Case.Label
	if k.Path != "" {
		name = filepath.Base(k.Path)
	}
	w.ask(words.Phrase("file_left_title"), words.Phrase("file_left", "case", name, "time", timeOf(d.Path())),
		choice{words.Phrase("file_left_open"), func() { w.leave(func() { w.adopt(d, k) }) }, widget.HighImportance},
		choice{words.Phrase("file_left_later"), func() { w.complain(d.Release()) }, widget.MediumImportance})
}

// adopt goes on with what another window has left. It is cleared there only
// once it is kept here.
func (w *Window) adopt(d *store.Desk, k work) {
	w.resume(k)
	if err := w.autosave.write(w.work()); err != nil {
		w.complain(errors.Join(err, d.Release()))
		return
	}
	w.complain(errors.Join(d.Clear(), d.Release()))
}
