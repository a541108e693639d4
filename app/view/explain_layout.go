package view

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
)

// explainWords are the words of the view, all in the same large type.
type explainWords struct {
	title, sentence *widget.Label
	fixed           *widget.Label
	scroll          *container.Scroll // title and sentence
	object          *fyne.Container   // what holds them
}

func newExplainWords(*Explain) *explainWords {
	t := &explainWords{title: widget.NewLabel(""), sentence: widget.NewLabel(""), fixed: widget.NewLabel("")}
	t.title.SizeName, t.title.TextStyle.Bold = theme.SizeNameHeadingText, true
	for _, l := range []*widget.Label{t.title, t.sentence, t.fixed} {
		l.Wrapping = fyne.TextWrapWord
	}
	t.scroll = container.NewVScroll(container.NewVBox(t.title, t.sentence))
	t.object = container.NewStack(t.scroll)
	return t
}

// heightFor is how high title and sentence are in a width.
func (t *explainWords) heightFor(width float32) float32 {
	for _, l := range []*widget.Label{t.title, t.sentence} { // lines know how high they are once they know how wide
		l.Resize(fyne.NewSize(max(width, 1), 1))
	}
	return t.scroll.Content.MinSize().Height
}

// lay lays title and sentence out, as long as they are.
func (t *explainWords) lay(x, y, width, height float32) {
	t.object.Move(fyne.NewPos(x, y))
	t.object.Resize(fyne.NewSize(max(width, 1), max(height, 1)))
	page := t.scroll.Content.(*fyne.Container)
	page.Resize(fyne.NewSize(max(width, 1), max(height, t.heightFor(width))))
	page.Layout.Layout(page.Objects, page.Size())
	t.scroll.Refresh()
}

// explainTools are the buttons of the view.
type explainTools struct {
	back, next, all, play, picture, film, fill *widget.Button
	number                                     *widget.Label
	letters                                    [kinematics.MaxDesigns]*control.Chip
	e                                          *Explain
	object, joints                             *fyne.Container
}

func newExplainTools(e *Explain) *explainTools {
	w := e.Words
	button := func(key string, icon fyne.Resource, act func()) *widget.Button {
		b := widget.NewButtonWithIcon(w.Phrase(key), icon, act)
		b.Importance = widget.LowImportance
		return b
	}
	t := &explainTools{e: e, number: widget.NewLabel("")}
	t.back = button("explain_back", theme.NavigateBackIcon(), e.Back)
	t.next = button("explain_next", theme.NavigateNextIcon(), e.Next)
	t.all = button("explain_all", theme.ListIcon(), e.Choose)
	t.play = button("explain_pause", theme.MediaPauseIcon(), e.Play)
	t.picture = button("explain_picture", theme.FileImageIcon(), e.askPicture)
	t.film = button("explain_film", theme.FileVideoIcon(), e.askFilm)
	t.fill = button("explain_full", theme.ViewFullScreenIcon(), func() { e.Full(!e.full()) })
	t.object = container.New(control.Flow{Gap: 4}, t.back, t.number, t.next, t.all, t.play, t.picture, t.film, t.fill)
	t.joints = container.New(control.Flow{Gap: 6})
	for i := range t.letters {
		t.letters[i] = control.NewChip(w.EverydayJoint(i), w.Phrase("guide_joint_help"), func() { e.toggle(i) })
		t.letters[i].Design, t.letters[i].Hint = i, e.Hint
		t.joints.Add(t.letters[i])
	}
	return t
}

// named returns the buttons by name.
func (t *explainTools) named() map[string]fyne.CanvasObject {
	m := map[string]fyne.CanvasObject{
		"explain_back": t.back, "explain_next": t.next, "explain_all": t.all, "explain_play": t.play,
		"explain_picture": t.picture, "explain_film": t.film, "explain_full": t.fill,
	}
	for i, c := range t.letters {
		m["explain_joint_"+present.Letter(i)] = c
	}
	return m
}

