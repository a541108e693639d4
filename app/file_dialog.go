package app

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
)

// chooseFile asks for a file with one of the endings.
func (w *Window) chooseFile(endings []string, read func(path string) error) {
	d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
		if r == nil || err != nil {
			w.complain(err)
			return
		}
		path := r.URI().Path()
		w.complain(r.Close())
		w.complain(read(path))
	}, w.window)
	d.SetFilter(storage.NewExtensionFileFilter(endings))
	w.show(d)
}

// chooseName asks for the file to write. The dialog opens it for writing, which,
// with the storage of this program (whole), does nothing to it.
func (w *Window) chooseName(name, ending string, write func(path string)) {
	d := dialog.NewFileSave(func(u fyne.URIWriteCloser, err error) {
		if u == nil || err != nil {
			w.complain(err)
			return
		}
		path := u.URI().Path()
		w.complain(u.Close())
		// Space on the button that led here is also typed into the name.
		write(filepath.Join(filepath.Dir(path), strings.TrimSpace(filepath.Base(path))))
	}, w.window)
	d.SetFileName(name)
	d.SetFilter(storage.NewExtensionFileFilter([]string{ending}))
	w.show(d)
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
