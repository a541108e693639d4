package control

import (
	"image"
	"image/color"
	"math"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/figure"
	"rimclear/app/scene"
)

// put a widget into a window of its own size or larger.
func stage(t *testing.T, o fyne.CanvasObject, width, height float32) fyne.Window {
	t.Helper()
	test.NewTempApp(t)
	fyne.CurrentApp().Settings().SetTheme(&Theme{Brightness: AlwaysLight})
	w := test.NewTempWindow(t, o)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(width, height))
	return w
}

func key(n fyne.KeyName) *fyne.KeyEvent { return &fyne.KeyEvent{Name: n} }

func at(x, y float32) fyne.PointEvent { return fyne.PointEvent{Position: fyne.NewPos(x, y)} }

func TestATrackFollowsThePointerOnItsGridOfSteps(t *testing.T) {
	k := NewTrack(-20, 80, 0.5, 10)
	stage(t, k, 212, 20)
	var told []float64
	k.OnChanged = func(v float64) { told = append(told, v) }
	for _, move := range []struct {
		x    float32
		want float64
	}{{106, 30}, {106.4, 30}, {0, -20}, {-50, -20}, {500, 80}, {107, 30.5}} {
		k.Dragged(&fyne.DragEvent{PointEvent: at(move.x, 9)})
		if k.Value() != move.want {
			t.Errorf("at %v the value is %v, want %v", move.x, k.Value(), move.want)
		}
	}
	if len(told) != 4 {
		t.Errorf("told of %v, want four changes", told)
	}
	k.MouseDown(&desktop.MouseEvent{PointEvent: at(6, 9), Button: desktop.MouseButtonSecondary})
	if k.Value() != 30.5 {
		t.Error("the right button moved the knob")
	}
}

func TestATrackIsMovedByKeys(t *testing.T) {
	k := NewTrack(0, 90, 0.5, 40)
	stage(t, k, 200, 20)
	for _, press := range []struct {
		key  fyne.KeyName
		want float64
	}{{fyne.KeyRight, 40.5}, {fyne.KeyUp, 41}, {fyne.KeyPageUp, 46}, {fyne.KeyLeft, 45.5}, {fyne.KeyPageDown, 40.5},
		{fyne.KeyHome, 0}, {fyne.KeyLeft, 0}, {fyne.KeyEnd, 90}, {fyne.KeyDelete, 40}} {
		k.TypedKey(key(press.key))
		if k.Value() != press.want {
			t.Errorf("after %s the value is %v, want %v", press.key, k.Value(), press.want)
		}
	}
}

func TestDisplayingAValueTellsNobody(t *testing.T) {
	d := NewDial(Spec{Name: "Neck", Unit: " mm", Min: 4, Max: 66, Step: 0.1, Default: 12, Decimals: 1})
	stage(t, d, 300, 60)
	d.Change = func(v float64) string { t.Errorf("told of %v", v); return "" }
	d.Display(14.2)
	if d.Track().Value() != 14.2 || d.Entry().Text != "14.2 mm" {
		t.Errorf("track %v, entry %q", d.Track().Value(), d.Entry().Text)
	}
}

func TestANumberIsReadAsPeopleWriteIt(t *testing.T) {
	test.NewTempApp(t)
	n := NewNumber(0.5, 1)
	for text, want := range map[string]float64{
		"12": 12, "12.5": 12.5, "12,5": 12.5, " −3 ": -3, "-3": -3, "40°": 40, "36 mm": 36, "1e1": 10,
	} {
		if got := n.parse(text); got != want {
			t.Errorf("%q is read as %v, want %v", text, got, want)
		}
	}
	for _, text := range []string{"", "x", "4 5", "--1"} {
		if got := n.parse(text); !math.IsNaN(got) {
			t.Errorf("%q is read as %v, want not a number", text, got)
		}
	}
	n.Absent = true
	if got := n.parse(""); got != 0 {
		t.Errorf("an empty entry of something optional is read as %v, want 0", got)
	}
}

