package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/casefile"
	"rimclear/app/control"
	"rimclear/app/session"
)

// askLabel asks for the case's free label, and says what does not belong there.
func (w *Window) askLabel() {
	words := w.context.Words
	entry := control.NewLine()
	entry.SetText(w.session.Now().Case.Label)
	entry.Validator = func(s string) error {
		f := casefile.File{Case: w.session.Now().Case}
		f.Case.Label = s
		_, err := casefile.Encode(f)
		return err
	}
	note := widget.NewLabel(words.Phrase("file_label_note"))
	note.Wrapping, note.SizeName = fyne.TextWrapWord, theme.SizeNameCaptionText
	d := dialog.NewCustomConfirm(words.Phrase("file_label_title"), words.Phrase("file_label_take"), words.Phrase("file_cancel"),
		container.NewVBox(entry, note), func(yes bool) {
			if !yes {
				return
			}
			if err := entry.Validate(); err != nil {
				w.complain(err)
				return
			}
			w.relabel(entry.Text)
		}, w.window)
	s := w.window.Canvas().Size()
	d.Resize(fyne.NewSize(min(560, s.Width*0.8), 0))
	d.Show()
	w.window.Canvas().Focus(entry)
}

// relabel gives the case another label, as one step.
func (w *Window) relabel(label string) {
	w.session.Reword(session.Step{Key: "label", Design: -1}, func(f *casefile.File) { f.Case.Label = label })
}
