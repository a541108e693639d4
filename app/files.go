package app

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2/dialog"

	"rimclear/app/casefile"
	"rimclear/app/store"
	"rimclear/kinematics"
)

// fileName returns a path's name without the ending of our files.
func fileName(path string) string {
	return strings.TrimSuffix(filepath.Base(path), casefile.Extension)
}

// leave goes on once the user does not mind losing what is not saved.
func (w *Window) leave(go_ func()) {
	if !w.session.Now().Unsaved {
		go_()
		return
	}
	words := w.context.Words
	d := dialog.NewConfirm(words.Phrase("window_leave_title"), words.Phrase("window_leave"), func(yes bool) {
		if yes {
			go_()
		}
	}, w.window)
	d.SetConfirmText(words.Phrase("window_leave_yes"))
	d.SetDismissText(words.Phrase("window_leave_no"))
	d.Show()
}

// newCase begins on a case with every value at its default.
func (w *Window) newCase() {
	w.leave(func() {
		w.hold("", "")
		w.session.Begin(casefile.File{Case: kinematics.Default()}, "")
	})
}

// openSample begins on a built-in case.
func (w *Window) openSample(i int) {
	w.leave(func() {
		f, err := sample(i)
		if err == nil {
			w.hold("", "")
			w.session.Begin(f, "")
		}
		w.complain(err)
	})
}

// OpenFile begins on the case in a file. If it cannot be read the case on
// screen stays. What is worth knowing of the file is told.
func (w *Window) OpenFile(path string) error {
	c, err := readCase(path)
	if err != nil {
		return err
	}
	w.beginOn(c)
	return nil
}

// fileCase is a case as it was read from a file.
type fileCase struct {
	path string // whole
	file casefile.File
	mark store.Mark
}

// readCase reads the case in a file. A fault names the file.
func readCase(path string) (fileCase, error) {
	if whole, err := filepath.Abs(path); err == nil {
		path = whole
	}
	data, err := store.Read(path, casefile.MaxBytes)
	if err != nil {
		return fileCase{}, err
	}
	f, err := casefile.Decode(data)
	if err != nil {
		return fileCase{}, fmt.Errorf("%s:\n%w", path, err)
	}
	return fileCase{path, withoutNote(f), store.MarkOf(data)}, nil
}

// beginOn begins on a case that was read, and tells what is worth knowing of
// its file.
func (w *Window) beginOn(c fileCase) {
	shared := w.hold(c.path, c.mark)
	w.session.Begin(c.file, c.path)
	w.at(c.path)
	words := w.context.Words
	if shared {
		w.tell(words.Phrase("file_shared_title"), words.Phrase("file_shared", "file", c.path))
	}
	if unknown := c.file.Unknown(); len(unknown) > 0 {
		w.tell(words.Phrase("file_unknown_title"), words.Phrase("file_unknown", "fields", strings.Join(unknown, ", ")))
	}
}

// at notes the file the window is at, for the next dialog and the menu.
func (w *Window) at(path string) {
	w.settings.Folder = filepath.Dir(path)
	w.saveSettings()
	w.recall(path)
}

// complain shows an error, if there is one.
func (w *Window) complain(err error) {
	if err != nil && w.window != nil {
		w.tell(w.context.Words.Phrase("file_fault_title"), err.Error())
	}
}

func (w *Window) open() {
	w.leave(func() { w.chooseFile([]string{".json"}, w.OpenFile) })
}

// save writes the case to its file, or asks for one.
func (w *Window) save() {
	if path := w.session.Now().Path; path != "" {
		w.saveTo(path)
		return
	}
	w.saveAs()
}

// SaveFile writes the case to a file, whatever is there, and makes that the
// case's own.
func (w *Window) SaveFile(path string) error {
	data, err := casefile.Encode(withoutNote(w.session.File()))
	if err != nil {
		return err
	}
	err = store.Write(path, data)
	if fault := (*store.Fault)(nil); err != nil && !(errors.As(err, &fault) && fault.Replaced()) {
		return err
	}
	w.hold(path, store.MarkOf(data))
	w.session.Saved(path)
	w.at(path)
	return err
}

// saveAs asks for a file.
func (w *Window) saveAs() { w.chooseName(w.suggestion(), ".json", w.saveNamed) }

// saveNamed writes the case to the file that was named, with the ending of our
// files where it was named without one. The dialog has asked about the name as
// it was typed; about the whole one it is asked here.
func (w *Window) saveNamed(path string) {
	if strings.HasSuffix(path, ".json") {
		w.saveTo(path)
		return
	}
	path += casefile.Extension
	if !isFile(path) {
		w.saveTo(path)
		return
	}
	words := w.context.Words
	w.ask(words.Phrase("file_overwrite_title"), words.Phrase("file_exists", "file", path), w.overwriting(path)...)
}

// suggestion is a file name for the case.
func (w *Window) suggestion() string {
	s := w.session.Now()
	if s.Path != "" {
		return filepath.Base(s.Path)
	}
	return w.context.Words.Phrase("window_file_name") + casefile.Extension
}
