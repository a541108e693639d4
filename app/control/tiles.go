package control

import (
	"image"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/scene"
)

// Tile is one scene of Tiles, with its title above it and words below.
type Tile struct {
	Instances []scene.Instance
	Title     string
	Lines     [2]string // the first is bold, after the mark of the state
	State     State
	Mark      r3.Vec // ringed unless free: of a right hip, mm from the head centre
}

// MostTiles is how many scenes stand side by side.
const MostTiles = 4

// Tiles are scenes seen by one camera, drawn as one picture: the toolkit pays
// for the pixels of each picture it is given. Dragging turns all alike.
type Tiles struct {
	widget.BaseWidget
	view
	pane

	OnDrawn  func(time.Duration)
	OnChoose func(i int)

	tiles  [MostTiles]Tile
	count  int
	chosen int

	renderer scene.Renderer
	parts    [MostTiles]*image.RGBA // of picture
	widths   widths
	dragging bool
	focused  bool
}

// NewTiles returns an empty picture that looks from home.
func NewTiles(home scene.Camera) *Tiles {
	t := &Tiles{}
	t.Home, t.camera, t.changed = home, home, t.redraw
	t.paintedBy(t.Paint)
	t.ExtendBaseWidget(t)
	return t
}

// Display shows so many of the tiles; chosen is framed.
func (t *Tiles) Display(tiles *[MostTiles]Tile, count, chosen int) {
	t.tiles, t.count, t.chosen = *tiles, count, chosen
	t.redraw()
}

// Tile returns what the i-th tile shows.
func (t *Tiles) Tile(i int) Tile { return t.tiles[i] }

// Count returns how many tiles there are.
func (t *Tiles) Count() int { return t.count }

// Spaces of the tiles.
const (
	tileGap   = 6
	tileInset = 6
)

// shape returns in how many columns and rows so many tiles are largest, without
// a row that is nearly empty.
func shape(count int, size fyne.Size, words float32) (columns, rows int) {
	best := float32(math.Inf(-1))
	for c := 1; c <= count; c++ {
		r := (count + c - 1) / c
		if r*c-count > 1 {
			continue
		}
		wide := size.Width/float32(c) - tileGap
		high := size.Height/float32(r) - tileGap - words
		if side := min(wide, high); side >= best {
			best, columns, rows = side, c, r
		}
	}
	return columns, rows
}

// bounds returns where the i-th tile lies, and in it the scene.
func (t *Tiles) bounds(i int) (whole, picture fyne.Position, size, inner fyne.Size) {
	l, all := lookOf(t), t.Size()
	head := word{size: l.text}.high() + 6
	foot := word{size: l.text}.high() + 2*word{size: l.caption}.high() + 6
	columns, rows := shape(t.count, all, head+foot)
	size = fyne.NewSize((all.Width-tileGap*float32(columns-1))/float32(columns), (all.Height-tileGap*float32(rows-1))/float32(rows))
	whole = fyne.NewPos(float32(i%columns)*(size.Width+tileGap), float32(i/columns)*(size.Height+tileGap))
	return whole, whole.AddXY(1, head), size, fyne.NewSize(max(size.Width-2, 1), max(size.Height-head-foot, 1))
}

// Paint draws the tiles in device pixels. The image is used again.
func (t *Tiles) Paint(w, h int) image.Image {
	start := time.Now()
	l := lookOf(t)
	if t.sized(w, h) {
		t.parts = [MostTiles]*image.RGBA{}
	}
	k, ok := t.begin(t, w, h, l.Panel)
	if !ok {
		return t.picture
	}
	t.renderer.Quality = scene.Fine
	if t.dragging || w*h > coarseAbove {
		t.renderer.Quality = scene.Coarse
	}
	for i := range t.count {
		t.paintTile(k, l, i)
	}
	if t.OnDrawn != nil {
		t.OnDrawn(time.Since(start))
	}
	return t.picture
}

func (t *Tiles) paintTile(k ink, l look, i int) {
	at, scene, size, inner := t.bounds(i)
	edge := l.th.Color(colourSeparator, variant())
	thick := float32(1)
	if i == t.chosen && t.count > 1 {
		edge, thick = l.Designs[i].Text, 2
	}
	if t.focused {
		edge = l.th.Color(colourFocus, variant())
	}
	k.rect(at.X, at.Y, size.Width, size.Height, edge)
	k.rect(at.X+thick, at.Y+thick, size.Width-2*thick, size.Height-2*thick, l.Paper)
	t.paintScene(k, l, i, scene, inner, thick)
	t.paintTitle(k, l, i, at, size)
	t.paintWords(k, l, &t.tiles[i], at.X, scene.Y+inner.Height+3, size.Width)
}

