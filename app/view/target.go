package view

import (
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"rimclear/app/control"
	"rimclear/app/figure"
	"rimclear/app/session"
)

// Target is where the cup should point: what the hip is asked to do, the map of
// cup positions, and the answer.
type Target struct {
	*Context
	Pace    Pace
	goals   *goals
	aim     *aim
	bar     *playbar
	verdict *verdict
	foot    *foot
	words   *pacer
	object  *fyne.Container
}

// NewTarget returns the view of a session.
func NewTarget(c *Context) *Target {
	if c.Motions == nil {
		c.Motions = session.NewMotions().Follow(c.Session)
	}
	t := &Target{Context: c, foot: newFoot(c)}
	t.bar = newPlaybar(c)
	t.goals = newGoals(c)
	t.aim = newAim(c, t.bar)
	t.verdict = newVerdict(c)
	t.verdict.found = t.aim.found
	t.aim.picture.OnDrawn = t.Pace.drawn
	t.aim.board.Draw = func(img *image.RGBA, size figure.Point, scale float64) figure.Frame {
		start := time.Now()
		defer func() { t.Pace.drawn(time.Since(start)) }()
		return t.aim.draw(img, size, scale)
	}
	t.aim.layered = func() { t.verdict.layer(t.aim.shared) }
	t.goals.Show, t.verdict.Show = t.ShowMotion, t.ShowMotion
	t.goals.turned = func() { t.object.Refresh() } // the column is as wide as what it shows
	c.Play.Loaded = t.goals.mark
	if c.Play.loaded {
		t.goals.mark(c.Play.now.Key)
	}
	t.words = &pacer{Context: c, every: wordsEvery, do: t.write}
	t.object = container.New(&columns{Context: c, strip: newStrip(c, TargetView), left: t.goals.object,
		middle: t.aim.object, right: t.verdict.object, foot: t.foot})
	for _, o := range t.object.Layout.(*columns).all() {
		t.object.Add(o)
	}
	t.foot.onGrow = t.object.Refresh
	c.Session.Watch(t.display)
	t.display(c.Session.Now())
	return t
}

// Object returns what to put into the window.
func (t *Target) Object() fyne.CanvasObject { return t.object }

// Close ends the work in the background.
func (t *Target) Close() {
	t.aim.close()
	t.verdict.solver.Close()
}

// display shows a snapshot: at once what moves, and a little later the words.
// While another view is open nothing is worked out.
func (t *Target) display(s *session.Snapshot) {
	if !t.object.Visible() {
		t.verdict.solver.Stop()
		return
	}
	start := time.Now()
	defer func() { t.Pace.worked(time.Since(start)) }()
	t.goals.display(s)
	t.aim.display(s)
	t.verdict.display(s)
	t.words.wish()
}

// write puts everything into words.
func (t *Target) write() {
	t.verdict.write()
	t.bar.write()
	t.foot.write(t.Session.Now())
}

// ShowMotion shows a motion on the joint, and plays it.
func (t *Target) ShowMotion(key string) {
	t.Play.LoadKey(key)
	t.aim.lookAtJoint()
	if !t.Play.player.Playing() && !t.Still {
		t.Play.Toggle()
	}
}

// Restyle shows everything again after the theme was changed.
func (t *Target) Restyle() {
	t.foot.restyle()
	t.aim.forget()
	t.display(t.Session.Now())
	t.object.Refresh()
}

// TypedKey moves the cup on the map by the keyboard.
func (t *Target) TypedKey(e *fyne.KeyEvent) { t.Map().TypedKey(e) }

// Headline returns the answer on screen.
func (t *Target) Headline() string { return t.verdict.serves.Text }

// Map returns the map.
func (t *Target) Map() *control.Board { return t.aim.board }

// Places returns the parts of the view that can be reached, by name.
func (t *Target) Places() map[string]fyne.CanvasObject {
	m := map[string]fyne.CanvasObject{"map": t.aim.board, "motions": t.goals.sheet, "verdict": t.verdict.sheet}
	for key, d := range t.goals.panel.dials {
		if d.Visible() {
			m[key] = d.Track()
		}
	}
	return m
}

// columns lays three columns beside each other, the strip before them and the
// foot under them.
type columns struct {
	*Context
	strip, left, middle, right fyne.CanvasObject
	foot                       *foot
}

func (l *columns) all() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{l.strip, l.left, l.middle, l.right}, l.foot.objects()...)
}

// MinSize is what the least window can show.
func (l *columns) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(900, 560) }

// Layout places the columns: the side ones grow with the text, up to a share of
// the window.
func (l *columns) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	k := l.Theme.Size("text") / 13
	strip := float32(stripWidth) * k
	left := max(min(panelWidth*k, size.Width*0.27), l.left.MinSize().Width)
	right := max(min(answersWidth*k, size.Width*0.33), min(size.Width*0.24, mostAnswers*k))
	body := l.foot.lay(size)
	x, wide := l.foot.columns(size, body, column{l.strip, strip}, column{l.left, left}, column{l.right, right})
	lay(l.middle, x, 0, wide, body)
}
