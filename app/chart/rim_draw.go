package chart

import (
	"math"
	"slices"
	"strconv"

	"rimclear/app/figure"
	"rimclear/kinematics/unit"
)

// listScale is the size of the list under the clock.
const listScale = 0.9

func (r *rimChart) drawStatic(s *figure.Surface) {
	p := r.look.Palette
	disc := figure.Disc(r.frame.Box.Centre(), r.radius(), 180)
	s.PushClip(disc)
	r.drawMargins(s, r.frame, r.fields())
	r.drawGrid(s)
	r.drawOutlines(s, r.frame, r.fields())
	s.PopClip()
	s.Outline(disc, figure.Stroke{Colour: p.Axis, Width: 1.4})
	r.drawHours(s)
	r.drawTracks(s)
	r.drawBadges(s)
	r.drawList(s)
	r.drawAround(s, r.sideWords())
}

// drawGrid draws circles every 30° from the cup axis and the hours' rays.
func (r *rimChart) drawGrid(s *figure.Surface) {
	st := figure.Stroke{Colour: figure.Fade(r.look.Palette.Ink, 0.13), Width: 0.7}
	c := r.frame.Box.Centre()
	for v := 30.0; v < r.reach; v += 30 {
		s.Outline(figure.Disc(c, r.radius()*v/r.reach, 120), st)
	}
	var rays [][]figure.Point
	for h := range 6 {
		a := r.hour(unit.Angle(30*h) * unit.Degree)
		rays = append(rays, []figure.Point{c.Polar(r.radius(), a), c.Polar(-r.radius(), a)})
	}
	s.Polylines(rays, st)
}

// drawHours writes the hours round the edge, and which side is which.
func (r *rimChart) drawHours(s *figure.Surface) {
	l, c := r.look, r.frame.Box.Centre()
	ink := l.ink(1).At(figure.Centre, figure.Middle)
	var ticks [][]figure.Point
	for h := 1; h <= 12; h++ {
		a := r.hour(unit.Angle(30*h) * unit.Degree)
		ticks = append(ticks, []figure.Point{c.Polar(r.radius(), a), c.Polar(r.radius()+0.35*l.Text, a)})
		ink.Bold = h%3 == 0
		s.Text(c.Polar(r.radius()+1.1*l.Text, a), strconv.Itoa(h), ink)
	}
	s.Polylines(ticks, figure.Stroke{Colour: l.Palette.Axis, Width: 1})
	side := l.soft(0.85).At(figure.Centre, figure.Middle)
	off := r.radius() + 2.1*l.Text
	for _, w := range []struct {
		name    string
		azimuth unit.Angle
	}{{l.Phrase("chart_anterior"), 90 * unit.Degree}, {l.Phrase("chart_posterior"), -90 * unit.Degree}} {
		at := c.Polar(off, r.hour(w.azimuth))
		side.Turn = 90
		if at.X > c.X {
			side.Turn = -90
		}
		s.Text(at, w.name, side)
	}
	small := l.soft(0.8).At(figure.Centre, figure.Middle)
	small.Plate = figure.Fade(l.Palette.Paper, 0.6)
	for v := 30.0; v < r.reach; v += 30 {
		s.Text(c.Polar(r.radius()*v/r.reach, r.hour(-165*unit.Degree)), unsignedLabel(v), small)
	}
}

// drawTracks draws the way of the neck axis in each motion: thin, bold where
// close to contact, with a cross where it stops.
func (r *rimChart) drawTracks(s *figure.Surface) {
	p := r.look.Palette
	thin := figure.Stroke{Colour: figure.Fade(p.Ink, 0.75), Width: 0.9}
	bold := figure.Stroke{Colour: p.Close.Line, Width: 3}
	for _, t := range r.tracks() {
		for _, piece := range t.pieces {
			if piece.close {
				s.Polyline(piece.line, bold)
			}
			s.Polyline(piece.line, thin)
		}
	}
	for _, t := range r.tracks() {
		if end, ok := t.end(); ok && t.stops {
			col := p.Contact.Line
			if t.grey {
				col = p.Beyond.Line
			}
			cross := figure.Cross(end, 0.36*r.look.Text)
			s.Polylines(cross, figure.Stroke{Colour: p.Paper, Width: 4})
			s.Polylines(cross, figure.Stroke{Colour: col, Width: 2.2})
		}
	}
}

func (t track) end() (figure.Point, bool) {
	if len(t.pieces) == 0 {
		return figure.Point{}, false
	}
	last := t.pieces[len(t.pieces)-1].line
	return last[len(last)-1], true
}

// drawBadges marks the contact points on the rim with the numbers of the list,
// moved along the edge where they would cover each other.
func (r *rimChart) drawBadges(s *figure.Surface) {
	var number []int
	var want []float64
	for i, t := range r.tracks() {
		if t.stops {
			number = append(number, i)
			want = append(want, r.hour(t.azimuth))
		}
	}
	l, c, size := r.look, r.frame.Box.Centre(), 0.62*r.look.Text
	ring := r.radius() - 1.5*size
	places := spread(want, 2.15*size/ring*180/math.Pi)
	for k, i := range number {
		t := r.tracks()[i]
		at, tick := c.Polar(ring, places[k]), c.Polar(r.radius(), want[k])
		st := figure.Stroke{Colour: r.badgeColour(t), Width: 1.4}
		s.Line(c.Polar(r.radius()+0.35*l.Text, want[k]), tick, figure.Stroke{Colour: st.Colour, Width: 3})
		s.Line(tick, at, st)
		r.drawBadge(s, at, i, t)
	}
}

