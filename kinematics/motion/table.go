package motion

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"rimclear/kinematics/form"
)

// How large a table may be.
const (
	mostTableBytes = 32 << 20
	mostRows       = 200_000
	mostColumns    = 1000
	mostProblems   = 20
)

// Table is the text of a recording split into columns, before anything is said
// of their meaning: comma, semicolon, tab or blanks between columns, decimal
// point or comma, quotation marks, lines of any system, and any text above the
// heading. Numbers are not yet read.
type Table struct {
	Columns []string // headings; "1", "2", … where there are none
	Rows    [][]string
	Lines   []int    // of each row in the file, from 1
	Heading int      // line of the headings, 0 where there are none
	Above   []string // lines above the heading
	Comma   bool     // numbers have decimal commas
	Between rune     // what stands between columns
}

// ReadTable reads the text of a table. The error is form.Problems.
func ReadTable(r io.Reader) (Table, error) {
	data, err := io.ReadAll(io.LimitReader(r, mostTableBytes+1))
	switch {
	case err != nil:
		return Table{}, fmt.Errorf("reading the file: %w", err)
	case len(data) > mostTableBytes:
		return Table{}, refused(0, fmt.Sprintf("the file must be at most %d MB long", mostTableBytes>>20))
	case bytes.IndexByte(data, 0) >= 0:
		return Table{}, refused(0, "the file must be a table in plain text, in UTF-8 or Latin-1")
	}
	lines := split(data)
	t := Table{}
	first := t.findRows(lines)
	if first < 0 {
		return Table{}, refused(0, "no row of numbers was found")
	}
	return t, t.fill(lines, first)
}

func refused(line int, must string) form.Problems { return form.Problems{{Line: line, Must: must}} }

// split returns the lines of a file, without byte order mark and line ends.
func split(data []byte) []string {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !utf8.Valid(data) { // Latin-1, where a byte is a character
		latin := make([]rune, len(data))
		for i, b := range data {
			latin[i] = rune(b)
		}
		data = []byte(string(latin))
	}
	data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
	data = bytes.ReplaceAll(data, []byte("\r"), []byte("\n"))
	var lines []string
	s := bufio.NewScanner(bytes.NewReader(data))
	s.Buffer(nil, mostTableBytes+1)
	for s.Scan() {
		lines = append(lines, s.Text())
	}
	return lines
}

// separators are tried in this order; a blank stands for any run of blanks.
var separators = []rune{'\t', ';', ',', ' '}

// findRows finds the first row of numbers and with it the separator and the
// decimal mark: the first way of splitting under which a line has at least two
// columns, all of them numbers, and as many cells stand in the heading above or
// in the next line.
func (t *Table) findRows(lines []string) int {
	for i, line := range lines {
		if blank(line) {
			continue
		}
		for _, sep := range separators {
			for _, comma := range []bool{false, true} {
				if comma && sep == ',' {
					continue
				}
				if n := numeric(line, sep, comma); n >= 2 && (headed(lines[:i], sep, n) || goesOn(lines[i+1:], sep, n)) {
					t.Between, t.Comma = sep, comma
					return i
				}
			}
		}
	}
	return -1
}

// goesOn reports whether the next line that is not empty has n cells, or there
// is none.
func goesOn(lines []string, sep rune, n int) bool {
	for _, line := range lines {
		if !blank(line) {
			return len(cells(line, sep)) == n
		}
	}
	return true
}

// headed reports whether the line above has n cells.
func headed(lines []string, sep rune, n int) bool {
	return len(lines) > 0 && len(cells(lines[len(lines)-1], sep)) == n
}

func blank(line string) bool { return strings.Trim(line, " \t;,") == "" }

// numeric returns the number of columns if all of them are numbers or empty,
// and at least two are numbers; 0 otherwise.
func numeric(line string, sep rune, comma bool) int {
	list := cells(line, sep)
	numbers := 0
	for _, c := range list {
		if c == "" {
			continue
		}
		if _, err := number(c, comma); err != nil {
			return 0
		}
		numbers++
	}
	if numbers < 2 {
		return 0
	}
	return len(list)
}

// number reads a finite number with a decimal point or, if comma, a decimal
// comma.
func number(cell string, comma bool) (float64, error) {
	if comma {
		if strings.ContainsRune(cell, '.') {
			return 0, strconv.ErrSyntax
		}
		cell = strings.Replace(cell, ",", ".", 1)
	}
	if strings.ContainsAny(cell, "xXpP_nNiI") { // hexadecimal, NaN, infinity
		return 0, strconv.ErrSyntax
	}
	return strconv.ParseFloat(cell, 64)
}

// cells splits a line; a separator inside quotation marks is part of the text.
func cells(line string, sep rune) []string {
	if sep == ' ' {
		return strings.Fields(line)
	}
	var list []string
	var b strings.Builder
	quoted := false
	for _, c := range line {
		switch {
		case c == '"':
			quoted = !quoted
		case c == sep && !quoted:
			list = append(list, strings.TrimSpace(b.String()))
			b.Reset()
		default:
			b.WriteRune(c)
		}
	}
	return append(list, strings.TrimSpace(b.String()))
}

// fill takes the heading from above the first row, and the rows.
func (t *Table) fill(lines []string, first int) error {
	n := len(cells(lines[first], t.Between))
	if n > mostColumns {
		return refused(first+1, fmt.Sprintf("a row must have at most %d columns", mostColumns))
	}
	t.heading(lines[:first], n)
	for i, line := range lines[first:] {
		if blank(line) {
			continue
		}
		row := cells(line, t.Between)
		if len(row) != n {
			return form.Problems{{Line: first + i + 1, Value: strconv.Itoa(len(row)), Must: fmt.Sprintf("must have %d columns, as the first row has", n)}}
		}
		if len(t.Rows) == mostRows {
			return refused(first+i+1, fmt.Sprintf("there must be at most %d rows", mostRows))
		}
		t.Rows, t.Lines = append(t.Rows, row), append(t.Lines, first+i+1)
	}
	return nil
}

// heading takes the last line above the rows that is not empty, if it has a
// heading for every column.
func (t *Table) heading(lines []string, n int) {
	last := len(lines) - 1
	for last >= 0 && blank(lines[last]) {
		last--
	}
	if last >= 0 {
		names := cells(strings.TrimPrefix(lines[last], "#"), t.Between)
		if len(names) == n {
			t.Columns, t.Heading = names, last+1
			t.Above = lines[:last]
		}
	}
	if t.Columns == nil {
		t.Above = lines
		t.Columns = make([]string, n)
	}
	for i, name := range t.Columns {
		if name == "" {
			t.Columns[i] = strconv.Itoa(i + 1)
		}
	}
}

// column returns the index of the column with a heading; there must be one.
func (t *Table) column(name string) (int, *form.Problem) {
	found := -1
	for i, c := range t.Columns {
		if c != name {
			continue
		}
		if found >= 0 {
			return 0, &form.Problem{Line: t.Heading, Place: name, Must: "stands over two columns; headings must differ"}
		}
		found = i
	}
	if found < 0 {
		return 0, &form.Problem{Line: t.Heading, Place: name, Must: "there is no such column"}
	}
	return found, nil
}
