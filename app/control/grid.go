package control

import (
	"image"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// GridCell is one design's value in a row, and by how much it differs from the
// base's.
type GridCell struct {
	Value, Change string
	Grey          bool
}

// GridRow is one quantity, a cell for each design. About is the key of the
// number that it shows.
type GridRow struct {
	Name, Help, About string
	Cells             []GridCell
}

func (r GridRow) same(o GridRow) bool {
	return r.Name == o.Name && r.Help == o.Help && r.About == o.About && slices.Equal(r.Cells, o.Cells)
}

// Grid is a table of designs side by side, drawn as one picture. The base is
// the design the others are compared with; another one is made the base by
// pressing the head of its column, or with the arrow keys. A change stands under
// its value, or where the table is dense beside it if there is room.
type Grid struct {
	widget.BaseWidget
	pane

	Dense    bool
	Base     string // the word over the base's column
	BaseHelp string // what pressing the head of a column does
	OnBase   func(i int)
	OnAsk    func(number string)
	Hint     *Hint

	heads   []string
	rows    []GridRow
	base    int
	cursor  int // the row the keyboard is at
	focused bool
	widths  widths
}

// NewGrid returns an empty table.
func NewGrid() *Grid {
	g := &Grid{}
	g.paintedBy(g.Paint)
	g.ExtendBaseWidget(g)
	return g
}

// Display shows rows under the designs' heads.
func (g *Grid) Display(heads []string, rows []GridRow, base int) {
	if base == g.base && slices.Equal(heads, g.heads) && slices.EqualFunc(rows, g.rows, GridRow.same) {
		return
	}
	g.heads, g.rows, g.base = slices.Clone(heads), rows, base
	g.cursor = min(g.cursor, max(len(rows)-1, 0))
	g.Refresh()
}

// Rows returns what is shown.
func (g *Grid) Rows() []GridRow { return g.rows }

// Spaces of a table.
const (
	gridInset = 6
	gridGap   = 3    // above and below a row
	gridHead  = 8    // more of it in the heads
	gridSpace = 5    // between a value and its change
	gridSmall = 0.85 // of the letters of a value without room
)

// high returns the height of a row: of two lines where it has a change or a
// value too wide for one.
func (g *Grid) high(l look, i int) float32 {
	lines := float32(1)
	_, wide := g.column(l, 0)
	for _, c := range g.rows[i].Cells {
		if !g.Dense && (c.Change != "" || g.widths.of(c.Value, l.caption)*gridSmall > wide-gridInset-2) {
			lines = 2
		}
	}
	return lines*word{size: l.caption}.high() + 2*gridGap
}

// foot returns where the last row ends.
func (g *Grid) foot(l look) float32 {
	y := g.head(l)
	for i := range g.rows {
		y += g.high(l, i)
	}
	return y
}

func (g *Grid) head(l look) float32 { return word{size: l.text}.high() + gridHead }

// names returns how wide the column of names is.
func (g *Grid) names(l look) float32 {
	w := float32(0)
	for i := range g.rows {
		w = max(w, g.widths.of(g.rows[i].Name, l.caption))
	}
	return min(w+2*gridInset, g.Size().Width*0.4)
}

// column returns where the i-th column begins and how wide each is.
func (g *Grid) column(l look, i int) (x, wide float32) {
	names := g.names(l)
	wide = (g.Size().Width - names) / float32(max(len(g.heads), 1))
	return names + float32(i)*wide, wide
}

// Paint draws the table in device pixels. The image is used again.
func (g *Grid) Paint(w, h int) image.Image {
	l := lookOf(g)
	k, ok := g.begin(g, w, h, l.Panel)
	if !ok {
		return g.picture
	}
	if n := len(g.heads); n > 0 {
		x, wide := g.column(l, g.base)
		k.rect(x, 0, wide, g.foot(l), l.Paper)
	}
	for i := range g.heads {
		g.paintHead(k, l, i)
	}
	y := g.head(l)
	for i := range g.rows {
		k.rect(0, y, g.Size().Width, 1, l.th.Color(colourSeparator, variant()))
		g.paintRow(k, l, i, y)
		y += g.high(l, i)
	}
	return g.picture
}

func (g *Grid) paintHead(k ink, l look, i int) {
	x, wide := g.column(l, i)
	d := l.Designs[i%len(l.Designs)]
	if i == g.base && g.focused {
		k.rect(x, 0, wide, g.head(l), l.th.Color(colourFocus, variant()))
	}
	t := word{text: g.heads[i], size: l.text, bold: true, colour: opaque(d.Text)}
	right := x + wide - gridInset
	k.text(right-t.wide(), gridHead/2-1, t)
	if i == g.base {
		b := word{text: g.Base, size: l.caption, colour: opaque(l.Soft)}
		if b.wide() <= wide-t.wide()-gridInset-gridSpace { // its ground shows it too
			k.text(right-t.wide()-gridSpace-b.wide(), gridHead/2+1, b)
		}
	}
	k.dashes(x+gridInset, g.head(l)-4, wide-2*gridInset, 2, d.Dash, d.Line)
}

func (g *Grid) paintRow(k ink, l look, i int, y float32) {
	r := &g.rows[i]
	if g.focused && i == g.cursor {
		k.rect(0, y+1, g.names(l), g.high(l, i)-1, l.th.Color(colourFocus, variant()))
	}
	k.text(gridInset, y+gridGap, cut(word{text: r.Name, size: l.caption, colour: opaque(l.Ink)}, g.names(l)-gridInset-2))
	for n, c := range r.Cells {
		if n >= len(g.heads) {
			break
		}
		x, wide := g.column(l, n)
		g.paintCell(k, l, c, x, wide, y+gridGap)
	}
}

// paintCell writes a value with its change under it. Where the table is dense it
// stands beside it, or where both do not fit alone.
func (g *Grid) paintCell(k ink, l look, c GridCell, x, wide, y float32) {
	tone := l.Ink
	if c.Grey {
		tone = l.Soft
	}
	value := word{text: c.Value, size: l.caption, colour: opaque(tone)}
	change := word{text: c.Change, size: l.caption, bold: true, colour: opaque(l.Ink)}
	right, room := x+wide-gridInset, wide-gridInset-2
	line := func(w word, at, y float32) { k.text(at-w.wide(), y, w) }
	parts := []string{c.Value}
	if value.wide() > room {
		value.size *= gridSmall
		if c.Change == "" && !g.Dense && value.wide() > room {
			parts = g.widths.wrap(c.Value, l.caption, room/gridSmall)
		}
	}
	switch {
	case c.Change != "" && g.Dense:
		line(change, right, y)
		if value.wide()+gridSpace+change.wide() <= room {
			line(value, right-change.wide()-gridSpace, y)
		}
		return
	case c.Change != "":
		line(change, right, y+change.high())
	}
	for n, part := range parts {
		if value.text = part; n < 2 {
			line(cut(value, room), right, y+float32(n)*value.high())
		}
	}
}

// rowAt returns the row at a height, -1 for none.
func (g *Grid) rowAt(y float32) int {
	l := lookOf(g)
	foot := g.head(l)
	for i := range g.rows {
		top := foot
		if foot += g.high(l, i); y >= top && y < foot {
			return i
		}
	}
	return -1
}

// Tapped makes the design whose head is pressed the base, and asks about the
// number of a row.
func (g *Grid) Tapped(e *fyne.PointEvent) {
	focus(g)
	l := lookOf(g)
	if i := g.rowAt(e.Position.Y); i >= 0 {
		g.cursor = i
		g.redraw()
		g.ask()
		return
	}
	for i := range g.heads {
		if x, wide := g.column(l, i); e.Position.X >= x && e.Position.X < x+wide {
			g.choose(i)
		}
	}
}

// Number returns the key of the number in the row the keyboard is at.
func (g *Grid) Number() string {
	if g.cursor >= len(g.rows) {
		return ""
	}
	return g.rows[g.cursor].About
}

func (g *Grid) ask() {
	if key := g.Number(); key != "" && g.OnAsk != nil {
		g.OnAsk(key)
	}
}

func (g *Grid) choose(i int) {
	if i >= 0 && i < len(g.heads) && i != g.base && g.OnBase != nil {
		g.OnBase(i)
	}
}

// TypedKey makes the next or the last column the base, goes from row to row, and
// asks about a number with F2 or Enter.
func (g *Grid) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft:
		g.choose(g.base - 1)
	case fyne.KeyRight:
		g.choose(g.base + 1)
	case fyne.KeyUp:
		g.cursor = max(g.cursor-1, 0)
	case fyne.KeyDown:
		g.cursor = min(g.cursor+1, max(len(g.rows)-1, 0))
	case fyne.KeyF2, fyne.KeyReturn, fyne.KeyEnter:
		g.ask()
	}
	g.redraw()
}

