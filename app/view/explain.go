package view

import (
	"slices"
	"sync"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/scene"
	"rimclear/app/session"
	"rimclear/kinematics"
)

// Explain is for the patient: everyday activities, a person who does them, the
// joint beside, and one plain sentence.
type Explain struct {
	*Context
	Pace Pace

	act     int   // index into scene.Acts
	designs []int // of the case, one or two
	shown   *explained
	asked   explainKey // what shown is made for
	joints  map[int]*joint
	picture *explainView
	text    *explainWords
	tools   *explainTools
	choice  *fyne.Container   // the list of all activities
	list    *container.Scroll // what is in it
	names   *columnsOf
	strip   fyne.CanvasObject
	object  *fyne.Container
	big     *control.Theme
	large   *enlarged // what is in it
	room    float32   // by how much the letters may be enlarged
	playing bool
	moving  bool          // other than in the picture before
	stilled bool          // it does not play because nothing is to move
	begun   time.Time     // when the round on screen began
	at      time.Duration // time of the round, while it does not play
	ticks   bool
	exports sync.WaitGroup
}

// explainKey is all that what is shown depends on.
type explainKey struct {
	act     int
	designs [2]int
	count   int
	hip     kinematics.Hip
	list    [kinematics.MaxDesigns]kinematics.Design
	goal    kinematics.Goal
	dark    bool
	still   bool
}

// NewExplain returns the view of a session.
func NewExplain(c *Context) *Explain {
	c.transport() // has the motions loaded
	e := &Explain{Context: c, joints: map[int]*joint{}, big: &control.Theme{}, room: 1, playing: true}
	e.enlarge()
	e.picture = newExplainView(e)
	e.text = newExplainWords(e)
	e.tools = newExplainTools(e)
	e.list = e.newChoice()
	e.choice = container.NewStack(e.list)
	e.choice.Hide()
	e.strip = newStrip(c, ExplainView)
	e.large = newEnlarged(e.big, e.Hint, e.text.object, e.text.fixed, e.tools.object, e.choice, e.tools.joints)
	e.object = container.New(&explainLayout{e}, e.strip, e.picture, e.large.Container)
	e.large.hides = []*bool{&e.object.Hidden, &e.text.object.Hidden, &e.choice.Hidden, &e.tools.joints.Hidden}
	e.object.Hide() // nothing is worked out before it is opened
	c.Session.Watch(e.display)
	return e
}

// enlarge sets the size of the type: 24 points, or more where the user has the
// text enlarged and the window has room for it.
func (e *Explain) enlarge() {
	e.big.Brightness = e.Theme.Brightness
	e.big.Scale = min(max(e.Theme.Scale, 1), e.room) * explainText / 13
}

// fitted has the letters enlarged anew, once all is laid out, where the window
// has more room for them than before, or less.
func (e *Explain) fitted(size fyne.Size) {
	room := roomFor(size)
	if was := e.room; room != was {
		e.room = room
		if k := max(e.Theme.Scale, 1); min(k, room) != min(k, was) {
			e.Post(e.Restyle)
		}
	}
}

// Object returns what to put into the window.
func (e *Explain) Object() fyne.CanvasObject { return e.object }

// Headline returns the answer on screen.
func (e *Explain) Headline() string { return e.text.sentence.Text }

// Close ends the work in the background.
func (e *Explain) Close() { e.exports.Wait() }

// Places returns the parts of the view that can be reached, by name.
func (e *Explain) Places() map[string]fyne.CanvasObject {
	m := map[string]fyne.CanvasObject{"person": e.picture, "sentence": e.text.sentence}
	for name, b := range e.tools.named() {
		m[name] = b
	}
	return m
}

// display shows a snapshot.
func (e *Explain) display(s *session.Snapshot) {
	e.see()
	if !e.object.Visible() {
		return
	}
	start := time.Now()
	for _, i := range slices.Clone(e.designs) {
		if i >= s.Case.Count {
			e.designs = slices.DeleteFunc(e.designs, func(k int) bool { return k == i })
		}
	}
	if len(e.designs) == 0 {
		e.designs = []int{s.Active}
	}
	if k := e.key(s); k != e.asked || e.shown == nil {
		e.asked = k
		e.shown = e.explain(s, scene.Acts[e.act].Key, e.designs, e.joints)
		e.restart()
		e.write(s)
		e.picture.Refresh()
	}
	e.tools.display(s)
	e.tick()
	e.Pace.worked(time.Since(start))
}

// see keeps the parts in larger type.
func (e *Explain) see() {
	if e.large.see(e.Now(), e.object.Visible()) {
		e.object.Refresh()
	}
}