func TestARefusedValueStaysOnShowWithItsReason(t *testing.T) {
	d := NewDial(Spec{Name: "Head", Min: 18, Max: 70, Step: 0.5, Default: 32, Decimals: 1})
	stage(t, d, 300, 100)
	d.Change = func(v float64) string {
		if v < 20 {
			return "too small"
		}
		return ""
	}
	high := d.MinSize().Height
	d.Track().TypedKey(key(fyne.KeyHome))
	if d.Refusal() != "too small" || d.Track().Value() != 18 || d.MinSize().Height <= high {
		t.Errorf("refusal %q, value %v, height %v of %v", d.Refusal(), d.Track().Value(), d.MinSize().Height, high)
	}
	d.Display(32)
	if d.Refusal() != "" || d.Track().Value() != 32 || d.MinSize().Height != high {
		t.Errorf("after display: refusal %q, value %v, height %v of %v", d.Refusal(), d.Track().Value(), d.MinSize().Height, high)
	}
}

func TestTheResetButtonBringsTheDefaultBack(t *testing.T) {
	d := NewDial(Spec{Name: "Head", Min: 18, Max: 70, Step: 0.5, Default: 32, Decimals: 1})
	stage(t, d, 300, 60)
	if !d.reset.Disabled() {
		t.Error("there is something to reset at the default")
	}
	d.Track().TypedKey(key(fyne.KeyRight))
	if d.reset.Disabled() {
		t.Fatal("a changed value cannot be reset")
	}
	d.reset.TypedKey(key(fyne.KeySpace))
	if d.Track().Value() != 32 || !d.reset.Disabled() {
		t.Errorf("after the reset the value is %v", d.Track().Value())
	}
}

func TestAGroupFoldsAwayWhatIsInIt(t *testing.T) {
	a, b := canvas.NewText("a", color.Black), canvas.NewText("b", color.Black)
	g := NewGroup("Cup", "more", []fyne.CanvasObject{a}, []fyne.CanvasObject{b})
	stage(t, g, 300, 200)
	seen := func(x, y bool) {
		t.Helper()
		if a.Visible() != x || b.Visible() != y {
			t.Errorf("shown: %v, %v; want %v, %v", a.Visible(), b.Visible(), x, y)
		}
	}
	seen(true, false)
	g.SetMore(true)
	seen(true, true)
	g.head.Tapped(nil)
	seen(false, false)
	g.head.TypedKey(key(fyne.KeyReturn))
	seen(true, true)
	only := NewGroup("Rim", "more", nil, []fyne.CanvasObject{b})
	if only.Open() || b.Visible() {
		t.Error("a group without rows of the first rank begins open")
	}
}

func TestARulerSaysWhereItsNeedleWasPut(t *testing.T) {
	r := NewRuler("flexion")
	column := NewRulers()
	column.Add(r)
	stage(t, column, 270, 40)
	r.Display(Reach{Asked: true, At: 30}, Reach{Asked: true, At: 121.3, Stopped: true})
	var got float64
	r.Moved = func(deg float64) { got = deg; r.Point(deg, true, false) }
	r.MouseDown(&desktop.MouseEvent{PointEvent: at(180, 20), Button: desktop.MouseButtonPrimary})
	if got != 45 {
		t.Errorf("pressed at 180 of 270 the needle is at %v, want 45", got)
	}
	for _, press := range []struct {
		key  fyne.KeyName
		want float64
	}{{fyne.KeyRight, 45.5}, {fyne.KeyPageDown, 40.5}, {fyne.KeyEnd, 121.5}, {fyne.KeyHome, -30}, {fyne.KeyDelete, 0}} {
		r.TypedKey(key(press.key))
		if got != press.want {
			t.Errorf("after %s the needle is at %v, want %v", press.key, got, press.want)
		}
	}
}

func TestALabelStandsAtItsPointAndInsideThePicture(t *testing.T) {
	o := NewOrbit(scene.Front())
	stage(t, o, 500, 400)
	for _, p := range []r3.Vec{{}, {Y: 60, Z: 80}, {Y: -90, Z: -110}} {
		o.Display(nil, Label{At: p, Lines: []string{"3 o'clock", "clear by 12.0°"}})
		r := test.WidgetRenderer(o).(*orbitRenderer).tag
		x, y, _, _ := o.Camera().Lens(500, 400).Project(p)
		c := r.mark.Position().AddXY(r.mark.Size().Width/2, r.mark.Size().Height/2)
		if math.Abs(float64(c.X)-x) > 0.5 || math.Abs(float64(c.Y)-y) > 0.5 {
			t.Errorf("the mark of %v is at %v, want %v, %v", p, c, x, y)
		}
		lo, s := r.plate.Position(), r.plate.Size()
		if lo.X < 0 || lo.Y < 0 || lo.X+s.Width > 500 || lo.Y+s.Height > 400 {
			t.Errorf("the plate of %v is at %v, %v, outside the picture", p, lo, s)
		}
	}
}

