package app

import (
	"errors"
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/casefile"
	"rimclear/app/store"
)

// place is where the case on screen lies.
type place struct {
	path  string     // "" if it has no file
	mark  store.Mark // what the file held when this window last read or wrote it
	claim *store.Claim
}

// hold notes where the case on screen lies, and reports whether another window
// has that file open too.
func (w *Window) hold(path string, mark store.Mark) (shared bool) {
	if path == w.place.path && path != "" {
		w.place.mark = mark
		return w.place.claim == nil
	}
	w.place.claim.Release()
	w.place = place{path: path, mark: mark}
	if path == "" || w.home == "" {
		return false
	}
	claim, err := w.home.Open(path)
	w.place.claim = claim
	return claim == nil && err == nil
}

// danger is why saving to a file could destroy somebody else's work: the key of
// a phrase, "" for no reason.
func (w *Window) danger(path string) (string, error) {
	if path == w.place.path {
		changed, err := w.place.mark.Changed(path, casefile.MaxBytes)
		if changed {
			return "file_changed", nil
		}
		return "", err
	}
	if w.home == "" {
		return "", nil
	}
	claim, err := w.home.Open(path)
	switch {
	case err != nil:
		return "", nil // nobody can say; the save itself will tell what is wrong
	case claim == nil:
		return "file_elsewhere", nil
	}
	return "", claim.Release()
}

// saveTo writes the case to a file, but asks first where that could destroy
// somebody else's work.
func (w *Window) saveTo(path string) {
	reason, err := w.danger(path)
	if err != nil || reason == "" {
		w.complain(errors.Join(err, w.SaveFile(path)))
		return
	}
	words := w.context.Words
	w.ask(words.Phrase("file_overwrite_title"), words.Phrase(reason, "file", path), w.overwriting(path)...)
}

// overwriting are the answers to whether a file may be overwritten.
func (w *Window) overwriting(path string) []choice {
	words := w.context.Words
	return []choice{
		{words.Phrase("file_overwrite"), func() { w.complain(w.SaveFile(path)) }, widget.DangerImportance},
		{words.Phrase("file_other_name"), w.saveAs, widget.HighImportance},
		{words.Phrase("file_cancel"), func() {}, widget.MediumImportance},
	}
}

// choice is one answer to a question.
type choice struct {
	word  string
	act   func()
	shown widget.Importance
}

// ask puts a question with some answers. Escape is no answer. A text too long
// for the window is scrolled.
func (w *Window) ask(title, text string, choices ...choice) {
	label := widget.NewLabel(text)
	label.Wrapping = fyne.TextWrapWord
	s := w.window.Canvas().Size()
	width, height := min(520, max(s.Width*0.8, 320)), float32(0)
	label.Resize(fyne.NewSize(width-8*theme.Padding(), 0)) // else its height is that of a narrow one
	var body fyne.CanvasObject = label
	if label.MinSize().Height > s.Height*0.6 {
		body, height = container.NewVScroll(label), s.Height*0.8
	}
	d := dialog.NewCustomWithoutButtons(title, body, w.window)
	var buttons []fyne.CanvasObject
	for _, c := range choices {
		b := widget.NewButton(c.word, func() {
			d.Hide()
			c.act()
		})
		b.Importance = c.shown
		buttons = append(buttons, b)
	}
	d.SetButtons(buttons)
	d.Resize(fyne.NewSize(width, height))
	d.Show()
	d.Resize(fyne.NewSize(width, height)) // now that the words know how wide they are
}

// tell says something that asks for no answer.
func (w *Window) tell(title, text string) {
	w.ask(title, text, choice{w.context.Words.Phrase("window_close"), func() {}, widget.MediumImportance})
}

func isFile(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}
