package view

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/scene"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

// lineup is the designs side by side, in one posture and seen by one camera.
// While a motion plays each goes as far as its own contact.
type lineup struct {
	*Context
	picture *control.Tiles
	add     *control.Chip
	remove  *control.Chip
	pelvis  *control.Chip
	femur   *control.Chip
	glass   *control.Chip
	bar     *playbar
	halts   *halts
	object  *fyne.Container

	joints [kinematics.MaxDesigns]*joint
	shown  [kinematics.MaxDesigns]session.Snapshot // what each tile shows
	held   [kinematics.MaxDesigns]bool             // at its own contact, which the motion has passed
	tiles  [control.MostTiles]control.Tile
	pace   *pacer
}

// nearHome is the view Compare begins with: from nearer than Explore's, so that
// neck and rim can be told in a small picture.
var nearHome = func() scene.Camera {
	c := scene.Oblique()
	c.Extent, c.Target.Y = 190, -6
	return c
}()

// tileWordsEvery is how often the words of the tiles are written: each of them is
// drawn anew for every design.
const tileWordsEvery = time.Second / 10

func newLineup(c *Context) *lineup {
	m := &lineup{Context: c, picture: control.NewTiles(nearHome), bar: newPlaybar(c)}
	m.halts = newHalts(c, func() { m.display(c.Session.Now()) })
	m.picture.OnChoose = c.Session.Activate
	for i := range m.joints {
		m.joints[i] = newJoint()
	}
	row := container.New(control.Flow{Gap: 4})
	chip := func(key string, act func()) *control.Chip {
		k := control.NewChip(c.Words.Phrase(key), c.Words.Phrase(key+"_help"), act)
		k.Hint = c.Hint
		row.Add(k)
		return k
	}
	m.add = chip("window_add_design", c.Session.Duplicate)
	m.remove = chip("window_remove_design", c.Session.Remove)
	chip("window_front", func() { m.look(scene.Front()) })
	chip("window_side", func() { m.look(scene.Side()) })
	chip("window_cup", func() { m.picture.LookFrom(scene.Facing(c.Session.Now().Joint.CupAxis())) })
	m.pelvis = chip("window_pelvis", func() { m.bones(func(j *joint) { j.Pelvis = !j.Pelvis }) })
	m.femur = chip("window_femur", func() { m.bones(func(j *joint) { j.Femur = !j.Femur }) })
	m.glass = chip("window_glass", func() { m.bones(func(j *joint) { j.Glass = !j.Glass }) })
	m.pace = &pacer{Context: c, every: tileWordsEvery, do: m.write}
	m.object = container.New(&lineupLayout{m, row}, row, m.picture, m.bar.object)
	m.bar.OnGrow = m.object.Refresh
	return m
}

// bones shows or hides bones in all tiles.
func (m *lineup) bones(change func(*joint)) {
	for _, j := range m.joints {
		change(j)
	}
	m.display(m.Session.Now())
}

// look turns the view, keeping what it is aimed at and how near it is.
func (m *lineup) look(from scene.Camera) {
	c := m.picture.Camera()
	c.Azimuth, c.Elevation = from.Azimuth, from.Elevation
	m.picture.LookFrom(c)
}

// display draws a snapshot.
func (m *lineup) display(s *session.Snapshot) {
	m.halts.display(s)
	j := m.joints[0]
	m.pelvis.SetChosen(j.Pelvis)
	m.femur.SetChosen(j.Femur)
	m.glass.SetChosen(j.Glass)
	setVisible(m.add, s.Case.Count < kinematics.MaxDesigns)
	setVisible(m.remove, s.Case.Count > 1)
	for i := range s.Case.Active() {
		m.place(s, i)
		t := &m.tiles[i]
		t.Instances = m.joints[i].instances(&m.shown[i])
		t.Mark, t.State = m.shown[i].Contact.RimPoint, stateOf(m.shown[i].Contact)
	}
	m.picture.Mirror(s.Joint.Side() == hip.Left)
	m.picture.Display(&m.tiles, s.Case.Count, s.Active)
	m.bar.display()
	m.pace.wish()
}

