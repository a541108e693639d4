package app

import (
	"errors"
	"io/fs"
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
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
	var rows []control.SheetRow
	for i, s := range assets.Cases() {
		rows = append(rows, control.SheetRow{Name: words.Sample(s.Name), Below: words.SampleNote(s.Name), Chosen: i == 0})
	}
	samples := len(rows)
	rows = append(rows,
		control.SheetRow{Name: words.Phrase("guide_start_guide"), Below: words.Phrase("guide_start_guide_note")},
		control.SheetRow{Name: words.Phrase("guide_start_note"), Grey: true})
	list, shut := w.openList(words.Phrase("guide_start"), rows)
	list.OnChoose = func(i int) {
		shut()
		switch {
		case i == samples:
			w.showGuide()
		case i > 0 && i < samples:
			w.openSample(i)
		}
	}
}

// openList shows rows over the window, until Escape or the chip that closes.
func (w *Window) openList(title string, rows []control.SheetRow) (list *control.Sheet, shut func()) {
	words := w.context.Words
	list = control.NewSheet()
	list.Display(rows)
	name := widget.NewLabel(title)
	name.TextStyle.Bold, name.SizeName = true, theme.SizeNameSubHeadingText
	var popup *widget.PopUp
	shut = func() { popup.Hide() }
	close := newCloser(words.Phrase("guide_close"), words.Phrase("guide_close_help"), shut, shut)
	close.Hint = w.context.Hint
	head := container.NewBorder(nil, nil, name, container.NewHBox(close))
	scroll := container.NewVScroll(list)
	list.OnKey = func(k fyne.KeyName) {
		if k == fyne.KeyEscape {
			shut()
		}
	}
	list.OnCursor = func(top, bottom float32) {
		y := max(min(scroll.Offset.Y, top), bottom-scroll.Size().Height)
		scroll.ScrollToOffset(fyne.NewPos(0, y))
	}
	popup = widget.NewModalPopUp(container.New(layout.NewCustomPaddedLayout(6, 6, 8, 8), container.NewBorder(head, nil, nil, nil, scroll)), w.window.Canvas())
	s := w.window.Canvas().Size()
	k := w.context.Theme.Size(theme.SizeNameText) / 13
	wide := min(620*k, s.Width*0.9)
	list.Resize(fyne.NewSize(wide-16, 1))
	popup.Resize(fyne.NewSize(wide, min(head.MinSize().Height+list.MinSize().Height+24, s.Height*0.9)))
	popup.Show()
	w.window.Canvas().Focus(list)
	return list, shut
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