func TestAPlotShowsItsStillLayerAndItsMarker(t *testing.T) {
	p := NewPlot()
	stage(t, p, 100, 80)
	var wished image.Point
	p.Resized = func(_ figure.Point, _ float64, px image.Point) { wished = px }
	p.Paint(100, 80)
	if wished != image.Pt(100, 80) {
		t.Fatalf("asked for %v pixels, want 100×80", wished)
	}
	still := image.NewRGBA(image.Rect(0, 0, 100, 80))
	for i := range still.Pix {
		still.Pix[i] = 200
	}
	p.Lay(still)
	dot := figure.Hex("#FF0000")
	p.Mark(figure.Figure{Size: figure.Pt(100, 80), Marker: func(s *figure.Surface) {
		s.Polygon(figure.Disc(figure.Pt(50, 40), 5, 0), figure.Solid(dot))
	}})
	img := p.Paint(100, 80).(*image.RGBA)
	if got := img.RGBAAt(50, 40); got != (color.RGBA{R: 255, A: 255}) {
		t.Errorf("the middle of the marker is %v", got)
	}
	if got := img.RGBAAt(5, 5); got != (color.RGBA{200, 200, 200, 200}) {
		t.Errorf("beside the marker there is %v", got)
	}
	if still.RGBAAt(50, 40).R != 200 {
		t.Error("the marker was drawn into the still layer")
	}
}

func TestAHintAppearsWhenThePointerRestsAndGoesWhenItLeaves(t *testing.T) {
	var later []func()
	h := NewHint(func(_ time.Duration, f func()) func() {
		later = append(later, f)
		return func() {}
	})
	stage(t, h, 400, 300)
	h.Offer("a", "first", fyne.NewPos(10, 10))
	h.Offer("b", "second", fyne.NewPos(390, 290))
	for _, f := range later {
		f()
	}
	if !h.text.Visible() || h.text.Text != "second" {
		t.Errorf("shown %v: %q, want the second", h.text.Visible(), h.text.Text)
	}
	lo, s := h.plate.Position(), h.plate.Size()
	if lo.X < 0 || lo.Y < 0 || lo.X+s.Width > 400 || lo.Y+s.Height > 300 {
		t.Errorf("the hint is at %v, %v, outside the window", lo, s)
	}
	h.Withdraw("a")
	if !h.text.Visible() {
		t.Error("the hint went when the pointer left something else")
	}
	h.Withdraw("b")
	if h.text.Visible() {
		t.Error("the hint stays after the pointer left")
	}
	var none *Hint
	none.Offer("a", "x", fyne.Position{})
	none.Withdraw("a")
}

// TestWordsCanBeReadInBothThemes holds words and their grounds to 4.5:1, and
// what one acts on to 3:1 (WCAG 2.1).
func TestWordsCanBeReadInBothThemes(t *testing.T) {
	for _, b := range []Brightness{AlwaysLight, AlwaysDark} {
		th := &Theme{Brightness: b}
		c := func(n fyne.ThemeColorName) figure.Colour {
			return color.NRGBAModel.Convert(th.Color(n, theme.VariantLight)).(figure.Colour)
		}
		for _, pair := range []struct {
			over, under fyne.ThemeColorName
			least       float64
		}{
			{theme.ColorNameForeground, theme.ColorNameBackground, 4.5},
			{theme.ColorNameForeground, theme.ColorNameButton, 4.5},
			{theme.ColorNameDisabled, theme.ColorNameBackground, 4.5},
			{theme.ColorNamePlaceHolder, theme.ColorNameBackground, 4.5},
			{theme.ColorNameError, theme.ColorNameBackground, 4.5},
			{theme.ColorNamePrimary, theme.ColorNameBackground, 3},
			{theme.ColorNameInputBorder, theme.ColorNameBackground, 3},
		} {
			if got := figure.Contrast(c(pair.over), c(pair.under)); got < pair.least {
				t.Errorf("brightness %d: %s on %s has contrast %.2f, want %.1f", b, pair.over, pair.under, got, pair.least)
			}
		}
	}
}

