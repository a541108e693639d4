package report

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"rimclear/app/present"
)

// TableFormat and TableVersion are what the JSON form of a table says it is.
const (
	TableFormat  = "rimclear-table"
	TableVersion = 1
)

// Table is a table as data: a row per answer, a column per thing said of it.
// Columns have stable names that carry their unit.
type Table struct {
	Key     string // names it in files
	Title   string
	Columns []string
	Rows    [][]any // string, float64, int, bool, or nil where there is nothing to say
	about   about
}

// about is what every file of a report carries besides its own contents.
type about struct{ program, fingerprint, caution string }

// add appends a row.
func (t *Table) add(cells ...any) { t.Rows = append(t.Rows, cells) }

// The columns with which every CSV ends.
const (
	fingerprintColumn = "case_sha256"
	cautionColumn     = "caution"
)

// WriteCSV writes the table with a header. Text that a spreadsheet would take
// for a formula is made harmless by an apostrophe.
func (t Table) WriteCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	lines := [][]string{append(append([]string(nil), t.Columns...), fingerprintColumn, cautionColumn)}
	for _, row := range t.Rows {
		cells := make([]string, 0, len(row)+2)
		for _, v := range row {
			cells = append(cells, cellText(v))
		}
		lines = append(lines, append(cells, t.about.fingerprint, t.about.caution))
	}
	if err := out.WriteAll(lines); err != nil {
		return fmt.Errorf("table %s: %w", t.Key, err)
	}
	return nil
}

func cellText(v any) string {
	switch v := v.(type) {
	case nil:
		return ""
	case float64:
		return present.Digits(v, 5)
	case int:
		return strconv.Itoa(v)
	case bool:
		return strconv.FormatBool(v)
	case string:
		return plainText(v)
	}
	return fmt.Sprint(v)
}

// plainText returns text as a spreadsheet shows it and does not compute it
// (OWASP, "CSV Injection").
func plainText(s string) string {
	if strings.IndexAny(s, "=+-@\t\r\n＝＋－＠") != 0 {
		return s
	}
	if _, err := strconv.ParseFloat(s, 64); err == nil {
		return s // a number is not computed
	}
	return "'" + s
}

// WriteJSON writes the table as an object with a list of rows, each an object
// whose fields are the columns in their order.
func (t Table) WriteJSON(w io.Writer) error {
	var b bytes.Buffer
	b.WriteString("{")
	for _, m := range []struct {
		key   string
		value any
	}{
		{"format", TableFormat}, {"version", TableVersion}, {"table", t.Key}, {"title", t.Title},
		{"program", t.about.program}, {fingerprintColumn, t.about.fingerprint}, {cautionColumn, t.about.caution},
	} {
		b.WriteString("\n  " + jsonText(m.key) + ": " + jsonText(m.value) + ",")
	}
	b.WriteString("\n  \"rows\": [")
	for i, row := range t.Rows {
		if i > 0 {
			b.WriteString(",")
		}
		b.WriteString("\n    {")
		for k, v := range row {
			if k > 0 {
				b.WriteString(", ")
			}
			b.WriteString(jsonText(t.Columns[k]) + ": " + jsonText(v))
		}
		b.WriteString("}")
	}
	b.WriteString("\n  ]\n}\n")
	_, err := w.Write(b.Bytes())
	return err
}

// jsonText returns a value as JSON. Numbers have five decimals; what is no
// number, such as a margin without end, is null.
func jsonText(v any) string {
	if x, ok := v.(float64); ok {
		x = math.Round(x*1e5)/1e5 + 0
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return "null"
		}
		v = x
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if e.Encode(v) != nil {
		return "null" // strings, numbers and booleans always have a form
	}
	return strings.TrimSuffix(b.String(), "\n")
}
