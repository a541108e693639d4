package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"rimclear/app/present"
)

// printer writes lines and keeps the first error.
type printer struct {
	out   io.Writer
	err   error
	notes []string // below the tables, by number
}

func (p *printer) line(text string) {
	if p.err == nil {
		_, p.err = fmt.Fprintln(p.out, strings.TrimRight(text, " "))
	}
}

// gap is an empty line and, if there is a text, a line of it.
func (p *printer) gap(text string) {
	p.line("")
	if text != "" {
		p.line(text)
	}
}

// lines writes names and values, the values under each other.
func (p *printer) lines(list []present.Line) {
	var cells [][]string
	for _, l := range list {
		cells = append(cells, []string{"  " + l.Name, l.Value})
	}
	p.columns(cells)
}

// table writes rows under the column titles. Notes of grey rows stand below,
// once each.
func (p *printer) table(w *present.Words, rows []present.Row) {
	lines := [][]string{w.ColumnTitles()}
	for _, r := range rows {
		if r.Grey {
			r.Note = p.note(r.Note)
		}
		lines = append(lines, r.Cells())
	}
	p.columns(lines)
	p.foot()
}

// right writes lines of cells, each column as wide as its widest cell and set
// to the right.
func (p *printer) right(lines [][]string) {
	width := columnWidths(lines)
	for _, cells := range lines {
		var b strings.Builder
		for i, cell := range cells {
			b.WriteString(strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell)+2) + cell)
		}
		p.line(b.String())
	}
}

// columns writes lines of cells, each column as wide as its widest cell.
func (p *printer) columns(lines [][]string) {
	width := columnWidths(lines)
	for _, cells := range lines {
		var b strings.Builder
		for i, cell := range cells {
			b.WriteString(cell + strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell)+2))
		}
		p.line(b.String())
	}
}

// columnWidths returns the width of each column in characters.
func columnWidths(lines [][]string) []int {
	var width []int
	for _, cells := range lines {
		for i, cell := range cells {
			if i == len(width) {
				width = append(width, 0)
			}
			width[i] = max(width[i], utf8.RuneCountInString(cell))
		}
	}
	return width
}

// note keeps a text for below the table and returns its number; equal texts
// have one. "" has none.
func (p *printer) note(text string) string {
	if text == "" {
		return ""
	}
	n := slices.Index(p.notes, text)
	if n < 0 {
		n, p.notes = len(p.notes), append(p.notes, text)
	}
	return fmt.Sprintf("(%d)", n+1)
}

// foot writes the notes kept.
func (p *printer) foot() {
	for i, note := range p.notes {
		p.line(fmt.Sprintf("(%d) %s", i+1, note))
	}
	p.notes = nil
}

// end writes what a user should know of the case, and the caution.
func (p *printer) end(w *present.Words, warnings []string) {
	p.gap("")
	for _, text := range warnings {
		p.line(text)
	}
	p.line(w.Caution())
}

// label writes the case's label, if it has one.
func (p *printer) label(s *subject) {
	if s.c.Label != "" {
		p.line(s.c.Label)
	}
}

// title writes whose answer follows.
func (p *printer) title(w *present.Words, s *subject, design int) {
	p.gap(fmt.Sprintf("%s  %s, %s", present.Letter(design), w.DesignName(&s.c, design), w.Side(&s.c)))
}
