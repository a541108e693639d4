package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/control"
)

// reader is a book over the window: its pages listed at the left, the page that
// is open at the right. It is read with the pointer or the keyboard: arrows up
// and down, or Page up and down, turn pages; Escape closes it.
type reader struct {
	w     *Window
	pages []string
	turn  func(page int) []fyne.CanvasObject

	list   *control.Sheet
	side   *container.Scroll
	scroll *container.Scroll
	page   *fyne.Container
	popup  *widget.PopUp
	at     int
	quiet  bool // the list is moved from here
}

// open shows a book at a page.
func (w *Window) openBook(title string, pages []string, at int, turn func(int) []fyne.CanvasObject) *reader {
	r := &reader{w: w, pages: pages, turn: turn, list: control.NewSheet(), page: container.NewVBox()}
	r.list.OnChoose = r.show
	r.list.OnCursor = r.moved
	r.list.OnKey = r.typed
	r.scroll = container.NewVScroll(r.page)
	name := widget.NewLabel(title)
	name.TextStyle.Bold, name.SizeName = true, theme.SizeNameSubHeadingText
	words := w.context.Words
	chip := func(key string, act func()) *closer {
		c := newCloser(words.Phrase(key), words.Phrase(key+"_help"), act, r.close)
		c.Hint = w.context.Hint
		return c
	}
	back := chip("guide_back", func() { r.step(-1) })
	next := chip("guide_next", func() { r.step(1) })
	shut := chip("guide_close", r.close)
	head := container.NewBorder(nil, nil, name, container.NewHBox(back, next, shut))
	r.side = container.NewVScroll(r.list)
	body := container.New(readerLayout{}, r.side, r.scroll)
	r.popup = widget.NewModalPopUp(container.New(layout.NewCustomPaddedLayout(6, 6, 8, 8), container.NewBorder(head, nil, nil, nil, body)), w.window.Canvas())
	s := w.window.Canvas().Size()
	k := w.context.Theme.Size(theme.SizeNameText) / 13
	r.popup.Resize(fyne.NewSize(min(s.Width*0.94, 980*k), min(s.Height*0.92, 700*k)))
	r.popup.Show()
	r.show(min(max(at, 0), len(pages)-1))
	w.window.Canvas().Focus(r.list)
	return r
}

// show opens a page.
func (r *reader) show(at int) {
	rows := make([]control.SheetRow, len(r.pages))
	for i, p := range r.pages {
		rows[i] = control.SheetRow{Name: p, Chosen: i == at, Help: p}
	}
	r.list.Display(rows)
	r.at, r.quiet = at, true
	r.list.MoveTo(at)
	r.quiet = false
	r.page.Objects = r.turn(at)
	r.page.Refresh()
	r.scroll.ScrollToTop()
}

// moved follows the list, and keeps the row in sight.
func (r *reader) moved(top, bottom float32) {
	y := max(min(r.side.Offset.Y, top), bottom-r.side.Size().Height)
	r.side.ScrollToOffset(fyne.NewPos(0, y))
	if !r.quiet {
		r.show(r.list.Cursor())
	}
}

func (r *reader) step(by int) {
	if at := r.at + by; at >= 0 && at < len(r.pages) {
		r.show(at)
	}
}

func (r *reader) typed(k fyne.KeyName) {
	switch k {
	case fyne.KeyEscape:
		r.close()
	case fyne.KeyRight, fyne.KeyPageDown:
		r.step(1)
	case fyne.KeyLeft, fyne.KeyPageUp:
		r.step(-1)
	case fyne.KeyHome:
		r.show(0)
	case fyne.KeyEnd:
		r.show(len(r.pages) - 1)
	}
}

func (r *reader) close() { r.popup.Hide() }

// readerLayout lays the list of pages beside the page.
type readerLayout struct{}

func (readerLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(420, 240) }

func (readerLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	const gap = 10
	wide := min(max(size.Width*0.27, 150), 270)
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(wide, size.Height))
	o[1].Move(fyne.NewPos(wide+gap, 0))
	o[1].Resize(fyne.NewSize(size.Width-wide-gap, size.Height))
}

// closer is a chip of a sheet, which Escape closes.
type closer struct {
	*control.Chip
	leave func()
}

func newCloser(text, help string, act, leave func()) *closer {
	return &closer{control.NewChip(text, help, act), leave}
}

// TypedKey closes the sheet with Escape.
func (c *closer) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyEscape {
		c.leave()
		return
	}
	c.Chip.TypedKey(e)
}

// heading and paragraph are the words of a page.
func heading(text string, size fyne.ThemeSizeName) fyne.CanvasObject {
	l := widget.NewLabel(text)
	l.TextStyle.Bold, l.SizeName, l.Wrapping = true, size, fyne.TextWrapWord
	return l
}

func paragraph(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	return l
}