func TestTheSystemDecidesUnlessTheUserDoes(t *testing.T) {
	for _, try := range []struct {
		b    Brightness
		v    fyne.ThemeVariant
		dark bool
	}{{AsSystem, theme.VariantLight, false}, {AsSystem, theme.VariantDark, true}, {AlwaysLight, theme.VariantDark, false}, {AlwaysDark, theme.VariantLight, true}} {
		if got := (&Theme{Brightness: try.b}).Palette(try.v).Dark; got != try.dark {
			t.Errorf("brightness %d under system's %d: dark %v, want %v", try.b, try.v, got, try.dark)
		}
	}
}

// A mark keeps clear of the words above it: its row grows, and the column is laid
// out again.
func TestARulerWithAMarkMakesRoomForIt(t *testing.T) {
	a, b := NewRuler("flexion"), NewRuler("adduction")
	column := NewRulers()
	column.Add(a)
	column.Add(b)
	stage(t, column, 270, 120)
	grown := 0
	column.OnGrow = func() { grown++ }
	high, below := column.MinSize().Height, b.Position().Y
	column.SetNeeds(a, []Need{{At: 60}, {At: -20, Reached: true}})
	if column.MinSize().Height <= high || b.Position().Y <= below || grown != 1 {
		t.Errorf("with marks the column is %.0f high and was %.0f, the next ruler at %.0f and was at %.0f; told %d times",
			column.MinSize().Height, high, b.Position().Y, below, grown)
	}
	column.SetNeeds(a, []Need{{At: 60}})
	if grown != 1 {
		t.Error("another mark has the column laid out again")
	}
	a.Display(Reach{Asked: true, At: 30, Stopped: true}, Reach{Asked: true, At: 50, Stopped: true})
	if !a.short(Need{At: 60}) || a.short(Need{At: 40}) || !a.short(Need{At: -31}) || a.short(Need{At: 60, Reached: true}) {
		t.Error("a mark is called short where it is not, or not where it is")
	}
}

func TestTheLegendIsShownWhereThereIsRoom(t *testing.T) {
	column := NewRulers()
	column.Add(NewRuler("flexion"))
	stage(t, column, 270, 120)
	column.SetLegend(Legend{Off: "off this line", Need: "required"})
	said := func(high float32) (n int) {
		column.Resize(fyne.NewSize(270, high))
		for _, w := range Record(func() { column.Paint(270, int(high)) }) {
			if w.Text == "off this line" || w.Text == "required" {
				n++
			}
		}
		return n
	}
	least := column.MinSize().Height
	if got := said(least + column.LegendHeight()); got != 2 {
		t.Errorf("with room for a line %d of 2 words are said", got)
	}
	if got := said(least + 3); got != 0 {
		t.Errorf("without room for a line %d words are said", got)
	}
}

// What the point of a label is hidden by shows on its mark: an empty ring.
func TestALabelShowsThatItsPointIsHidden(t *testing.T) {
	o := NewOrbit(scene.Front())
	stage(t, o, 400, 400)
	ball := []scene.Instance{{Mesh: scene.Head(18), Pose: scene.Still, Material: scene.Ceramic}}
	for x, hidden := range map[float64]bool{18: false, -18: true} {
		o.Display(ball, Label{At: r3.Vec{X: x}, Lines: []string{"here"}})
		o.Paint(400, 400)
		_, _, _, alpha := o.tag.mark.FillColor.RGBA()
		if o.hidden != hidden || (alpha == 0) != hidden {
			t.Errorf("at X = %v mm: hidden %v, the ring's opacity %d", x, o.hidden, alpha)
		}
	}
}

func TestTilesHaveAPlaceEvenWhereThereIsNoRoom(t *testing.T) {
	for count := 1; count <= MostTiles; count++ {
		if columns, rows := shape(count, fyne.NewSize(4, 4), 80); columns*rows < count {
			t.Errorf("%d tiles in %d columns and %d rows", count, columns, rows)
		}
	}
}
