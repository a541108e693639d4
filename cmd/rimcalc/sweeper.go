package main

import (
	"bufio"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"sync"

	"rimclear/kinematics/aperture"
)

// sweeper answers a CSV stream row by row: one goroutine reads, several answer
// batches, and the caller's writes them in the order in which they were read.
// No more than a few batches are held at a time.
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

// batch is a stretch of rows and, once done is closed, their answers.
type batch struct {
	rows    []inputRow
	answers []outputRow
	done    chan struct{}
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
	ctx, stop := context.WithCancel(ctx)
	var workers sync.WaitGroup
	defer workers.Wait()
	defer stop()
	ordered := make(chan *batch, 2*s.workers)
	waiting := make(chan *batch, s.workers)
	var readErr error
	workers.Go(func() {
		defer close(ordered)
		defer close(waiting)
		readErr = s.read(ctx, reader, ordered, waiting)
	})
	for range s.workers {
		workers.Go(func() { s.work(waiting) })
	}
	for b := range ordered {
		<-b.done
		if err := s.write(w, b); err != nil {
			return err
		}
	}
	w.Flush()
	return errors.Join(readErr, w.Error())
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

// read hands out the rows in batches. Each batch is put in order before a
// worker can have it.
func (s *sweeper) read(ctx context.Context, r *csv.Reader, ordered, waiting chan<- *batch) error {
	number := 0
	for {
		b := &batch{done: make(chan struct{})}
		ended, err := fillBatch(r, b, &number)
		if len(b.rows) > 0 {
			for _, to := range []chan<- *batch{ordered, waiting} {
				select {
				case to <- b:
				case <-ctx.Done():
					return ctx.Err()
				}
			}
		}
		if ended || err != nil {
			return err
		}
	}
}

// fillBatch reads up to batchRows rows. A row that is no CSV is kept with its
// error; any other error ends the stream.
func fillBatch(r *csv.Reader, b *batch, number *int) (ended bool, err error) {
	for len(b.rows) < batchRows {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			return true, nil
		}
		var bad *csv.ParseError
		if err != nil && !errors.As(err, &bad) {
			return true, err
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
	return false, nil
}

// work answers batches. A worker keeps the last aperture, for cohorts in which
// one implant is placed in many ways.
func (s *sweeper) work(waiting <-chan *batch) {
	var last *aperture.Aperture
	for b := range waiting {
		b.answers = make([]outputRow, len(b.rows))
		for i, row := range b.rows {
			b.answers[i] = s.columns.answer(row, &last)
		}
		close(b.done)
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
