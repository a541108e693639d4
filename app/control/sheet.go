package control

import (
	"image"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// SheetRow is one row of a sheet: a heading, or a name with its value at the
// right and words below. A box before the name can be ticked; a mark shows a
// state by shape and colour.
type SheetRow struct {
	Heading       bool
	Boxed, Ticked bool
	Marked        bool
	State         State
	Name, Value   string
	Below         string
	Help          string // shown as a hint
	About         string // the key of the number the row shows
	Grey          bool
	Chosen        bool
}

// Sheet is a list drawn as one picture. Rows can be ticked and chosen, with the
// pointer or the keyboard.
type Sheet struct {
	widget.BaseWidget
	pane

	Hint     *Hint
	OnTick   func(row int)
	OnChoose func(row int)
	OnCursor func(top, bottom float32) // the keyboard has moved to a row
	OnAsk    func(number string)       // what is the number of a row
	OnKey    func(fyne.KeyName)        // any other key
	AskHint  string                    // of a row with a number and no help of its own

	rows    []SheetRow
	cursor  int
	focused bool
	tops    []float32 // of each row, and the foot of the last
	lines   []rowLines
	wide    float32 // at which they were laid out
	widths  widths
}

// NewSheet returns an empty sheet.
func NewSheet() *Sheet {
	s := &Sheet{}
	s.paintedBy(s.Paint)
	s.ExtendBaseWidget(s)
	return s
}

// Display shows the rows.
func (s *Sheet) Display(rows []SheetRow) {
	if same(s.rows, rows) {
		return
	}
	s.rows = append(s.rows[:0], rows...)
	s.cursor = min(s.cursor, max(len(rows)-1, 0))
	s.Refresh()
}

func same(a, b []SheetRow) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// Rows returns what is shown.
func (s *Sheet) Rows() []SheetRow { return s.rows }

// Spaces of a sheet.
const (
	sheetGap    = 4 // above and below a row
	sheetBox    = 13
	sheetMark   = 9
	sheetInset  = 6
	sheetIndent = sheetInset + sheetBox + 7
)

// Paint draws the sheet in device pixels. The image is used again.
func (s *Sheet) Paint(w, h int) image.Image {
	l := lookOf(s)
	k, ok := s.begin(s, w, h, l.Panel)
	if !ok {
		return s.picture
	}
	if wide := s.Size().Width; s.wide != wide || len(s.tops) != len(s.rows)+1 {
		s.arrange(wide)
	}
	for i := range s.rows {
		s.paintRow(k, l, i)
	}
	return s.picture
}

func (s *Sheet) paintBox(k ink, l look, ticked bool, y float32) {
	k.rect(sheetInset, y, sheetBox, sheetBox, l.Axis)
	k.rect(sheetInset+1, y+1, sheetBox-2, sheetBox-2, l.Paper)
	if ticked {
		k.rect(sheetInset+3, y+3, sheetBox-6, sheetBox-6, l.Designs[0].Text)
	}
}

// rowAt returns the row at a height, -1 for none.
func (s *Sheet) rowAt(y float32) int {
	for i := range s.rows {
		if i+1 < len(s.tops) && y >= s.tops[i] && y < s.tops[i+1] {
			return i
		}
	}
	return -1
}

// Tapped ticks the box under the pointer, or chooses the row.
func (s *Sheet) Tapped(e *fyne.PointEvent) {
	i := s.rowAt(e.Position.Y)
	if i < 0 || s.rows[i].Heading {
		return
	}
	s.cursor = i
	if s.rows[i].Boxed && e.Position.X < sheetIndent {
		s.tick(i)
		return
	}
	s.choose(i)
}

func (s *Sheet) tick(i int) {
	if s.OnTick != nil && s.rows[i].Boxed {
		s.OnTick(i)
	}
}

func (s *Sheet) choose(i int) {
	if s.OnChoose == nil {
		s.ask(i)
	}
	if s.OnChoose != nil {
		s.OnChoose(i)
	}
}

// TypedKey moves from row to row; Space ticks, Enter chooses.
func (s *Sheet) TypedKey(e *fyne.KeyEvent) {
	if len(s.rows) == 0 {
		return
	}
	switch e.Name {
	case fyne.KeyDown:
		s.step(1)
	case fyne.KeyUp:
		s.step(-1)
	case fyne.KeySpace:
		if !s.rows[s.cursor].Heading {
			s.tick(s.cursor)
		}
	case fyne.KeyReturn, fyne.KeyEnter:
		if !s.rows[s.cursor].Heading {
			s.choose(s.cursor)
		}
	case fyne.KeyF2:
		s.ask(s.cursor)
	default:
		if s.OnKey != nil {
			s.OnKey(e.Name)
		}
	}
}

func (s *Sheet) step(by int) {
	i := s.cursor + by
	for i >= 0 && i < len(s.rows) && s.rows[i].Heading {
		i += by
	}
	if i < 0 || i >= len(s.rows) {
		return
	}
	s.cursor = i
	s.redraw()
	if s.OnCursor != nil && i+1 < len(s.tops) {
		s.OnCursor(s.tops[i], s.tops[i+1])
	}
}

// TypedRune does nothing.
func (s *Sheet) TypedRune(rune) {}

// FocusGained shows the row the keyboard is at.
func (s *Sheet) FocusGained() {
	s.focused = true
	if len(s.rows) > 0 && s.rows[s.cursor].Heading {
		s.step(1)
	}
	s.redraw()
}

// FocusLost hides it.
func (s *Sheet) FocusLost() { s.focused = false; s.redraw() }

// MouseIn offers the help of the row.
func (s *Sheet) MouseIn(e *desktop.MouseEvent) { s.MouseMoved(e) }

// MouseMoved offers the help of the row.
func (s *Sheet) MouseMoved(e *desktop.MouseEvent) {
	if i := s.rowAt(e.Position.Y); i >= 0 {
		help := s.rows[i].Help
		if s.rows[i].About != "" && s.AskHint != "" {
			help = strings.TrimSpace(help + "\n" + s.AskHint)
		}
		if help != "" {
			s.Hint.Offer(&s.rows[i], help, e.AbsolutePosition)
			return
		}
	}
	s.Hint.Withdraw(nil)
}

// MouseOut takes it away.
func (s *Sheet) MouseOut() { s.Hint.Withdraw(nil) }

// CreateRenderer makes the drawing.
func (s *Sheet) CreateRenderer() fyne.WidgetRenderer { return &sheetRenderer{s} }

type sheetRenderer struct{ s *Sheet }

func (r *sheetRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.s.raster} }
func (r *sheetRenderer) Destroy()                     {}

func (r *sheetRenderer) MinSize() fyne.Size {
	s := r.s
	if len(s.tops) != len(s.rows)+1 {
		wide := s.Size().Width
		if wide <= 0 {
			wide = 240
		}
		s.arrange(wide)
	}
	return fyne.NewSize(160, s.tops[len(s.rows)])
}

func (r *sheetRenderer) Layout(size fyne.Size) {
	if r.s.wide != size.Width {
		r.s.arrange(size.Width)
	}
	r.s.raster.Resize(size)
}

func (r *sheetRenderer) Refresh() {
	s := r.s
	if s.Size().Width > 0 {
		s.arrange(s.Size().Width)
	}
	canvas.Refresh(s)
	s.redraw()
}
