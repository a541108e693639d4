package app

import (
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"

	"rimclear/app/store"
	"rimclear/app/view"
	"rimclear/kinematics/motion"
)

// mostRecording bounds the file of a recording, in bytes.
const mostRecording = 32 << 20

// recordingEndings are how the names of recordings end.
var recordingEndings = []string{".csv", ".txt", ".tsv", ".mot", ".sto", ".dat"}

// isRecording reports whether a file's name ends as those of recordings do.
func isRecording(path string) bool {
	return slices.Contains(recordingEndings, strings.ToLower(filepath.Ext(path)))
}

// dropped opens a case file, or reads a recording, that was dropped on the
// window.
func (w *Window) dropped(_ fyne.Position, files []fyne.URI) {
	words := w.context.Words
	switch {
	case len(files) == 0:
	case len(files) > 1 || files[0].Scheme() != "file":
		w.tell(words.Phrase("file_drop_title"), words.Phrase("file_drop"))
	case isRecording(files[0].Path()):
		w.complain(w.OpenRecording(files[0].Path()))
	default:
		w.leave(func() { w.complain(w.OpenFile(files[0].Path())) })
	}
}

// discards are the items that take a recording out of the case.
func (w *Window) discards() (items []*fyne.MenuItem) {
	for _, r := range w.session.File().Recordings {
		items = append(items, fyne.NewMenuItem(r.Name, func() { w.session.Discard(r.Key) }))
	}
	return items
}

// readRecording asks for the file of a recording.
func (w *Window) readRecording() {
	w.chooseFile(recordingEndings, w.OpenRecording)
}

// OpenRecording reads the table in a file and asks how its columns are to be
// read. Nothing changes until that is answered.
func (w *Window) OpenRecording(path string) error {
	data, err := store.Read(path, mostRecording)
	if err != nil {
		return err
	}
	t, err := motion.ReadTable(strings.NewReader(string(data)))
	if err != nil {
		return err
	}
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	w.askMapping(view.NewMapping(w.context, t, name))
	return nil
}

// askMapping shows the mapping until it is taken, or given up.
func (w *Window) askMapping(m *view.Mapping) {
	words := w.context.Words
	scroll := container.NewVScroll(m.Object())
	var ask *dialog.ConfirmDialog
	ask = dialog.NewCustomConfirm(words.Phrase("record_title"), words.Phrase("record_take"), words.Phrase("record_leave"), scroll, func(yes bool) {
		if !yes {
			return
		}
		key, err := m.Take()
		if err != nil {
			w.complain(err)
			ask.Show()
			return
		}
		w.pages.Open(view.TargetView)
		w.pages.Target().ShowMotion(key)
	}, w.window)
	s := w.window.Canvas().Size()
	ask.Resize(fyne.NewSize(min(560, s.Width*0.8), s.Height*0.86))
	ask.Show()
}