func (r *rimChart) badgeColour(t track) figure.Colour {
	switch {
	case !t.stops:
		return r.look.Palette.Soft
	case t.grey:
		return r.look.Palette.Beyond.Text
	}
	return r.look.Palette.Contact.Text
}

func (r *rimChart) drawBadge(s *figure.Surface, at figure.Point, i int, t track) {
	size := 0.62 * r.look.Text
	s.Polygon(figure.Disc(at, size, 0), figure.Solid(r.badgeColour(t)))
	text := figure.TextStyle{Font: figure.Font{Size: 0.85 * r.look.Text, Bold: true}, Colour: r.look.Palette.Paper}
	s.Text(at, strconv.Itoa(i+1), text.At(figure.Centre, figure.Middle))
}

// drawList writes what each number is and how far it goes, in two columns.
func (r *rimChart) drawList(s *figure.Surface) {
	l, p := r.look, r.look.Palette
	f := l.font(listScale)
	rows := (len(r.tracks()) + 1) / 2
	widths := r.columns(f, rows)
	for i, t := range r.tracks() {
		x, column := r.body.Min.X, widths[0]
		if i >= rows {
			x, column = r.body.Max.X-widths[1], widths[1]
		}
		y := r.body.Max.Y + (float64(i%rows)+0.5)*f.LineHeight()
		r.drawBadge(s, figure.Pt(x+0.62*l.Text, y), i, t)
		style := figure.TextStyle{Font: f, Colour: p.Ink, V: figure.Middle}
		if t.grey || !t.stops {
			style.Colour = p.Soft
		}
		reading := style
		reading.Bold = !t.grey && t.stops
		s.Text(figure.Pt(x+column, y), t.reading, reading.At(figure.Right, figure.Middle))
		room := column - listIndent*l.Text - reading.Width(t.reading) - 0.5*l.Text
		s.Text(figure.Pt(x+listIndent*l.Text, y), fit(t.name, f, room), style)
	}
}

// listIndent is where the names of the list begin, in sizes of the letters.
const listIndent = 1.7

// columns shares the width between the two columns of the list as their
// longest lines need it.
func (r *rimChart) columns(f figure.Font, rows int) [2]float64 {
	var need [2]float64
	bold := figure.Font{Size: f.Size, Bold: true}
	for i, t := range r.tracks() {
		w := listIndent*r.look.Text + f.Width(t.name) + 0.6*r.look.Text + bold.Width(t.reading)
		need[i/rows] = max(need[i/rows], w)
	}
	spare := r.body.W() - 1.2*r.look.Text - need[0] - need[1]
	return [2]float64{need[0] + spare/2, need[1] + spare/2}
}

// fit returns text, cut with an ellipsis where it is longer than room.
func fit(text string, f figure.Font, room float64) string {
	if f.Width(text) <= room {
		return text
	}
	runes := []rune(text)
	for len(runes) > 0 && f.Width(string(runes)+"…") > room {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "…"
}

// spread moves directions, in degrees, apart until neighbours are gap from each
// other, each as little as a few rounds of pushing need.
func spread(want []float64, gap float64) []float64 {
	n := len(want)
	order := make([]int, n)
	at := make([]float64, n)
	for i, v := range want {
		order[i] = i
		at[i] = math.Mod(math.Mod(v, 360)+360, 360)
	}
	slices.SortFunc(order, func(a, b int) int {
		switch {
		case at[a] < at[b]:
			return -1
		case at[a] > at[b]:
			return 1
		}
		return a - b
	})
	if float64(n)*gap > 360 {
		gap = 360 / float64(n)
	}
	for range 200 {
		moved := false
		for k := range order {
			a, b := order[k], order[(k+1)%n]
			d := at[b] - at[a]
			if k == n-1 {
				d += 360
			}
			if n > 1 && d < gap-1e-6 {
				at[a] -= (gap - d) / 2
				at[b] += (gap - d) / 2
				moved = true
			}
		}
		if !moved {
			break
		}
	}
	return at
}

// drawMarker draws the neck axis at the posture, and where rim and neck are
// nearest.
func (r *rimChart) drawMarker(s *figure.Surface) {
	j, ok := r.active()
	if !ok {
		return
	}
	pose := inCup(j, r.Posture, r.Hip.PosturePlane)
	touch := j.Aperture.Nearest(pose)
	c, a := r.frame.Box.Centre(), r.hour(touch.Azimuth)
	s.Polygon(figure.Triangle(c.Polar(r.radius()-0.25*r.look.Text, a), 0.5*r.look.Text, a), figure.Solid(r.look.Palette.Ink))
	at := onClock(pose.Axis)
	if n := at.Norm(); n > r.reach {
		at = at.Scale(r.reach / n)
	}
	drawState(s, r.look, r.frame.At(at.X, at.Y), touch.Margin)
}
