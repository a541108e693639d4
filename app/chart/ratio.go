package chart

import (
	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

// headNeckRatio shows how far each design would go with another ratio of head
// to neck: the head is varied, the neck and all else of the design are held.
// The design as it is is a point on its curve.
var headNeckRatio = sweepChart(ratioSweep)

var ratioSweep = sweep{
	key:   "head_neck_ratio",
	title: func(w *present.Words) string { return w.Phrase("chart_head_neck_ratio") },
	axis:  func(w *present.Words) string { return w.Phrase("chart_ratio_axis") },
	from:  1, to: 4, tick: 0.5,
	value: func(d kinematics.Design) float64 { return d.HeadNeckRatio() },
	with: func(d kinematics.Design, x float64) kinematics.Design {
		d.Rim.HeadDiameter = x * d.Neck.Widest()
		return d
	},
}

// sweep is a value of a design that is varied while all else is held.
type sweep struct {
	key            string
	title, axis    func(*present.Words) string
	from, to, tick float64
	unit           string
	value          func(kinematics.Design) float64
	with           func(kinematics.Design, float64) kinematics.Design
}

// sweepChart returns the chart of a sweep: the oscillation angle and three
// limits over the value, a panel each.
func sweepChart(w sweep) Chart {
	return Chart{
		Key: w.key, Title: w.title,
		Draw: func(s Subject, l Look) figure.Figure {
			l = l.complete()
			c := newSwept(w, s, l)
			title := w.title(l.Words)
			return figure.Figure{
				Title: title, Alt: c.alt(title, c.sideWords()), Size: l.Size, Paper: l.Palette.Paper, Static: c.drawStatic,
			}
		},
		Still: func(Subject) hip.Posture { return hip.Posture{} },
	}
}
