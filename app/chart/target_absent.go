package chart

import (
	"slices"

	"rimclear/app/figure"
	"rimclear/kinematics"
)

// Absent reports whether some values of the map make no bearing, such as a neck
// wider than its head: nothing is known there, so nothing is in contact there.
func (t Target) Absent() bool {
	return t.Asked && slices.Contains(t.Map.Margin, kinematics.NoBearing)
}

// absentFill is a plain grey, apart from the hatched side and the free one.
func (m *targetMap) absentFill() figure.Fill {
	p := m.look.Palette
	return figure.Solid(figure.Mix(p.Paper, p.Ink, 0.16))
}

// drawAbsent covers the places without a bearing, each half way to the next, a
// run of them in a row as one.
func (m *targetMap) drawAbsent(s *figure.Surface) {
	g := m.grid()
	half := figure.Pt((g.Across.At(1)-g.Across.At(0))/2, (g.Up.At(1)-g.Up.At(0))/2)
	for k := range g.Up.Count {
		for i := 0; i < g.Across.Count; i++ {
			from := i
			for i < g.Across.Count && m.Map.Margin[k*g.Across.Count+i] == kinematics.NoBearing {
				i++
			}
			if i > from {
				a := m.frame.At(g.Across.At(from)-half.X, g.Up.At(k)-half.Y)
				b := m.frame.At(g.Across.At(i-1)+half.X, g.Up.At(k)+half.Y)
				s.Polygon(figure.Rect{Min: figure.Pt(a.X, b.Y), Max: figure.Pt(b.X, a.Y)}.Ring(), m.absentFill())
			}
		}
	}
}
