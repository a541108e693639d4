package main

import (
	"bufio"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"

	"rimclear/app/cohort"
	"rimclear/kinematics/aperture"
)

// sweeper answers a CSV stream row by row, in the order in which they were
// read. No more than a few batches are held at a time.
type sweeper struct {
	in      io.Reader
	errs    io.Writer
	title   string // of the input, for messages
	workers int

	columns   columns
	rows, bad int
}

// batchRows is how many rows a worker takes at a time: enough to make handing
// them over cheap, few enough to keep all cores busy on short files.
const batchRows = 64

// batch is a stretch of rows and their answers.
type batch struct {
	rows    []inputRow
	answers []outputRow
}

// inputRow is a row as read, or what kept it from being read.
type inputRow struct {
	cells  []string
	number int // from 1, the header not counted
	line   int
	err    error
}

// outputRow is a row to be written and what is wrong with it.
type outputRow struct {
	cells      []string
	complaints []string
}

// run reads everything and writes the answers. The error is about the stream;
// rows that failed are counted in bad.
func (s *sweeper) run(ctx context.Context, out io.Writer) error {
	reader, err := s.header()
	if err != nil {
		return err
	}
	w := csv.NewWriter(out)
	if err := w.Write(s.columns.titles()); err != nil {
		return err
	}
	number := 0
	err = cohort.Pipe[batch]{
		Workers: s.workers,
		Fill:    func(b *batch) error { return b.fill(reader, &number) },
		Empty:   func(b *batch) bool { return len(b.rows) == 0 },
		Worker:  s.worker,
		Write:   func(b *batch) error { return s.write(w, b) },
	}.Run(ctx)
	w.Flush()
	return errors.Join(err, w.Error())
}

// header reads the first line.
func (s *sweeper) header() (*csv.Reader, error) {
	buffered := bufio.NewReader(s.in)
	if mark, err := buffered.Peek(3); err == nil && string(mark) == "\xef\xbb\xbf" {
		buffered.Discard(3)
	}
	r := csv.NewReader(&bounded{in: buffered})
	r.FieldsPerRecord = -1
	r.TrimLeadingSpace = true
	header, err := r.Read()
	switch {
	case errors.Is(err, io.EOF):
		return nil, misused("%s: it is empty; the first line must name the columns", s.title)
	case err != nil:
		return nil, misused("%s: %w", s.title, err)
	}
	if s.columns, err = columnsOf(header); err != nil {
		return nil, misused("%s: %w", s.title, err)
	}
	return r, nil
}

// fill reads up to batchRows rows. A row that is no CSV is kept with its error;
// any other error, and io.EOF, ends the stream.
func (b *batch) fill(r *csv.Reader, number *int) error {
	b.rows, b.answers = b.rows[:0], b.answers[:0]
	for len(b.rows) < batchRows {
		cells, err := r.Read()
		var bad *csv.ParseError
		if err != nil && !errors.As(err, &bad) {
			return err
		}
		*number++
		row := inputRow{cells: cells, number: *number}
		if bad != nil {
			row.line, row.err = bad.StartLine, fmt.Errorf("no CSV at byte %d: %w", bad.Column, bad.Err)
		} else {
			row.line, _ = r.FieldPos(0)
		}
		b.rows = append(b.rows, row)
	}
	return nil
}

// worker answers batches. It keeps the last aperture, for cohorts in which one
// implant is placed in many ways.
func (s *sweeper) worker() func(*batch) {
	var last *aperture.Aperture
	return func(b *batch) {
		for _, row := range b.rows {
			b.answers = append(b.answers, s.columns.answer(row, &last))
		}
	}
}

func (s *sweeper) write(w *csv.Writer, b *batch) error {
	for i, a := range b.answers {
		s.rows++
		if len(a.complaints) > 0 {
			s.bad++
		}
		for _, c := range a.complaints {
			row := b.rows[i]
			fmt.Fprintf(s.errs, "rimcalc: %s: row %d (line %d%s): %s\n", s.title, row.number, row.line, named(a.cells[0]), c)
		}
		if err := w.Write(a.cells); err != nil {
			return err
		}
	}
	return nil
}

func named(id string) string {
	if id == "" {
		return ""
	}
	return ", id " + shortened(id)
}