func (e *Explain) key(s *session.Snapshot) explainKey {
	k := explainKey{act: e.act, count: s.Case.Count, hip: s.Case.Hip, list: s.Case.Designs, goal: s.Case.Goal, dark: e.palette().Dark, still: e.Still, designs: [2]int{-1, -1}}
	copy(k.designs[:], e.designs)
	return k
}

// write shows the name of the activity and what is told of it.
func (e *Explain) write(s *session.Snapshot) {
	w := e.Words
	setText(e.text.title, w.Everyday(e.shown.key))
	setText(e.text.sentence, e.told(e.shown))
	e.text.scroll.ScrollToTop()
	setText(e.text.fixed, w.Phrase("explain_fixed"))
	setText(e.tools.number, w.Phrase("explain_of", "number", present.Digits(float64(e.act+1), 0), "count", present.Digits(float64(len(scene.Acts)), 0)))
	e.object.Refresh()
}

// told says what is told of every joint that is shown.
func (e *Explain) told(x *explained) string {
	list, designs := make([]present.Told, len(x.cast)), make([]int, len(x.cast))
	for i, m := range x.cast {
		list[i], designs[i] = m.told, m.design
	}
	return e.Words.Told(list, designs)
}

// Show opens an activity by its place in the list, counted round.
func (e *Explain) Show(i int) {
	e.act = (i + len(scene.Acts)) % len(scene.Acts)
	e.picture.paint.turned = 0
	e.close()
	e.display(e.Session.Now())
	e.picture.Refresh()
}

// Next and Back step through the activities.
func (e *Explain) Next() { e.Show(e.act + 1) }

// Back goes to the activity before.
func (e *Explain) Back() { e.Show(e.act - 1) }

// toggle shows or hides a design; one always stays, and two are the most.
func (e *Explain) toggle(i int) {
	if k := slices.Index(e.designs, i); k >= 0 {
		if len(e.designs) > 1 {
			e.designs = slices.Delete(e.designs, k, k+1)
		}
	} else {
		if len(e.designs) == 2 {
			e.designs = e.designs[1:]
		}
		e.designs = append(e.designs, i)
		slices.Sort(e.designs)
	}
	e.display(e.Session.Now())
}

// Restyle shows everything again after the theme was changed.
func (e *Explain) Restyle() {
	e.enlarge()
	e.display(e.Session.Now())
	for _, o := range e.large.Objects {
		o.Refresh() // its parts have another size, though it may have not
	}
	e.object.Refresh()
	e.picture.Refresh()
}

// TypedKey steps with one key: Space or right goes on, left back; P or Enter
// plays, F11 fills the screen and Escape leaves.
func (e *Explain) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeySpace, fyne.KeyRight, fyne.KeyPageDown:
		e.Next()
	case fyne.KeyLeft, fyne.KeyPageUp, fyne.KeyBackspace:
		e.Back()
	case fyne.KeyHome:
		e.Show(0)
	case fyne.KeyP, fyne.KeyReturn, fyne.KeyEnter:
		e.Play()
	case fyne.KeyF11:
		e.Full(!e.full())
	case fyne.KeyEscape:
		if e.choice.Visible() {
			e.close()
		} else {
			e.Full(false)
		}
	}
}

// newChoice returns the list of all activities.
func (e *Explain) newChoice() *container.Scroll {
	e.names = &columnsOf{n: 3}
	list := container.New(e.names)
	for i, a := range scene.Acts {
		b := widget.NewButton(e.Words.Everyday(a.Key), func() { e.Show(i) })
		b.Importance, b.Alignment = widget.LowImportance, widget.ButtonAlignLeading
		list.Add(b)
	}
	return container.NewVScroll(list)
}

// Choose shows the list of all activities, or hides it.
func (e *Explain) Choose() {
	if e.choice.Visible() {
		e.close()
		return
	}
	e.list.ScrollToTop()
	e.choice.Show()
	e.picture.Hide()
	e.text.object.Hide()
	e.tools.joints.Hide()
	e.object.Refresh()
}

func (e *Explain) close() {
	if e.choice.Visible() {
		e.choice.Hide()
		e.picture.Show()
		e.text.object.Show()
		e.tools.joints.Show()
		e.object.Refresh()
	}
}

// window returns the window the view is in, nil if in none.
func (e *Explain) window() fyne.Window {
	d := fyne.CurrentApp().Driver()
	here := d.CanvasForObject(e.object)
	for _, w := range d.AllWindows() {
		if here != nil && w.Canvas() == here {
			return w
		}
	}
	return nil
}

func (e *Explain) full() bool {
	w := e.window()
	return w != nil && w.FullScreen()
}

// Full fills the screen with the view, or leaves it.
func (e *Explain) Full(on bool) {
	w := e.window()
	if w == nil || w.FullScreen() == on {
		return
	}
	w.SetFullScreen(on)
	setVisible(e.strip, !on)
	e.tools.filled(on)
	e.object.Refresh()
}
