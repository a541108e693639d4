package app

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"rimclear/app/casefile"
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
	w.leave(func() { w.session.Begin(casefile.File{Case: kinematics.Default()}, "") })
}

// openSample begins on a built-in case.
func (w *Window) openSample(i int) {
	w.leave(func() {
		f, err := sample(i)
		if err == nil {
			w.session.Begin(f, "")
		}
		w.complain(err)
	})
}

// OpenFile begins on the case in a file. If it cannot be read the case on
// screen stays.
func (w *Window) OpenFile(path string) error {
	f, err := casefile.Open(path)
	if err != nil {
		return err
	}
	if whole, err := filepath.Abs(path); err == nil {
		path = whole
	}
	w.session.Begin(f, path)
	w.remember(path)
	return nil
}

// remember notes where the last file lies.
func (w *Window) remember(path string) {
	w.settings.Folder = filepath.Dir(path)
	w.saveSettings()
}

// complain shows an error, if there is one.
func (w *Window) complain(err error) {
	if err != nil && w.window != nil {
		dialog.ShowError(err, w.window)
	}
}

func (w *Window) open() {
	w.leave(func() {
		d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
			if r == nil || err != nil {
				w.complain(err)
				return
			}
			path := r.URI().Path()
			if err := r.Close(); err != nil {
				w.complain(err)
			}
			w.complain(w.OpenFile(path))
		}, w.window)
		d.SetFilter(storage.NewExtensionFileFilter([]string{".json"}))
		w.show(d)
	})
}

// show opens a file dialog where the last one ended, large enough to read. The
// toolkit takes a size only once the dialog is open.
func (w *Window) show(d *dialog.FileDialog) {
	if w.settings.Folder != "" {
		if l, err := storage.ListerForURI(storage.NewFileURI(w.settings.Folder)); err == nil {
			d.SetLocation(l)
		}
	}
	d.Show()
	s := w.window.Canvas().Size()
	d.Resize(fyne.NewSize(s.Width*0.8, s.Height*0.8))
}

// save writes the case to its file, or asks for one.
func (w *Window) save() {
	if path := w.session.Now().Path; path != "" {
		w.complain(w.SaveFile(path))
		return
	}
	w.saveAs()
}

// SaveFile writes the case to a file and makes that the case's own.
func (w *Window) SaveFile(path string) error {
	if err := casefile.Save(path, w.session.File()); err != nil {
		return err
	}
	w.session.Saved(path)
	w.remember(path)
	return nil
}

func (w *Window) saveAs() {
	d := dialog.NewFileSave(func(u fyne.URIWriteCloser, err error) {
		if u == nil || err != nil {
			w.complain(err)
			return
		}
		// The dialog has made the file; our own writing replaces it whole.
		path := u.URI().Path()
		if err := u.Close(); err != nil {
			w.complain(err)
			return
		}
		path, err = withEnding(path)
		if err == nil {
			err = w.SaveFile(path)
		}
		w.complain(err)
	}, w.window)
	d.SetFileName(w.suggestion())
	d.SetFilter(storage.NewExtensionFileFilter([]string{".json"}))
	w.show(d)
}

// withEnding adds the ending of our files to a name without any, in place of
// the empty file the dialog has made. A file that is there already stays.
func withEnding(path string) (string, error) {
	if strings.HasSuffix(path, ".json") {
		return path, nil
	}
	whole := path + casefile.Extension
	if _, err := os.Stat(whole); err == nil {
		return "", fmt.Errorf("%s: %w", whole, fs.ErrExist)
	}
	if s, err := os.Stat(path); err == nil && s.Size() == 0 {
		if err := os.Remove(path); err != nil {
			return "", err
		}
	}
	return whole, nil
}

// suggestion is a file name for the case.
func (w *Window) suggestion() string {
	s := w.session.Now()
	if s.Path != "" {
		return filepath.Base(s.Path)
	}
	return w.context.Words.Phrase("window_file_name") + casefile.Extension
}
