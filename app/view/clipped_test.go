package view

import (
	"fmt"
	"image"
	"os"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/casefile"
	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/assets"
)

// box is a part of the window, in its own units.
type box struct{ left, top, right, bottom float32 }

func boxOf(at fyne.Position, s fyne.Size) box {
	return box{at.X, at.Y, at.X + s.Width, at.Y + s.Height}
}

// without is endless upwards and downwards, or sideways.
const without = 1e6

// and returns what two boxes share.
func (b box) and(c box) box {
	return box{max(b.left, c.left), max(b.top, c.top), min(b.right, c.right), min(b.bottom, c.bottom)}
}

// rounding is by how much a text may stick out: letters are narrower than the
// boxes they are measured by.
const rounding = 1

func (b box) holds(c box) bool {
	return c.left >= b.left-rounding && c.top >= b.top-rounding && c.right <= b.right+rounding && c.bottom <= b.bottom+rounding
}

func (b box) String() string {
	return fmt.Sprintf("%.0f,%.0f to %.0f,%.0f", b.left, b.top, b.right, b.bottom)
}

// clipped collects the texts of which a part cannot be read.
type clipped struct {
	texts int
	found []string
	seen  box // what a scroll leaves to be seen
	laid  []laid
	over  bool // within a picture, over which words may lie
	// Letters are enlarged: Compare's tiles and table then shorten names, which
	// stand whole in the chips above them.
	enlarged bool
	dense    bool // two pixels to the unit each way
	narrow   bool // words half as large again in the least window: names of motions are longer than a column
}

func (c *clipped) add(text string, format string, args ...any) {
	c.found = append(c.found, fmt.Sprintf("%q ", text)+fmt.Sprintf(format, args...))
}

// laid is a text where it lies.
type laid struct {
	text string
	at   box
}

func (c *clipped) lay(text string, at box) {
	if at = at.and(c.seen); !c.over && at.right > at.left && at.bottom > at.top {
		c.laid = append(c.laid, laid{text, at})
	}
}

// overlaps finds texts that lie over each other.
func (c *clipped) overlaps() {
	for i, a := range c.laid {
		for _, b := range c.laid[:i] {
			if o := a.at.and(b.at); o.right-o.left > 2*rounding && o.bottom-o.top > 4*rounding {
				c.add(a.text, "lies over %q", b.text)
			}
		}
	}
}

// look visits all that is visible of an object at a place, of which only what
// lies in clip is seen.
func (c *clipped) look(o fyne.CanvasObject, at fyne.Position, clip box) {
	if o == nil || !o.Visible() {
		return
	}
	at = at.Add(o.Position())
	here := boxOf(at, o.Size())
	switch o := o.(type) {
	case *canvas.Text:
		c.text(o, at, clip)
	case *fyne.Container:
		for _, child := range o.Objects {
			c.look(child, at, clip)
		}
	case *container.Scroll:
		defer func(was box) { c.seen = was }(c.seen)
		c.seen = c.seen.and(here)
		clip = clip.and(here)
		if o.Direction != container.ScrollHorizontalOnly {
			clip.top, clip.bottom = -without, without
		}
		if o.Direction != container.ScrollVerticalOnly {
			clip.left, clip.right = -without, without
		}
		c.look(o.Content, at, clip)
	case fyne.Widget:
		c.widget(o, at, clip)
	}
}

func (c *clipped) text(t *canvas.Text, at fyne.Position, clip box) {
	if strings.TrimSpace(t.Text) == "" {
		return
	}
	c.texts++
	m, s := t.MinSize(), t.Size()
	if s.Width > 0 {
		switch t.Alignment {
		case fyne.TextAlignCenter:
			at.X += (s.Width - m.Width) / 2
		case fyne.TextAlignTrailing:
			at.X += s.Width - m.Width
		}
	}
	if b := boxOf(at, m); !clip.holds(b) {
		c.add(t.Text, "at %v is cut off by %v", b, clip)
	}
	if shortened(t.Text) {
		c.add(t.Text, "is shortened")
	}
	c.lay(t.Text, boxOf(at, m))
}

// shortened reports whether a text was cut to fit; what ends in dots by itself
// has a space before them.
func shortened(s string) bool { return strings.HasSuffix(s, "…") && !strings.HasSuffix(s, " …") }

// painter is a widget that draws itself.
type painter interface {
	fyne.Widget
	Paint(w, h int) image.Image
}

