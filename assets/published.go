package assets

import (
	"bytes"
	"embed"
	"encoding/csv"
	"fmt"
	"strings"
)

// Tables the program is held against: published and derived values, and limits
// found by other references. Each folder says in words what its tables hold.
//
//go:embed published/*.csv golden/*.csv
var tables embed.FS

// Row is a line of a table, its cells by the names of their columns.
type Row map[string]string

// Published returns a table of published or derived values, such as
// "murray.csv": its head, which names what it holds and the source, and its
// rows.
func Published(name string) (head string, rows []Row, err error) {
	return readTable("published/" + name)
}

// Golden returns the rows of a table of limits found by other references:
// "contact.csv" or "own.csv".
func Golden(name string) ([]Row, error) {
	_, rows, err := readTable("golden/" + name)
	return rows, err
}

func readTable(path string) (head string, rows []Row, err error) {
	data, err := tables.ReadFile(path)
	if err != nil {
		return "", nil, err
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		return "", nil, fmt.Errorf("%s: %w", path, err)
	}
	if len(lines) < 2 {
		return "", nil, fmt.Errorf("%s has no rows", path)
	}
	for _, line := range lines[1:] {
		row := Row{}
		for i, column := range lines[0] {
			row[column] = line[i]
		}
		rows = append(rows, row)
	}
	return headOf(string(data)), rows, nil
}

// headOf joins the remarks with which a table begins.
func headOf(data string) string {
	var words []string
	for line := range strings.Lines(data) {
		remark, ok := strings.CutPrefix(line, "#")
		if !ok {
			break
		}
		words = append(words, strings.Fields(remark)...)
	}
	return strings.Join(words, " ")
}