// display shows which joints there are and whether it plays.
func (t *explainTools) display(s *session.Snapshot) {
	shown := map[int]bool{}
	for _, i := range t.e.designs {
		shown[i] = true
	}
	for i, c := range t.letters {
		setVisible(c, s.Case.Count > 1 && i < s.Case.Count)
		if c.Chosen() != shown[i] {
			c.SetChosen(shown[i])
			t.joints.Refresh() // bold letters are wider
		}
	}
	key, icon := "explain_play", theme.MediaPlayIcon()
	switch {
	case t.e.Still:
		key, icon = "explain_step", theme.MediaSkipNextIcon()
	case t.e.playing:
		key, icon = "explain_pause", theme.MediaPauseIcon()
	}
	if text := t.e.Words.Phrase(key); text != t.play.Text {
		t.play.SetText(text)
		t.play.SetIcon(icon)
		t.object.Refresh()
	}
}

// filled says whether the view fills the screen.
func (t *explainTools) filled(on bool) {
	key, icon := "explain_full", theme.ViewFullScreenIcon()
	if on {
		key, icon = "explain_leave", theme.ViewRestoreIcon()
	}
	t.fill.SetText(t.e.Words.Phrase(key))
	t.fill.SetIcon(icon)
}

// explainLayout gives two thirds to the picture and one to the words, or more
// where they are long; the fixed line and the buttons lie below, as wide as the
// window.
type explainLayout struct{ e *Explain }

// pictureShares are the parts of the width the picture may have.
var pictureShares = []float32{2. / 3, 0.6, 0.53, 0.46}

// roomFor is by how much the letters may be enlarged in a window of a size, in
// steps, so that not every size of it has letters of its own.
func roomFor(size fyne.Size) float32 {
	return max(1, float32(math.Floor(4*float64(min(size.Width/860, size.Height/560))))/4)
}

func (l *explainLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(900, 560) }

func (l *explainLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	e := l.e
	e.fitted(size)
	const pad = 10
	lay := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(max(w, 1), max(h, 1)))
	}
	left := float32(0)
	if e.strip.Visible() {
		left = ceil(stripWidth * e.Theme.Size(theme.SizeNameText) / 13)
		lay(e.strip, 0, 0, left, size.Height)
	}
	wide := size.Width - left
	lay(e.large.Container, 0, 0, size.Width, size.Height)
	buttons := control.Flow{Gap: 4}.HeightFor(e.tools.object.Objects, wide-2*pad)
	e.text.fixed.Resize(fyne.NewSize(wide-2*pad, 1))
	line := e.text.fixed.MinSize().Height
	body := size.Height - buttons - line - pad
	var picture, right, chips float32
	for _, share := range pictureShares {
		picture = ceil(wide * share)
		right = wide - picture - 2*pad
		chips = control.Flow{Gap: 6}.HeightFor(e.tools.joints.Objects, right)
		if e.text.heightFor(right) <= body-chips-2*pad {
			break
		}
	}
	lay(e.picture, left, 0, picture, body)
	e.names.fit(e.list.Content.(*fyne.Container).Objects, wide-2*pad)
	lay(e.choice, left+pad, pad, wide-2*pad, body-2*pad)
	e.text.lay(left+picture+pad, pad, right, body-chips-2*pad)
	lay(e.tools.joints, left+picture+pad, body-chips-pad, right, chips)
	lay(e.text.fixed, left+pad, body, wide-2*pad, line)
	lay(e.tools.object, left+pad, body+line, wide-2*pad, buttons)
}

// columnsOf lays the names of the activities in as many columns as fit.
type columnsOf struct{ n int }

func (l *columnsOf) cell(o []fyne.CanvasObject) (s fyne.Size) {
	for _, x := range o {
		s = s.Max(x.MinSize())
	}
	return s
}

// fit sets how many columns there are in a width.
func (l *columnsOf) fit(o []fyne.CanvasObject, width float32) {
	l.n = max(1, min(3, int(width/l.cell(o).Width)))
}

func (l *columnsOf) rows(o []fyne.CanvasObject) int { return (len(o) + l.n - 1) / l.n }

func (l *columnsOf) MinSize(o []fyne.CanvasObject) fyne.Size {
	c := l.cell(o)
	return fyne.NewSize(c.Width, c.Height*float32(l.rows(o)))
}

func (l *columnsOf) Layout(o []fyne.CanvasObject, size fyne.Size) {
	c, rows := l.cell(o), l.rows(o)
	wide := size.Width / float32(l.n)
	for i, x := range o {
		x.Move(fyne.NewPos(float32(i/rows)*wide, float32(i%rows)*c.Height))
		x.Resize(fyne.NewSize(wide, c.Height))
	}
}
