package chart

import (
	"cmp"
	"math"
	"slices"

	"rimclear/app/figure"
)

// zoneOutline is a published zone as it lies on the map.
type zoneOutline struct {
	name string
	ring []figure.Point
}

// outlineZones draws the published zones without their names, and returns them.
func (m *targetMap) outlineZones(s *figure.Surface) (list []zoneOutline) {
	line := figure.Stroke{Colour: figure.Fade(m.look.Palette.Ink, 0.75), Width: 1}
	for _, z := range m.Zones {
		if ring := m.zoneSpots(z); len(ring) > 0 {
			s.Outline(ring, line)
			list = append(list, zoneOutline{m.look.Words.Zone(z), ring})
		}
	}
	return list
}

// nameZones names the zones where there is room: a box in or at a corner of its
// own, a band on its own line where that is farthest from the others.
func (m *targetMap) nameZones(s *figure.Surface, b *labels, list []zoneOutline) {
	l, p := m.look, m.look.Palette
	t := figure.TextStyle{Font: l.font(0.8), Colour: p.Ink, Plate: figure.Fade(p.Paper, 0.9)}
	for i, z := range list {
		w, h := t.Width(z.name)/2+0.3*t.Size, 0.6*t.LineHeight()
		if box, ok := z.box(); ok && b.put(s, z.name, t, corners(box, w, h)...) {
			continue
		}
		others := append(slices.Clone(list[:i]), list[i+1:]...)
		b.put(s, z.name, t, z.apart(others, m.frame.Box)...)
	}
}

// box returns the zone's outline where that is a rectangle.
func (z zoneOutline) box() (figure.Rect, bool) {
	box, ok := figure.Bounds(z.ring)
	for _, p := range z.ring {
		edge := min(p.X-box.Min.X, box.Max.X-p.X, p.Y-box.Min.Y, box.Max.Y-p.Y)
		ok = ok && edge < 0.5
	}
	return box, ok
}

// corners are the places for the middle of a text of half the width w and half
// the height h: within the corners of a box, then at them.
func corners(box figure.Rect, w, h float64) []figure.Point {
	lo, hi := box.Min, box.Max
	in := []figure.Point{{X: lo.X + w, Y: lo.Y + h}, {X: hi.X - w, Y: lo.Y + h}, {X: hi.X - w, Y: hi.Y - h}, {X: lo.X + w, Y: hi.Y - h}}
	if hi.X-lo.X < 2*w || hi.Y-lo.Y < 2*h {
		in = nil
	}
	return append(in, figure.Pt(lo.X+w, lo.Y-h), figure.Pt(hi.X-w, lo.Y-h), figure.Pt(hi.X+w, lo.Y+h), figure.Pt(lo.X-w, lo.Y+h),
		figure.Pt(lo.X+w, hi.Y+h), figure.Pt(hi.X-w, hi.Y+h), figure.Pt(lo.X-w, hi.Y-h), figure.Pt(hi.X+w, hi.Y-h))
}

// apart returns places on the zone's line within the map, the farthest from the
// lines of other zones first.
func (z zoneOutline) apart(others []zoneOutline, within figure.Rect) []figure.Point {
	type place struct {
		at   figure.Point
		free float64
	}
	var list []place
	const steps = 30 // along the line
	length := 0.0
	closed := append(slices.Clone(z.ring), z.ring[0])
	for i := 1; i < len(closed); i++ {
		length += closed[i].Sub(closed[i-1]).Norm()
	}
	for k := range steps {
		at := along(closed, length*(float64(k)+0.5)/steps)
		if !within.Contains(at) {
			continue
		}
		free := math.Inf(1)
		for _, o := range others {
			free = min(free, o.distance(at))
		}
		list = append(list, place{at, free})
	}
	slices.SortStableFunc(list, func(a, b place) int { return cmp.Compare(b.free, a.free) })
	places := make([]figure.Point, len(list))
	for i, p := range list {
		places[i] = p.at
	}
	return places
}

// distance returns how far a point is from the zone's line.
func (z zoneOutline) distance(at figure.Point) float64 {
	least := math.Inf(1)
	for i, a := range z.ring {
		d := z.ring[(i+1)%len(z.ring)].Sub(a)
		u := 0.0
		if n := d.X*d.X + d.Y*d.Y; n > 0 {
			v := at.Sub(a)
			u = min(max((v.X*d.X+v.Y*d.Y)/n, 0), 1)
		}
		least = min(least, at.Sub(a.Add(d.Scale(u))).Norm())
	}
	return least
}
