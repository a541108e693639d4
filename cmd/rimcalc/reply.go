package main

import (
	"encoding/csv"
	"encoding/json"
	"io"
	"strconv"

	"github.com/urfave/cli/v3"

	"rimclear/app/casefile"
	"rimclear/app/present"
	"rimclear/app/store"
)

// reply is an answer that can be written in three ways.
type reply interface {
	text(p *printer, w *present.Words)
	sheet() sheet
	record(w *present.Words) (any, error)
}

// write writes a reply as the flags ask.
func (t *terminal) write(cmd *cli.Command, r reply) error {
	w := present.English()
	return t.to(cmd, func(out io.Writer) error {
		switch {
		case cmd.Bool("json"):
			record, err := r.record(w)
			if err != nil {
				return err
			}
			return writeJSON(out, record)
		case cmd.Bool("csv"):
			return r.sheet().write(out, w.Caution())
		}
		p := &printer{out: out}
		r.text(p, w)
		return p.err
	})
}

// to writes where --out says: a file, whole or not at all, or else the standard
// output.
func (t *terminal) to(cmd *cli.Command, write func(io.Writer) error) error {
	if path := cmd.String("out"); path != "" && path != "-" {
		return store.WriteFrom(path, write)
	}
	return write(t.out)
}

func writeJSON(out io.Writer, record any) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(record)
}

// head is what every JSON answer begins with.
type head struct {
	Format   string          `json:"format"`
	Version  int             `json:"version"`
	Caution  string          `json:"caution"`
	Warnings []string        `json:"warnings,omitempty"`
	Lost     []string        `json:"motions_not_known,omitempty"`
	Case     json.RawMessage `json:"case,omitempty"`
}

// head returns the beginning of an answer about the subject.
func (s *subject) head(format string, w *present.Words) (head, error) {
	data, err := casefile.Encode(s.file)
	return head{Format: "rimclear-" + format, Version: 1, Caution: w.Caution(),
		Warnings: s.warnings(w), Lost: s.lost, Case: data}, err
}

// sheet is rows under stable column names. Cells are text, numbers (nil where
// there is none), counts or truths.
type sheet struct {
	columns []string
	rows    [][]any
}

func (t *sheet) add(cells ...any) { t.rows = append(t.rows, cells) }

// write writes CSV, the caution in the last column of every row.
func (t sheet) write(out io.Writer, caution string) error {
	w := csv.NewWriter(out)
	w.Write(append(t.columns[:len(t.columns):len(t.columns)], "caution"))
	cells := make([]string, len(t.columns)+1)
	for _, row := range t.rows {
		for i, c := range row {
			cells[i] = cellText(c)
		}
		cells[len(cells)-1] = caution
		w.Write(cells)
	}
	w.Flush()
	return w.Error()
}

// cellText returns a cell of CSV. A user's text cannot become a formula.
func cellText(c any) string {
	switch c := c.(type) {
	case string:
		return harmless(c)
	case *float64:
		return cell(c)
	case float64:
		return present.Digits(c, 5)
	case int:
		return strconv.Itoa(c)
	case uint64:
		return strconv.FormatUint(c, 10)
	case bool:
		return strconv.FormatBool(c)
	}
	return ""
}
