package view

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

// limits shows how far the hip goes: a ruler for each line of postures that is
// asked about, and the same as a list in words.
type limits struct {
	*Context
	lines  []*line
	rulers *control.Rulers
	needs  needs
	column *container.Scroll // of the rulers
	list   *control.Ledger
	scroll *container.Scroll
}

// line is a line of postures along one joint angle, and the questions asked in
// its two directions by their place in kinematics.Questions, -1 for none.
type line struct {
	ruler *control.Ruler
	joint hip.JointAngle
	low   int
	high  int
	asked kinematics.Question // one of the two
}

func newLimits(c *Context) *limits {
	l := &limits{Context: c, list: control.NewLedger()}
	l.list.OnAsk = c.ask
	l.rulers = control.NewRulers()
	rotation := false
	for _, n := range l.pair() {
		if n.joint == hip.InternalRotation && !rotation {
			rotation = true
			l.rulers.AddCaption(c.Words.Phrase("window_ruler_ends",
				"low", c.Words.Movement(kinematics.External), "high", c.Words.Movement(kinematics.Internal)))
		}
		l.rulers.Add(n.ruler)
	}
	room := &besideBar{}
	l.column = container.NewVScroll(container.New(room, l.rulers))
	room.scroll = l.column
	// The scroll bar has its own margin.
	l.scroll = container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, 0, 10), l.list))
	return l
}

// besideBar keeps its content clear of the bar of a scroll that has one.
type besideBar struct{ scroll *container.Scroll }

// MinSize is the content's.
func (b *besideBar) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

// Layout leaves room for the bar where the content is higher than the scroll.
func (b *besideBar) Layout(o []fyne.CanvasObject, size fyne.Size) {
	const bar = 8
	if o[0].MinSize().Height > b.scroll.Size().Height+1 {
		size.Width -= bar
	}
	o[0].Resize(size)
}

// pair puts the questions that differ only in direction on one ruler.
func (l *limits) pair() []*line {
	for i, q := range kinematics.Questions {
		joint, sign := q.Movement.Joint()
		n := l.find(joint, q)
		if n == nil {
			n = &line{ruler: control.NewRuler(""), joint: joint, low: -1, high: -1, asked: q}
			n.ruler.Hint = l.Hint
			n.ruler.Inquiry = l.inquiry(func() string { return "limit" })
			n.ruler.Moved = func(deg float64) { l.move(n, deg) }
			l.lines = append(l.lines, n)
		}
		if sign < 0 {
			n.low = i
		} else {
			n.high = i
		}
	}
	return l.lines
}

func (l *limits) find(joint hip.JointAngle, q kinematics.Question) *line {
	for _, n := range l.lines {
		if n.joint == joint && n.asked.Flexion == q.Flexion && n.asked.Given == q.Given {
			return n
		}
	}
	return nil
}

// start returns the posture in which a line's questions are asked.
func (n *line) start(c *kinematics.Case) hip.Posture {
	p := hip.Posture{Flexion: n.asked.Flexion}
	if n.asked.Given {
		p.Adduction = c.Hip.GivenAdduction
	}
	return p
}

// move takes the posture to a place of a line, or to the contact before it.
func (l *limits) move(n *line, deg float64) {
	s := l.Session.Now()
	from := s.Case.Posture
	to := n.start(&s.Case).With(n.joint, degrees(deg))
	if !same(to.With(n.joint, from.Angle(n.joint)), from) {
		from = n.start(&s.Case) // it comes from elsewhere
	}
	goTo(l.Session, l.hold(from, to))
}

// titles names the rulers; the given adduction is part of some names.
func (l *limits) titles(c *kinematics.Case) {
	w := l.Words
	for _, n := range l.lines {
		switch {
		case n.joint == hip.InternalRotation && n.asked.Given:
			n.ruler.SetTitle(w.Phrase("window_ruler_at_both", "flexion", l.angle(hip.Flexion, n.asked.Flexion),
				"adduction", l.angle(hip.Adduction, c.Hip.GivenAdduction)))
		case n.joint == hip.InternalRotation:
			n.ruler.SetTitle(w.Phrase("window_ruler_at", "angle", l.angle(hip.Flexion, n.asked.Flexion)))
		case n.low < 0:
			n.ruler.SetTitle(w.Phrase("window_ruler_one", "movement", w.Movement(n.asked.Movement),
				"angle", l.angle(hip.Adduction, c.Hip.GivenAdduction)))
		default:
			low, high := kinematics.Questions[n.low].Movement, kinematics.Questions[n.high].Movement
			n.ruler.SetTitle(w.Phrase("window_ruler_ends", "low", w.Movement(low), "high", w.Movement(high)))
		}
	}
}