func (c *clipped) widget(w fyne.Widget, at fyne.Position, clip box) {
	size := w.Size()
	switch w.(type) {
	case *control.Orbit, *control.Tiles:
		defer func(was bool) { c.over = was }(c.over)
		c.over = true
	}
	if p, ok := w.(painter); ok && size.Width >= 1 && size.Height >= 1 {
		c.painted(p, at, clip)
	}
	switch w.(type) {
	case *control.Select:
		if c.narrow {
			return // its hint says the chosen word whole
		}
		clip = clip.and(boxOf(at, size))
	case *widget.Label, *control.Told, *widget.Select, *widget.Button, *control.Number:
		clip = clip.and(boxOf(at, size))
	case *control.Dial, *control.Pick, *control.Chip, *control.Mode:
		if m := w.MinSize(); size.Width > 0 && m.Width > size.Width+rounding {
			c.add(fmt.Sprintf("%T", w), "needs a width of %.0f and has %.0f", m.Width, size.Width)
		}
	}
	for _, child := range test.WidgetRenderer(w).Objects() {
		c.look(child, at, clip)
	}
}

// painted looks at what a widget draws by hand. It is one picture, so what lies
// outside it is lost, and what lies over another text is not legible.
func (c *clipped) painted(p painter, at fyne.Position, clip box) {
	size := p.Size()
	pixels := float32(1)
	if c.dense {
		pixels = 2
	}
	words := control.Record(func() { p.Paint(int(size.Width*pixels), int(size.Height*pixels)) })
	clip = clip.and(boxOf(at, size))
	for _, w := range words {
		c.texts++
		if w.Short && c.enlarged && tabular(p) {
			continue
		}
		if w.Short {
			c.add(w.Text, "is shortened in %T", p)
			continue
		}
		b := boxOf(at.AddXY(w.X, w.Y), fyne.NewSize(w.Wide, w.High))
		c.lay(w.Text, b)
		if !clip.holds(b) {
			c.add(w.Text, "at %v is cut off by %v in %T", b, clip, p)
		}
	}
}

// tabular reports whether a widget is one of Compare's.
func tabular(p painter) bool {
	switch p.(type) {
	case *control.Tiles, *control.Grid:
		return true
	}
	return false
}

// TestWhatIsCutOffIsFound checks the search itself.
func TestWhatIsCutOffIsFound(t *testing.T) {
	test.NewTempApp(t)
	long := canvas.NewText("a text that is much longer than where it lies", nil)
	inside := container.NewWithoutLayout(long)
	label := widget.NewLabel("another text that is much longer than where it lies")
	label.Truncation = fyne.TextTruncateEllipsis
	label.Resize(fyne.NewSize(60, 30))
	var c clipped
	c.look(inside, fyne.NewPos(0, 0), box{0, 0, 60, 40})
	c.look(label, fyne.NewPos(0, 0), box{0, 0, 60, 40})
	if len(c.found) != 2 || c.texts != 2 {
		t.Errorf("found %q in %d texts, want both", c.found, c.texts)
	}
	c = clipped{}
	c.look(inside, fyne.NewPos(0, 0), box{0, 0, 900, 40})
	if len(c.found) != 0 {
		t.Errorf("found %q where there is room", c.found)
	}
	c = clipped{seen: box{0, 0, 900, 90}}
	c.look(inside, fyne.NewPos(0, 0), c.seen)
	c.look(container.NewWithoutLayout(canvas.NewText("over it", nil)), fyne.NewPos(10, 4), c.seen)
	if c.overlaps(); len(c.found) != 1 {
		t.Errorf("found %q where two texts lie over each other", c.found)
	}
}

// pagesStage is all views on the toolkit's test driver.
type pagesStage struct {
	*Pages
	*stage
	session *session.Session
	window  fyne.Window
}

func openPages(t testing.TB, data []byte, th *control.Theme) *pagesStage {
	t.Helper()
	return openPagesIn(t, present.English(), data, th)
}

// openPagesIn is openPages in a language.
func openPagesIn(t testing.TB, words *present.Words, data []byte, th *control.Theme) *pagesStage {
	t.Helper()
	test.NewTempApp(t)
	fyne.CurrentApp().Settings().SetTheme(th)
	f, err := casefile.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	b := &stage{}
	s := session.New(f.Case, b.post, time.Now)
	c := &Context{
		Session: s, Words: words, Theme: th, Post: b.post, Now: time.Now,
		After: func(d time.Duration, f func()) func() {
			b.later = append(b.later, later{time.Now().Add(d), f})
			return func() {}
		},
	}
	c.Hint = control.NewHint(c.After)
	p := &pagesStage{Pages: NewPages(c, nil), stage: b, session: s}
	p.window = test.NewTempWindow(t, p.Pages.Object())
	p.window.SetPadded(false)
	t.Cleanup(func() { p.Pages.Close(); s.Close() })
	return p
}

