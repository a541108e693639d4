package report

import "rimclear/app/figure"

// entry is one cell of a printed table.
type entry struct {
	text string
	tone tone
	bold bool
}

// tone is how a cell is coloured, besides what its words say.
type tone int

const (
	plainTone tone = iota
	softTone       // lesser, or outside what the model says
	freeTone
	closeTone
	contactTone
)

// grid is a table as it is printed: a column of names, then one per design.
type grid struct {
	set    typeset
	width  float64
	first  float64 // width of the first column; zero takes a share
	titles []entry // of all columns; those of designs are coloured by letter
	design []int   // index of the design of each further column, -1 for none
	rows   [][]entry
	size   float64 // of the letters; zero means tableSize
}

const (
	gridPad = 1.15 // above and below the text of a row
	gridGap = 7    // between columns
)

func (g *grid) add(cells ...entry) { g.rows = append(g.rows, cells) }

func (g *grid) letters() float64 {
	if g.size == 0 {
		return tableSize
	}
	return g.size
}

// column returns left edge and width of a column.
func (g *grid) column(k int) (left, width float64) {
	first := g.first
	if first == 0 {
		first = [5]float64{1, 0.58, 0.42, 0.31, 0.27}[min(len(g.titles)-1, 4)] * g.width
	}
	if k == 0 {
		return 0, first - gridGap
	}
	each := (g.width - first) / float64(len(g.titles)-1)
	return first + float64(k-1)*each, each - gridGap
}

func (g *grid) style(c entry, k int) figure.TextStyle {
	t := g.set.ink(g.letters())
	p := g.set.palette
	switch c.tone {
	case softTone:
		t.Colour = p.Soft
	case freeTone:
		t.Colour = p.Free.Text
	case closeTone:
		t.Colour = p.Close.Text
	case contactTone:
		t.Colour = p.Contact.Text
	}
	if k == 0 && c.tone == plainTone && !c.bold {
		t.Colour = p.Soft
	}
	t.Bold = c.bold
	return t
}

// blocks returns the table as blocks: the titles held to the first row, each
// row whole, and the titles again at the top of a next page.
func (g *grid) blocks(above float64) []block {
	head := g.head()
	head.above, head.keep = above, true
	again := g.head()
	list := []block{head}
	for i, row := range g.rows {
		b := g.row(row)
		if i > 0 {
			b.again = &again
		}
		b.keep = i == 0 && len(g.rows) > 1 || i == len(g.rows)-2
		list = append(list, b)
	}
	return list
}

func (g *grid) head() block {
	height := 0.0
	styles := make([]figure.TextStyle, len(g.titles))
	for k, c := range g.titles {
		styles[k] = g.set.bold(g.letters())
		if k > 0 && g.design != nil && g.design[k-1] >= 0 {
			styles[k].Colour = g.set.palette.Designs[g.design[k-1]%4].Text
		}
		_, w := g.column(k)
		height = max(height, float64(len(styles[k].Wrap(c.text, w)))*styles[k].LineHeight())
	}
	height += 2 * gridPad
	return block{height: height, draw: func(s *figure.Surface, r figure.Rect) {
		for k, c := range g.titles {
			left, w := g.column(k)
			n := float64(len(styles[k].Wrap(c.text, w))) * styles[k].LineHeight()
			s.Paragraph(figure.Box(r.Min.X+left, r.Max.Y-gridPad-n, w, n), c.text, styles[k])
		}
		s.Line(figure.Pt(r.Min.X, r.Max.Y), r.Max, figure.Stroke{Colour: g.set.palette.Axis, Width: 0.8})
	}}
}

func (g *grid) row(cells []entry) block {
	height := 0.0
	for k, c := range cells {
		t := g.style(c, k)
		_, w := g.column(k)
		height = max(height, float64(len(t.Wrap(c.text, w)))*t.LineHeight())
	}
	height += 2 * gridPad
	return block{height: height, draw: func(s *figure.Surface, r figure.Rect) {
		for k, c := range cells {
			left, w := g.column(k)
			s.Paragraph(figure.Box(r.Min.X+left, r.Min.Y+gridPad, w, r.H()), c.text, g.style(c, k))
		}
		s.Line(figure.Pt(r.Min.X, r.Max.Y), r.Max, g.set.hair())
	}}
}