// display moves the rulers' ends and needles.
func (l *limits) display(s *session.Snapshot) {
	l.require(s)
	for _, n := range l.lines {
		n.ruler.Stretch(l.reach(s, n.low), l.reach(s, n.high))
		n.ruler.Point(s.Case.Posture.Angle(n.joint).Degrees(), n.holds(&s.Case, s.Case.Posture), n.faint())
	}
}

// faint reports whether a line's needle is not shown while the posture is not on
// it: those through neutral are enough.
func (n *line) faint() bool { return n.asked.Given || n.asked.Flexion != 0 }

// hollow reports whether the needle is shown though the posture is not on the
// line.
func (n *line) hollow(s *session.Snapshot) bool {
	return !n.faint() && !n.holds(&s.Case, s.Case.Posture)
}

// same reports whether two postures agree to what can be seen, 0.05°.
func same(a, b hip.Posture) bool {
	for k := hip.Flexion; k <= hip.InternalRotation; k++ {
		if math.Abs((a.Angle(k) - b.Angle(k)).Degrees()) > 0.05 {
			return false
		}
	}
	return true
}

// reach returns an end of a ruler without its words.
func (l *limits) reach(s *session.Snapshot, i int) control.Reach {
	if i < 0 || i >= len(s.Answers) {
		return control.Reach{}
	}
	a := s.Answers[i]
	r := control.Reach{Asked: true, Native: a.Question.Native.Range.Degrees(), Grey: a.BeyondNative()}
	if a.Reached {
		r.At, r.Stopped = a.Reading.Degrees(), a.Limit.Status == kinematics.Stopped
	}
	return r
}

// write puts the answers into words.
func (l *limits) write(s *session.Snapshot) {
	l.titles(&s.Case)
	rows := l.Words.Rows(&s.Case, s.Answers)
	for _, n := range l.lines {
		low, high := l.worded(s, rows, n.low), l.worded(s, rows, n.high)
		low.Detail, high.Detail = l.hinted(s, n, false, low.Detail), l.hinted(s, n, true, high.Detail)
		n.ruler.Display(low, high)
	}
	l.rulers.SetLegend(l.legend())
	l.rulers.Fit()
	if l.scroll.Visible() {
		l.list.Display(l.ledger(rows))
	}
}

// hinted is what is said of an end under the pointer: the limit, what is required
// there, and what a hollow needle means.
func (l *limits) hinted(s *session.Snapshot, n *line, high bool, detail string) string {
	if detail == "" {
		return ""
	}
	detail = l.needed(n, high, detail)
	if n.hollow(s) {
		detail = l.Words.Phrase("window_two", "first", detail, "second", l.Words.Phrase("joint_needle_hollow"))
	}
	return detail
}

func (l *limits) worded(s *session.Snapshot, rows []present.Row, i int) control.Reach {
	r := l.reach(s, i)
	if !r.Asked {
		return r
	}
	row := rows[i]
	r.Text, r.Detail = row.Reading, l.Words.Limit(&s.Case, s.Answers[i])
	switch {
	case !s.Answers[i].Reached:
		r.Text = row.Status
	case !r.Grey && row.Clock != "":
		r.Text = l.Words.Phrase("window_ruler_text", "reading", row.Reading, "clock", row.Clock)
	case r.Grey:
		r.Detail = l.Words.Phrase("joint_native", "first", r.Detail, "source", row.Source)
	}
	return r
}

func (l *limits) ledger(rows []present.Row) []control.LedgerLine {
	lines := make([]control.LedgerLine, len(rows))
	for i, r := range rows {
		e := control.LedgerLine{Name: r.Question, Value: r.Reading, Below: r.Status, Grey: r.Grey, About: numberOfRow(r)}
		if r.Clock != "" {
			e.Below = l.Words.Phrase("window_row_contact", "status", r.Status, "clock", r.Clock, "direction", r.Escape)
		}
		if r.Note != "" {
			e.Below = l.Words.Phrase("window_row_note", "below", e.Below, "note", r.Note)
		}
		lines[i] = e
	}
	return lines
}
