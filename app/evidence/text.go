package evidence

import (
	"strings"
	"unicode/utf8"

	"rimclear/app/present"
)

// Text returns the tables for a terminal: relations, golden sets, and each
// value that does not hold.
func (r Report) Text(w *present.Words) string {
	var b strings.Builder
	relations := r.relationTable(w)
	for i, row := range relations { // without the sources, which are long
		relations[i] = append([]string{row[0]}, row[2:]...)
	}
	align(&b, relations)
	b.WriteString("\n")
	align(&b, r.goldenTable(w))
	b.WriteString("\n")
	var failed [][]string
	for _, x := range r.Relations {
		for _, v := range x.Values {
			if !v.Holds() {
				failed = append(failed, append([]string{w.Phrase(x.Key), v.What}, v.cells(w, x.Decimals)...))
			}
		}
	}
	align(&b, failed)
	b.WriteString(r.Summary(w) + "\n" + w.Caution() + "\n")
	return b.String()
}

// align writes rows in columns as wide as their widest cell.
func align(b *strings.Builder, rows [][]string) {
	width := map[int]int{}
	for _, row := range rows {
		for i, cell := range row {
			width[i] = max(width[i], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range rows {
		var line strings.Builder
		for i, cell := range row {
			line.WriteString(cell + strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell)+2))
		}
		b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
}