// paintWords draws the mark of the state and the words beside it: the first
// line smaller where there is little room, the second on two lines at most.
func (t *Tiles) paintWords(k ink, l look, b *Tile, x, y, wide float32) {
	first := word{text: b.Lines[0], size: l.text, bold: true, colour: opaque(l.Ink)}
	high := first.high()
	k.state(l, b.State, x+tileInset+sheetMark/2, y+high/2, l.Paper)
	x += tileInset + sheetMark + 5
	room := wide - 2*tileInset - sheetMark - 5
	if first.wide() > room {
		first.size = l.caption
	}
	k.text(x, y+(high-first.high())/2, cut(first, room))
	second := word{size: l.caption, colour: opaque(l.Soft)}
	for n, line := range t.widths.wrap(b.Lines[1], l.caption, room) {
		if n < 2 {
			second.text = line
			k.text(x, y+high+float32(n)*second.high(), cut(second, room))
		}
	}
}

// paintTitle draws the design's dashes and its name in its colour, smaller where
// there is little room.
func (t *Tiles) paintTitle(k ink, l look, i int, at fyne.Position, size fyne.Size) {
	const sample = 26
	d := l.Designs[i]
	high := word{size: l.text}.high()
	k.dashes(at.X+tileInset, at.Y+3+high/2-1.5, sample, 3, d.Dash, d.Line)
	x := at.X + tileInset + sample + 6
	w, room := word{text: t.tiles[i].Title, size: l.text, bold: i == t.chosen, colour: opaque(d.Text)}, at.X+size.Width-tileInset-x
	if w.wide() > room {
		w.size = l.caption
	}
	k.text(x, at.Y+3+(high-w.high())/2, cut(w, room))
}

// paintScene draws the scene and, unless free, a ring about its mark.
func (t *Tiles) paintScene(k ink, l look, i int, at fyne.Position, size fyne.Size, inset float32) {
	r := image.Rect(k.px(at.X+inset-1), k.px(at.Y), k.px(at.X+size.Width-inset+1), k.px(at.Y+size.Height)).Intersect(t.picture.Rect)
	if r.Empty() {
		return
	}
	if p := t.parts[i]; p == nil || p.Rect != r {
		t.parts[i] = t.picture.SubImage(r).(*image.RGBA)
	}
	tone := scene.Light
	if l.Dark {
		tone = scene.Dark
	}
	t.renderer.Draw(t.parts[i], t.camera, tone, t.tiles[i].Instances)
	b := &t.tiles[i]
	if b.State == StateFree {
		return
	}
	x, y, _, ok := t.camera.Lens(r.Dx(), r.Dy()).Project(b.Mark)
	if !ok || x < 0 || y < 0 || x > float64(r.Dx()) || y > float64(r.Dy()) {
		return
	}
	tone2 := l.Close.Line
	if b.State == StateContact {
		tone2 = l.Contact.Line
	}
	k.ring((float32(r.Min.X)+float32(x))/k.scale, (float32(r.Min.Y)+float32(y))/k.scale, 7, 2, tone2)
}

// at returns the tile under a place, -1 for none.
func (t *Tiles) at(p fyne.Position) int {
	for i := range t.count {
		at, _, size, _ := t.bounds(i)
		if p.X >= at.X && p.Y >= at.Y && p.X < at.X+size.Width && p.Y < at.Y+size.Height {
			return i
		}
	}
	return -1
}

// Dragged turns all views.
func (t *Tiles) Dragged(e *fyne.DragEvent) {
	t.dragging = true
	_, _, _, inner := t.bounds(0)
	t.drag(e.Dragged, inner)
}

// DragEnd draws finely again.
func (t *Tiles) DragEnd() {
	t.dragging = false
	t.redraw()
}

// Tapped chooses the tile under the pointer and takes the keyboard.
func (t *Tiles) Tapped(e *fyne.PointEvent) {
	focus(t)
	if i := t.at(e.Position); i >= 0 && t.OnChoose != nil {
		t.OnChoose(i)
	}
}

// TypedRune does nothing.
func (t *Tiles) TypedRune(rune) {}

// FocusGained shows the focus.
func (t *Tiles) FocusGained() { t.focused = true; t.redraw() }

// FocusLost hides it.
func (t *Tiles) FocusLost() { t.focused = false; t.redraw() }

// Cursor is a hand.
func (t *Tiles) Cursor() desktop.Cursor { return desktop.PointerCursor }

// CreateRenderer makes the drawing.
func (t *Tiles) CreateRenderer() fyne.WidgetRenderer { return &tilesRenderer{t} }

type tilesRenderer struct{ t *Tiles }

func (r *tilesRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.t.raster} }
func (r *tilesRenderer) Destroy()                     {}
func (r *tilesRenderer) MinSize() fyne.Size           { return fyne.NewSize(240, 240) }
func (r *tilesRenderer) Layout(size fyne.Size)        { r.t.raster.Resize(size) }
func (r *tilesRenderer) Refresh()                     { canvas.Refresh(r.t); r.t.redraw() }
