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
	out io.Writer
	err error
}

func (p *printer) line(text string) {
	if p.err == nil {
		_, p.err = fmt.Fprintln(p.out, strings.TrimRight(text, " "))
	}
}

// table writes rows under the column titles, each column as wide as its widest
// cell. Notes of grey rows stand below, once each.
func (p *printer) table(w *present.Words, rows []present.Row) {
	lines := [][]string{w.ColumnTitles()}
	var notes []string
	for _, r := range rows {
		if r.Grey {
			n := slices.Index(notes, r.Note)
			if n < 0 {
				n, notes = len(notes), append(notes, r.Note)
			}
			r.Note = fmt.Sprintf("(%d)", n+1)
		}
		lines = append(lines, r.Cells())
	}
	width := make([]int, len(lines[0]))
	for _, cells := range lines {
		for i, cell := range cells {
			width[i] = max(width[i], utf8.RuneCountInString(cell))
		}
	}
	for _, cells := range lines {
		var b strings.Builder
		for i, cell := range cells {
			b.WriteString(cell + strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell)+2))
		}
		p.line(b.String())
	}
	for i, note := range notes {
		p.line(fmt.Sprintf("(%d) %s", i+1, note))
	}
}