// place puts a design where the motion has taken it: to its own contact at most.
func (m *lineup) place(s *session.Snapshot, i int) {
	at := &m.shown[i]
	at.Case, at.Active, at.Joint = s.Case, i, m.Session.Joint(i)
	m.held[i] = false
	if p, ok := m.halts.posture(s, i); ok {
		at.Case.Posture, m.held[i] = p, true
	}
	at.Contact = at.Joint.Contact(at.Case.Posture)
}

// stateOf says how near contact a posture is.
func stateOf(c kinematics.Contact) control.State {
	switch {
	case c.Margin.Degrees() < heldMargin:
		return control.StateContact
	case c.Margin.Degrees() < closeMargin:
		return control.StateClose
	}
	return control.StateFree
}

// heldMargin is the margin, in degrees, under which a design that was stopped
// counts as touching: a stop is found to less than this.
const heldMargin = 1e-3

// write puts the tiles into words.
func (m *lineup) write() {
	s := m.Session.Now()
	for i := range s.Case.Active() {
		t := &m.tiles[i]
		t.Title = present.Letter(i)
		if name := s.Case.Designs[i].Name; name != "" {
			if m.outgrown(s, i) {
				name = m.Words.Phrase("compare_outgrown", "name", name)
			}
			t.Title = m.Words.Phrase("window_chip", "letter", t.Title, "name", name)
		}
		t.Lines = m.lines(i)
	}
	m.picture.Display(&m.tiles, s.Case.Count, s.Active)
	m.bar.write()
}

// outgrown reports whether a design has the name of a bearing of the catalogue
// and no longer its shape.
func (m *lineup) outgrown(s *session.Snapshot, i int) bool {
	for _, b := range bearings() {
		if m.Words.Bearing(b) == s.Case.Designs[i].Name {
			return !hasShape(&s.Case, i, b)
		}
	}
	return false
}

// hasShape reports whether a design has the shape of a bearing.
func hasShape(c *kinematics.Case, i int, b kinematics.Bearing) bool {
	d := b.Apply(*c, i).Designs[i]
	return d.Rim == c.Designs[i].Rim && d.Neck == c.Designs[i].Neck && d.Bearing == c.Designs[i].Bearing
}

// lines say how a design stands in the posture of its tile.
func (m *lineup) lines(i int) [2]string {
	w, c := m.Words, m.shown[i].Contact
	where := []string{"clock", w.Clock(c.Azimuth), "direction", w.Direction(c.Escape)}
	switch h := m.halts.at[i]; {
	case m.held[i]:
		return [2]string{
			w.Phrase("compare_held", "angle", w.JointAngle(h.Moving, h.Limit)),
			w.Phrase("compare_held_when", append(where, "time", w.Digits(h.Time, 1))...),
		}
	case c.InContact() && c.Margin > -pastBy:
		return [2]string{w.Phrase("thigh_touches"), w.Phrase("compare_touches", where...)}
	case c.InContact():
		return [2]string{w.Phrase("window_into", "margin", w.Degrees(c.Margin.Abs())), w.Phrase("compare_touches", where...)}
	}
	return [2]string{w.Phrase("window_clear", "margin", w.Degrees(c.Margin)), w.Phrase("compare_nearest", where...)}
}

type lineupLayout struct {
	m   *lineup
	row *fyne.Container
}

func (l *lineupLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(300, 300) }

func (l *lineupLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	const pad = 6
	h := control.Flow{Gap: 4}.HeightFor(l.row.Objects, size.Width-2*pad)
	l.row.Move(fyne.NewPos(pad, pad))
	l.row.Resize(fyne.NewSize(size.Width-2*pad, h))
	bar := l.m.bar.heightAt(size.Width)
	top := ceil(h + 2*pad)
	l.m.picture.Move(fyne.NewPos(pad, top))
	l.m.picture.Resize(fyne.NewSize(size.Width-2*pad, max(size.Height-top-bar-2, 1)))
	l.m.bar.object.Move(fyne.NewPos(0, size.Height-bar))
	l.m.bar.object.Resize(fyne.NewSize(size.Width, bar))
}