// settled waits until what is worked out in the background is on screen.
func (p *pagesStage) settled() {
	for still, n := 0, 0; still < 12 && n < 400; n++ {
		p.mu.Lock()
		came := len(p.queue) > 0
		p.mu.Unlock()
		if still++; came || p.busy() {
			still = 0
		}
		p.rest()
		time.Sleep(15 * time.Millisecond)
	}
}

// busy reports whether what is on show is still being worked out.
func (p *pagesStage) busy() bool {
	switch v := p.Seen().(type) {
	case *Target:
		return v.verdict.solver.Busy()
	case *Compare:
		return v.contest.comparer.Busy()
	}
	return false
}

// turned opens, one after another, what lies behind the tabs of a view, and
// looks at each.
func (p *pagesStage) turned(n Page, look func(tab string)) {
	switch n {
	case ExploreView:
		for i := range p.Pages.Explore.answers.tabs {
			p.Pages.Explore.answers.choose(i)
			look(fmt.Sprint("tab ", i))
		}
		plots := p.Pages.Explore.answers.plots
		for i := range plots.list {
			plots.choose.SetSelectedIndex(i)
			look(plots.list[i].Key)
		}
		plots.choose.SetSelectedIndex(0)
		p.Pages.Explore.answers.choose(tabRulers)
	case TargetView:
		for i := range p.Pages.Target().verdict.tabs {
			p.Pages.Target().verdict.turn(i)
			look(fmt.Sprint("tab ", i))
		}
		p.Pages.Target().goals.turn(1)
		look("values")
		p.Pages.Target().goals.turn(0)
	default:
		look("all")
	}
}

// shownAt are the sizes of window and letters at which the first sample is
// looked at; the others have the same words but for their designs, and are
// looked at where there is least room.
var shownAt = map[float32][]fyne.Size{
	1:    {{Width: 1024, Height: 700}, {Width: 1280, Height: 800}, {Width: 1920, Height: 1080}, {Width: 2560, Height: 1440}},
	1.25: {{Width: 1024, Height: 700}, {Width: 1280, Height: 800}},
	1.5:  {{Width: 1024, Height: 700}, {Width: 1280, Height: 800}, {Width: 2560, Height: 1440}},
}

// With RIMCLEAR_LONG=1 every sample is looked at, and letters of 1.25 too.
func TestNoTextIsCutOff(t *testing.T) {
	samples, long := assets.Cases(), os.Getenv("RIMCLEAR_LONG") == "1"
	if !long {
		samples = samples[:2]
	}
	for i, s := range samples {
		for k, sizes := range shownAt {
			if i > 0 && k != 1.5 || k == 1.25 && !long {
				continue
			}
			if i > 0 || testing.Short() {
				sizes = sizes[:1]
			}
			p := openPages(t, s.Data, &control.Theme{Brightness: control.AlwaysLight, Scale: k})
			p.leafed(t, s.Name, k, sizes)
		}
	}
}

// leafed looks at every view, and what lies behind its tabs, at some sizes of
// the window, with letters enlarged by k.
func (p *pagesStage) leafed(t *testing.T, sample string, k float32, sizes []fyne.Size) {
	t.Helper()
	for n := range Page(viewCount) {
		p.Pages.Open(n)
		p.window.Resize(sizes[0])
		p.settled()
		p.Pages.Explore.Play.LoadKey("low_chair")
		for _, size := range sizes {
			p.window.Resize(size)
			p.rest()
			p.turned(n, func(tab string) { p.whole(t, sample, n, tab, k, size) })
		}
	}
}

// whole fails where a text of what is on screen cannot be read.
func (p *pagesStage) whole(t *testing.T, sample string, n Page, tab string, k float32, size fyne.Size) {
	t.Helper()
	p.rest()
	c := clipped{narrow: k > 1.25 && size.Width < 1280, enlarged: k > 1, dense: p.window.Canvas().Scale() > 1}
	c.seen = boxOf(fyne.NewPos(0, 0), size)
	c.look(p.Pages.Object(), fyne.NewPos(0, 0), c.seen)
	c.overlaps()
	if c.texts < 4 {
		t.Errorf("%s, %s: only %d texts are visible", n.Key(), tab, c.texts)
	}
	for _, f := range c.found {
		t.Errorf("%s, %s, text %v, %.0f×%.0f, %s: %s", sample, n.Key(), k, size.Width, size.Height, tab, f)
	}
}