// TypedRune does nothing.
func (g *Grid) TypedRune(rune) {}

// FocusGained shows the focus.
func (g *Grid) FocusGained() { g.focused = true; g.redraw() }

// FocusLost hides it.
func (g *Grid) FocusLost() { g.focused = false; g.redraw() }

// MouseIn offers the help of the row.
func (g *Grid) MouseIn(e *desktop.MouseEvent) { g.MouseMoved(e) }

// MouseMoved offers the help of the row, or of the heads.
func (g *Grid) MouseMoved(e *desktop.MouseEvent) {
	l := lookOf(g)
	if e.Position.Y < g.head(l) {
		g.Hint.Offer(&g.heads, g.BaseHelp, e.AbsolutePosition)
		return
	}
	if i := g.rowAt(e.Position.Y); i >= 0 {
		g.Hint.Offer(&g.rows[i], g.rows[i].Help, e.AbsolutePosition)
		return
	}
	g.Hint.Withdraw(nil)
}

// MouseOut takes it away.
func (g *Grid) MouseOut() { g.Hint.Withdraw(nil) }

// CreateRenderer makes the drawing.
func (g *Grid) CreateRenderer() fyne.WidgetRenderer { return &gridRenderer{g} }

type gridRenderer struct{ g *Grid }

func (r *gridRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.g.raster} }
func (r *gridRenderer) Destroy()                     {}
func (r *gridRenderer) Layout(size fyne.Size)        { r.g.raster.Resize(size) }

func (r *gridRenderer) MinSize() fyne.Size {
	l := lookOf(r.g)
	return whole(fyne.NewSize(240, r.g.foot(l)+1))
}

func (r *gridRenderer) Refresh() {
	canvas.Refresh(r.g)
	r.g.redraw()
}
