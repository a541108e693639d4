package control

// rowLines are the words of a row broken into lines: the name, beside it or
// under it the value, and what is said below.
type rowLines struct {
	name, value, below []string
	under              bool // the value stands under the name, for want of room beside it
}

// indent is where a row's words begin.
func (r *SheetRow) indent() float32 {
	if r.Boxed || r.Marked {
		return sheetIndent
	}
	return sheetInset
}

// valueGap is the space between a name and its value.
const valueGap = 8

// mostValue is the greatest share of a row's width that a value takes beside
// its name.
const mostValue = 0.55

// split breaks a row's words into the lines of a width.
func (s *Sheet) split(r *SheetRow, l look, wide float32) rowLines {
	room := wide - r.indent() - sheetInset
	if r.Heading {
		return rowLines{name: s.widths.wrap(r.Name, l.text, 0.93*(wide-2*sheetInset))} // bold letters are wider
	}
	var n rowLines
	beside := room
	if r.Value != "" {
		v := word{text: r.Value, size: l.text, bold: !r.Grey}.wide()
		n.under = v > mostValue*room
		n.value = []string{r.Value}
		if n.under {
			n.value = s.widths.wrap(r.Value, l.text, 0.93*room)
		} else {
			beside -= v + valueGap
		}
	}
	n.name = s.widths.wrap(r.Name, l.text, beside)
	if r.Below != "" {
		n.below = s.widths.wrap(r.Below, l.caption, room)
	}
	return n
}

// tall returns how many lines of the larger letters a row has.
func (n *rowLines) tall() int {
	if n.under {
		return len(n.name) + len(n.value)
	}
	return len(n.name)
}

// arrange wraps the words and places the rows in a width.
func (s *Sheet) arrange(wide float32) {
	l := lookOf(s)
	s.wide = wide
	s.tops, s.lines = s.tops[:0], s.lines[:0]
	y := float32(0)
	line, small := word{size: l.text}.high(), word{size: l.caption}.high()
	for i := range s.rows {
		s.tops = append(s.tops, y)
		n := s.split(&s.rows[i], l, wide)
		s.lines = append(s.lines, n)
		if s.rows[i].Heading && i > 0 {
			y += 2 * sheetGap
		}
		y += line*float32(n.tall()) + small*float32(len(n.below)) + 2*sheetGap
	}
	s.tops = append(s.tops, y)
}

func (s *Sheet) paintRow(k ink, l look, i int) {
	r, n, y, wide := &s.rows[i], &s.lines[i], s.tops[i], s.Size().Width
	line := word{size: l.text}.high()
	if r.Heading {
		if i > 0 {
			y += 2 * sheetGap
		}
		for m, text := range n.name {
			k.text(sheetInset, y+sheetGap+float32(m)*line, word{text: text, size: l.text, bold: true, colour: opaque(l.Ink)})
		}
		return
	}
	high := s.tops[i+1] - y
	switch {
	case s.focused && s.cursor == i:
		k.rect(0, y, wide, high, l.th.Color(colourFocus, variant()))
	case r.Chosen:
		k.rect(0, y, wide, high, l.Paper)
		k.rect(0, y, 2, high, l.Designs[0].Text)
	}
	s.paintWords(k, l, i, y+sheetGap)
	if r.Boxed {
		s.paintBox(k, l, r.Ticked, y+sheetGap+(line-sheetBox)/2)
	}
	if r.Marked {
		k.state(l, r.State, sheetInset+float32(sheetBox)/2, y+sheetGap+line/2, l.Panel)
	}
	k.rect(r.indent(), y+high-1, wide-r.indent(), 1, l.th.Color(colourSeparator, variant()))
}

// paintWords draws the words of a row from a height on.
func (s *Sheet) paintWords(k ink, l look, i int, y float32) {
	r, n, wide := &s.rows[i], &s.lines[i], s.Size().Width
	tone := l.Ink
	if r.Grey {
		tone = l.Soft
	}
	line, small := word{size: l.text}.high(), word{size: l.caption}.high()
	for m, text := range n.name {
		k.text(r.indent(), y+float32(m)*line, word{text: text, size: l.text, colour: opaque(tone)})
	}
	below := y + float32(n.tall())*line
	if n.under {
		y += float32(len(n.name)) * line
	}
	for m, text := range n.value {
		v := word{text: text, size: l.text, bold: !r.Grey, colour: opaque(tone)}
		x := r.indent()
		if !n.under {
			x = wide - sheetInset - v.wide()
		}
		k.text(x, y+float32(m)*line, v)
	}
	for m, text := range n.below {
		k.text(r.indent(), below+float32(m)*small, word{text: text, size: l.caption, colour: opaque(l.Soft)})
	}
}
