package chart

import (
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

// cupArc shows how far each design would go with a shallower or a deeper cup,
// all else of the design held. The design as it is is a point on its curve.
var cupArc = sweepChart(arcSweep)

var arcSweep = sweep{
	key:   "cup_arc",
	title: func(w *present.Words) string { return w.Phrase("chart_cup_arc") },
	axis:  func(w *present.Words) string { return w.Phrase("chart_arc_axis") },
	from:  140, to: 200, tick: 20, unit: "°",
	value: func(d kinematics.Design) float64 { return d.Rim.Arc.Degrees() },
	with: func(d kinematics.Design, x float64) kinematics.Design {
		d.Rim.Arc = unit.Angle(x) * unit.Degree
		return d
	},
}
