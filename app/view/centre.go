package view

import (
	"math"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/scene"
	"rimclear/app/session"
	"rimclear/kinematics"
)

// centre is the picture with the designs above it and the posture in words
// below.
type centre struct {
	*Context
	joint   *joint
	picture *control.Orbit
	designs [kinematics.MaxDesigns]*control.Chip
	add     *control.Chip
	remove  *control.Chip
	pelvis  *control.Chip
	femur   *control.Chip
	glass   *control.Chip
	cut     *control.Chip
	free    *control.Chip
	past    *control.Chip
	posture *widget.Label
	flash   *flash
	laid    [2]int // designs, and the one looked at, for which the chips are laid out
	object  *fyne.Container

	before, cutView scene.Camera // from where one looked before the cut, and at it
}

func newCentre(c *Context) *centre {
	posture := c.told(func() string { return "margin" })
	m := &centre{Context: c, joint: newJoint(), picture: control.NewOrbit(home), posture: &posture.Label}
	m.posture.Alignment = fyne.TextAlignCenter
	chips, views := container.New(control.Flow{Gap: 4}), container.New(control.Flow{Gap: 4})
	chip := func(row *fyne.Container, key string, act func()) *control.Chip {
		k := control.NewChip(c.Words.Phrase(key), c.Words.Phrase(key+"_help"), act)
		k.Hint, k.Solid = c.Hint, row == views
		row.Add(k)
		return k
	}
	for i := range m.designs {
		m.designs[i] = control.NewChip(present.Letter(i), c.Words.Phrase("guide_design_help", "letter", present.Letter(i), "number", strconv.Itoa(i+1)), func() { c.Session.Activate(i) })
		m.designs[i].Design, m.designs[i].Hint = i, c.Hint
		chips.Add(m.designs[i])
	}
	m.add = chip(chips, "window_add_design", c.Session.Duplicate)
	m.remove = chip(chips, "window_remove_design", c.Session.Remove)
	chip(views, "window_front", func() { m.look(scene.Front()) })
	chip(views, "window_side", func() { m.look(scene.Side()) })
	chip(views, "window_cup", m.lookIntoCup)
	m.pelvis = chip(views, "window_pelvis", func() { m.Show(!m.joint.Pelvis, m.joint.Femur, m.joint.Glass) })
	m.femur = chip(views, "window_femur", func() { m.Show(m.joint.Pelvis, !m.joint.Femur, m.joint.Glass) })
	m.glass = chip(views, "window_glass", func() { m.Show(m.joint.Pelvis, m.joint.Femur, !m.joint.Glass) })
	m.cut = chip(views, "joint_cut", func() { m.open(!m.joint.Cut) })
	m.free = chip(views, "thigh_free", func() { m.paint(!m.joint.Free) })
	m.past = chip(views, "thigh_past", func() { m.goPast(!m.Past) })
	m.pelvis.SetChosen(true)
	m.femur.SetChosen(true)
	m.flash = &flash{Context: c, draw: m.redraw}
	hand := &grab{centre: m}
	m.picture.Grip, m.picture.Haul = hand.take, hand.haul
	m.object = container.New(&centreLayout{m, chips, views}, chips, m.picture, views, posture)
	return m
}

// home is the view a new window begins with: from the front and the side, with
// as much of the femur as makes it one.
var home = func() scene.Camera {
	c := scene.Oblique()
	c.Extent, c.Target.Y = 305, 2
	return c
}()

// look turns the view, keeping what it is aimed at and how near it is.
func (m *centre) look(from scene.Camera) {
	c := m.picture.Camera()
	c.Azimuth, c.Elevation = from.Azimuth, from.Elevation
	m.picture.LookFrom(c)
}

// lookIntoCup looks against the cup's axis, from near.
func (m *centre) lookIntoCup() { m.picture.LookFrom(scene.Facing(m.Session.Now().Joint.CupAxis())) }

// Show shows or hides the bones, or makes them glass.
func (m *centre) Show(pelvis, femur, glass bool) {
	m.joint.Pelvis, m.joint.Femur, m.joint.Glass = pelvis, femur, glass
	m.glass.SetChosen(glass)
	m.pelvis.SetChosen(pelvis)
	m.femur.SetChosen(femur)
	m.display(m.Session.Now())
}

// open cuts shell, liner and bones open and looks at the cut, from the side that
// is nearer to where one looked from; or makes them whole, and goes back there
// unless one has turned the picture since.
func (m *centre) open(on bool) {
	if on == m.joint.Cut {
		return
	}
	m.joint.Cut = on
	m.cut.SetChosen(on)
	s, now := m.Session.Now(), m.picture.Camera()
	m.display(s)
	switch {
	case on:
		m.before = now
		m.picture.LookFrom(atCut(now, m.joint.plane(s)))
		m.cutView = m.picture.Camera()
	case now == m.cutView:
		m.picture.LookFrom(m.before)
	}
}

// cutExtent is what a look at the cut spans, mm: the cup with the bone about it.
const cutExtent = 150

// atCut returns the view of a plane, from the side a camera is on.
func atCut(from scene.Camera, plane scene.Plane) scene.Camera {
	if !plane.Cuts() {
		return from
	}
	n := plane.Normal
	back := scene.Facing(n)
	if other := scene.Facing(r3.Scale(-1, n)); turnTo(from, other) < turnTo(from, back) {
		back = other
	}
	back.Extent = cutExtent
	return back
}

