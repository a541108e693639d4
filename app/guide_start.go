package app

import (
	"errors"
	"io/fs"
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/control"
	"rimclear/app/store"
	"rimclear/assets"
)

// showStart offers, at the very first start, the cases one may begin with. The
// first is open already; Escape, or a choice, closes the sheet.
func (w *Window) showStart() {
	words := w.context.Words
	list := control.NewSheet()
	var rows []control.SheetRow
	for i, s := range assets.Cases() {
		rows = append(rows, control.SheetRow{Name: words.Sample(s.Name), Below: words.SampleNote(s.Name), Chosen: i == 0})
	}
	list.Display(append(rows, control.SheetRow{Name: words.Phrase("guide_start_guide"), Below: words.Phrase("guide_start_guide_note")}))
	title := widget.NewLabel(words.Phrase("guide_start"))
	title.TextStyle.Bold, title.SizeName = true, theme.SizeNameSubHeadingText
	note := paragraph(words.Phrase("guide_start_note"))
	note.SizeName = theme.SizeNameCaptionText
	var popup *widget.PopUp
	shut := func() { popup.Hide() }
	list.OnKey = func(k fyne.KeyName) {
		if k == fyne.KeyEscape {
			shut()
		}
	}
	list.OnChoose = func(i int) {
		shut()
		switch {
		case i >= len(rows):
			w.showGuide()
		case i > 0:
			w.openSample(i)
		}
	}
	close := newCloser(words.Phrase("guide_close"), words.Phrase("guide_close_help"), shut, shut)
	close.Hint = w.context.Hint
	head := container.NewBorder(nil, nil, title, container.NewHBox(close))
	popup = widget.NewModalPopUp(container.NewBorder(head, note, nil, nil, container.NewVScroll(list)), w.window.Canvas())
	s := w.window.Canvas().Size()
	k := w.context.Theme.Size(theme.SizeNameText) / 13
	popup.Resize(fyne.NewSize(min(620*k, s.Width*0.9), min(430*k, s.Height*0.9)))
	popup.Show()
	w.window.Canvas().Focus(list)
}

// firstStart reports whether the program was never closed here before.
func firstStart() bool {
	home, err := store.UserHome()
	if err != nil {
		return false
	}
	_, err = os.Stat(home.Path("settings.json"))
	return errors.Is(err, fs.ErrNotExist)
}
