package view

import (
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/implant"
)

// shapeOfNeck returns what takes the place of a neck's diameter, as the ending
// of its phrases; "" where the diameter holds.
func shapeOfNeck(n implant.Neck) string {
	switch {
	case n.Oval.Present():
		return "oval"
	case n.Trapezoid.Present():
		return "trapezoid"
	case n.Taper.Present():
		return "taper"
	}
	return ""
}

// displayNeck says, where a neck has another shape than a diameter, which one:
// in place of the diameter, and in the title of the group that holds its values.
func (p *panel) displayNeck(s *session.Snapshot) {
	n, w := s.Design().Neck, p.Words
	if n == p.neck && p.told {
		return
	}
	p.neck, p.told = n, true
	none, title := w.Phrase("thigh_none"), w.Group(kinematics.NeckGroup)
	if shape := shapeOfNeck(n); shape != "" {
		none = w.Phrase("joint_shape_" + shape)
		title = w.Phrase("joint_neck_"+shape, "group", title,
			"width", w.Shortest(n.Oval.Width, 1), "depth", w.Shortest(n.Oval.Depth, 1)+w.Unit(kinematics.Millimetre))
	}
	if d, ok := p.dials["neck_diameter_mm"]; ok {
		d.SetNone(none)
	}
	if g := p.groups[kinematics.NeckGroup]; g != nil {
		g.SetTitle(title)
	}
}