// turnTo is the angle between two lines of sight.
func turnTo(a, b scene.Camera) float64 {
	sight := func(c scene.Camera) r3.Vec {
		_, d := c.Lens(2, 2).Ray(1, 1)
		return d
	}
	return math.Acos(min(max(r3.Dot(sight(a), sight(b)), -1), 1))
}

// paint shows or hides the free area on the bearing's sphere.
func (m *centre) paint(on bool) {
	m.joint.Free = on
	m.free.SetChosen(on)
	m.display(m.Session.Now())
}

// goPast lets a posture that is moved by hand go past contact, or holds it there.
func (m *centre) goPast(on bool) {
	m.Past = on
	m.past.SetChosen(on)
}

// display draws a snapshot.
func (m *centre) display(s *session.Snapshot) {
	for i, d := range m.designs {
		setVisible(d, i < s.Case.Count)
		d.SetChosen(i == s.Active)
	}
	setVisible(m.add, s.Case.Count < kinematics.MaxDesigns)
	setVisible(m.remove, s.Case.Count > 1)
	if now := [2]int{s.Case.Count, s.Active}; now != m.laid {
		m.laid = now
		m.object.Refresh() // the chosen chip's letters are wider
	}
	m.picture.Mirror(s.Joint.Side() != 0)
	m.flash.see(s)
	m.draw(s)
}

// draw draws the joint as it is in a snapshot.
func (m *centre) draw(s *session.Snapshot) {
	m.joint.skin.follow(s, m.Play)
	m.joint.Flash = m.flash.level()
	m.picture.Cut = m.joint.plane(s)
	m.picture.Display(m.joint.instances(s), m.label(s))
}

// redraw draws the joint again, where it is on screen.
func (m *centre) redraw() {
	if m.object.Visible() {
		m.draw(m.Session.Now())
	}
}

// write says the posture.
func (m *centre) write() {
	s := m.Session.Now()
	text := m.Words.Posture(s.Contact)
	if at := r3.Norm(m.joint.levered(s)); at > 0 {
		text = m.Words.Phrase("window_two", "first", text,
			"second", m.Words.Phrase("thigh_levered", "travel", m.Words.Millimetres(at)))
	}
	setText(m.posture, text)
	if crowded(m.posture) {
		m.object.Refresh()
	}
	m.name(m.object.Size().Width)
}

// closeMargin is the margin under which a posture counts as close to contact,
// in degrees; our own choice, no source.
const closeMargin = 5

// label names the place of contact, or the place nearest to it.
func (m *centre) label(s *session.Snapshot) control.Label {
	w, c := m.Words, s.Contact
	l := control.Label{At: c.RimPoint, Flash: float32(m.flash.level()), Lines: []string{w.Clock(c.Azimuth), w.Phrase("window_clear", "margin", w.Degrees(c.Margin))}}
	switch {
	case c.InContact() && c.Margin > -pastBy:
		l.State, l.Lines[1] = control.StateContact, w.Phrase("thigh_touches")
	case c.InContact():
		l.State = control.StateContact
		l.Lines[1] = w.Phrase("window_into", "margin", w.Degrees(c.Margin.Abs()))
	case c.Margin.Degrees() < closeMargin:
		l.State = control.StateClose
	}
	return l
}

// leastPicture is the height of the picture under which nothing may lie over it.
const leastPicture = 150

// name writes the designs' names on their chips, as far as a width has room.
func (m *centre) name(wide float32) {
	s := m.Session.Now()
	for i := range s.Case.Active() {
		m.designs[i].SetText(m.chipText(wide, &s.Case, i))
	}
}

type centreLayout struct {
	m     *centre
	chips *fyne.Container
	views *fyne.Container
}

func (l *centreLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(300, 300) }

func (l *centreLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	const pad = 6
	flow := control.Flow{Gap: 4}
	l.m.name(size.Width)
	h := flow.HeightFor(l.chips.Objects, size.Width-2*pad)
	l.chips.Move(fyne.NewPos(pad, pad))
	l.chips.Resize(fyne.NewSize(size.Width-2*pad, h))
	th := l.m.Theme
	foot := 2*fyne.MeasureText("A", th.Size(theme.SizeNameText), fyne.TextStyle{}).Height + 2*th.Size(theme.SizeNameInnerPadding)
	l.m.posture.Resize(fyne.NewSize(size.Width, l.m.posture.Size().Height))
	foot = max(foot, l.m.posture.MinSize().Height)
	top := h + 2*pad
	l.m.picture.Move(fyne.NewPos(0, top))
	l.m.picture.Resize(fyne.NewSize(size.Width, max(size.Height-top-foot, 1)))
	// In a low picture the views are left to the menu and the keys.
	v := flow.HeightFor(l.views.Objects, size.Width-2*pad)
	setVisible(l.views, l.m.picture.Size().Height-v >= leastPicture)
	l.views.Move(fyne.NewPos(pad, top+pad))
	l.views.Resize(fyne.NewSize(size.Width-2*pad, v))
	l.m.posture.Move(fyne.NewPos(0, size.Height-foot))
	l.m.posture.Resize(fyne.NewSize(size.Width, foot))
}
