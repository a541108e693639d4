package report

import "rimclear/app/figure"

// block is a piece of a page that is not divided.
type block struct {
	height float64
	above  float64 // space above it, but not at the top of a page
	// keep holds the block to the next one: no page ends after it.
	keep bool
	// again, if there is one, is drawn first where the block is the first of a
	// page: the titles of a table that goes on.
	again *block
	draw  func(s *figure.Surface, r figure.Rect)
}

// placed is a block on its page.
type placed struct {
	block
	at figure.Rect
}

// flow sets blocks one under the other on as many pages as they need.
func flow(p Paper, list []block) [][]placed {
	var pages [][]placed
	var page []placed
	body := p.body(true)
	y := body.Min.Y
	for i := 0; i < len(list); {
		n, need := together(list[i:])
		if len(page) > 0 {
			need += list[i].above
		}
		if len(page) > 0 && y+need > body.Max.Y+0.01 {
			pages, page = append(pages, page), nil
			body = p.body(false)
			y = body.Min.Y
		}
		for _, b := range list[i : i+n] {
			switch {
			case len(page) > 0:
				y += b.above
			case b.again != nil:
				page = append(page, placed{*b.again, figure.Box(body.Min.X, y, body.W(), b.again.height)})
				y += b.again.height
			}
			page = append(page, placed{b, figure.Box(body.Min.X, y, body.W(), b.height)})
			y += b.height
		}
		i += n
	}
	return append(pages, page)
}

// together returns how many of the first blocks stay together, and their
// height without the space above the first.
func together(list []block) (n int, height float64) {
	for n < len(list) {
		if n > 0 {
			height += list[n].above
		}
		height += list[n].height
		n++
		if !list[n-1].keep {
			break
		}
	}
	return n, height
}

// textBlock is a paragraph over the whole width.
func textBlock(text string, t figure.TextStyle, width, above float64) block {
	lines := t.Wrap(text, width)
	return block{
		height: float64(len(lines)) * t.LineHeight(), above: above,
		draw: func(s *figure.Surface, r figure.Rect) { s.Paragraph(r, text, t) },
	}
}

// beside sets blocks side by side, each at a left edge and a width.
func beside(above float64, columns ...column) block {
	b := block{above: above}
	for _, c := range columns {
		b.height = max(b.height, c.height())
	}
	b.draw = func(s *figure.Surface, r figure.Rect) {
		for _, c := range columns {
			y := r.Min.Y
			for i, x := range c.blocks {
				if i > 0 {
					y += x.above
				}
				x.draw(s, figure.Box(r.Min.X+c.left, y, c.width, x.height))
				y += x.height
			}
		}
	}
	return b
}

// column is blocks one under the other in a part of the width.
type column struct {
	left, width float64
	blocks      []block
}

func (c column) height() float64 {
	h := 0.0
	for i, b := range c.blocks {
		if i > 0 {
			h += b.above
		}
		h += b.height
	}
	return h
}

// balanced divides blocks into columns of about one height, in their order,
// and sets these side by side. Rows of a table cannot be told from others, so
// only text belongs here.
func balanced(list []block, width, gap float64, count int) block {
	whole := column{blocks: list}.height()
	each := (width - gap*float64(count-1)) / float64(count)
	columns := make([]column, count)
	k, y := 0, 0.0
	for i, b := range list {
		if y > 0 && k < count-1 && !(i > 0 && list[i-1].keep) && y+b.height/2 > whole/float64(count) {
			k, y = k+1, 0
		}
		if y > 0 {
			y += b.above
		}
		y += b.height
		columns[k].blocks = append(columns[k].blocks, b)
	}
	for i := range columns {
		columns[i].left, columns[i].width = float64(i)*(each+gap), each
	}
	return beside(0, columns...)
}
