package report

import (
	"rimclear/app/figure"
	"rimclear/app/present"
)

// sheet is what sections are set with.
type sheet struct {
	typeset
	width float64
	paper Paper
	used  float64 // height of the sections before
}

// sections are the parts of a report in their order. Another one is another
// line; one with nothing to say returns nothing.
var sections = []func(*Facts, *sheet) []block{
	titleSection,
	answerSection,
	pictureSection,
	rulerSection,
	valueSection,
	motionSection,
	holdSection,
	targetSection,
	weighingSection,
	methodSection,
}

// heading begins a section. It never stands alone at the foot of a page.
func (st *sheet) heading(text string) block {
	t := st.bold(headingSize)
	return block{height: t.LineHeight() + 3, above: 11, keep: true, draw: func(s *figure.Surface, r figure.Rect) {
		s.Text(figure.Pt(r.Min.X, r.Min.Y+t.Ascent()), text, t)
	}}
}

// note is a paragraph in small letters under a table or a figure.
func (st *sheet) note(text string) block { return textBlock(text, st.soft(noteSize), st.width, 3) }

// narrow returns the sheet with less width, for a column.
func (st *sheet) narrow(width float64) *sheet {
	n := *st
	n.width = width
	return &n
}

// columnGap is the space between two columns of a page.
const columnGap = 18

// pair sets two lists of blocks side by side, the first on a share of the
// width.
func (st *sheet) pair(share, above float64, left, right func(*sheet) []block) block {
	first := share * (st.width - columnGap)
	second := st.width - columnGap - first
	return beside(above,
		column{width: first, blocks: left(st.narrow(first))},
		column{left: first + columnGap, width: second, blocks: right(st.narrow(second))})
}

// chart sets a figure over the whole width.
func chartBlock(f figure.Figure, above float64) block {
	return block{height: f.Size.Y, above: above, draw: func(s *figure.Surface, r figure.Rect) { s.Place(f, r) }}
}

// grid returns a table with a column per design.
func (f *Facts) grid(st *sheet, first string) *grid {
	g := &grid{set: st.typeset, width: st.width, titles: []entry{{text: first}}}
	for i := range f.Designs {
		g.titles = append(g.titles, entry{text: f.name(i)})
		g.design = append(g.design, i)
	}
	return g
}

// lines adds lines of each design side by side, in the order in which they
// first appear.
func (g *grid) lines(lists [][]present.Line, none string) {
	var order []present.Line
	at := map[string]int{}
	for _, list := range lists {
		for _, l := range list {
			if _, seen := at[l.Key]; !seen {
				at[l.Key] = len(order)
				order = append(order, l)
			}
		}
	}
	rows := make([][]entry, len(order))
	for i, l := range order {
		rows[i] = []entry{{text: l.Name}}
		for range lists {
			rows[i] = append(rows[i], entry{text: none, tone: softTone})
		}
	}
	for k, list := range lists {
		for _, l := range list {
			rows[at[l.Key]][k+1] = entry{text: l.Value}
		}
	}
	g.rows = append(g.rows, rows...)
}
