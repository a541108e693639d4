package chart

import (
	"sync"

	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// limitRulers shows how far the hip goes on each axis from neutral: one ruler
// with zero in the middle for flexion, adduction, and rotation at chosen
// flexions, the designs stacked on it.
var limitRulers = Chart{
	Key:   "limit_rulers",
	Title: rulerTitle,
	Draw: func(s Subject, l Look) figure.Figure {
		l = l.complete()
		c := newRulerChart(s, l)
		title := rulerTitle(l.Words)
		return figure.Figure{
			Title: title, Alt: c.alt(title, c.sideWords()), Size: l.Size, Paper: l.Palette.Paper,
			Static: c.drawStatic, Marker: c.drawMarker,
		}
	},
	Still: func(Subject) hip.Posture { return hip.Posture{} },
}

func rulerTitle(w *present.Words) string { return w.Phrase("chart_limit_rulers") }

// rulerChart is one drawing of the rulers.
type rulerChart struct {
	page
	rulers []ruler
}

// ruler is one axis: the joint angle that moves, and the flexion at which
// rotation is asked.
type ruler struct {
	angle   hip.JointAngle
	flexion unit.Angle
	box     figure.Rect // where its bars lie
	axis    figure.Axis
	text    float64       // size of the letters, points
	spans   func() []span // one per design
}

// span is how far a design goes on a ruler.
type span struct{ lower, upper kinematics.Answer }

// rulerEnds are the ends of the rulers in degrees: past the native ranges and
// the widest bearings; what lies farther out is cut.
var rulerEnds = [3]float64{hip.Flexion: 150, hip.Adduction: 90, hip.InternalRotation: 120}

// needleHead is the room for the needle's head over the bars, in sizes of the
// letters.
const needleHead = 0.7

// rotationFlexions are the flexions at which rotation is asked where the
// subject names none.
var rotationFlexions = []unit.Angle{0, 90 * unit.Degree}

func newRulerChart(s Subject, l Look) *rulerChart {
	c := &rulerChart{page: newPage(s, l)}
	c.rulers = []ruler{{angle: hip.Flexion}, {angle: hip.Adduction}}
	at := s.Flexions
	if at == nil {
		at = rotationFlexions
	}
	for _, f := range at {
		c.rulers = append(c.rulers, ruler{angle: hip.InternalRotation, flexion: f})
	}
	c.layout()
	return c
}

func (c *rulerChart) layout() {
	l := c.look
	words, digits := l.font(1).LineHeight()+needleHead*l.Text, l.font(0.85).LineHeight()
	height := (c.body.H() - 0.3*l.Text) / float64(len(c.rulers))
	side := 1.2 * l.Text
	for i := range c.rulers {
		r := &c.rulers[i]
		top := c.body.Min.Y + float64(i)*height
		r.box = figure.Box(c.body.Min.X, top, c.body.W(), height).Trim(side, words, side, digits+0.5*l.Text)
		r.text = l.Text
		end := rulerEnds[r.angle]
		r.axis = figure.Axis{Min: -end, Max: end}
		r.spans = sync.OnceValue(func() []span { return c.answers(*r) })
	}
}

// answers asks each design for both ends of a ruler.
func (c *rulerChart) answers(r ruler) []span {
	lower, upper := senses(r.angle)
	list := make([]span, len(c.Designs))
	for i, d := range c.Designs {
		list[i].lower = d.Joint.Answer(c.Hip, questionOf(lower, r.flexion))
		list[i].upper = d.Joint.Answer(c.Hip, questionOf(upper, r.flexion))
	}
	return list
}

// questionOf returns the question for a movement at a flexion, with the native
// range that applies there.
func questionOf(m kinematics.Movement, flexion unit.Angle) kinematics.Question {
	var nearest kinematics.Question
	for _, q := range kinematics.Questions {
		if q.Movement != m || q.Given {
			continue
		}
		if q.Flexion == flexion && q.Native.Known() {
			return q
		}
		if nearest.End == 0 || (q.Flexion-flexion).Abs() < (nearest.Flexion-flexion).Abs() {
			nearest = q
		}
	}
	nearest.Flexion = flexion
	nearest.Native = kinematics.Native{Range: nativeRange(m, flexion), Source: nearest.Native.Source}
	return nearest
}

// x returns where a value in degrees lies on a ruler; beyond the ends at the
// end.
func (r ruler) x(degree float64) float64 {
	f := (degree - r.axis.Min) / (r.axis.Max - r.axis.Min)
	return r.box.Min.X + min(max(f, 0), 1)*r.box.W()
}

// bar returns where the bar of design i of n lies.
func (r ruler) bar(i, n int) figure.Rect {
	h := min(r.box.H()/float64(max(n, 1)), 2.3*r.text)
	return figure.Box(r.box.Min.X, r.box.Min.Y+float64(i)*h, r.box.W(), h-1)
}

// shows reports whether a value in degrees lies within the ruler's ends.
func (r ruler) shows(degree float64) bool { return r.axis.Min <= degree && degree <= r.axis.Max }
