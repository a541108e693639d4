package cohort

import (
	"bufio"
	"context"
	"errors"
	"io"
)

// Tally is what a run has done.
type Tally struct {
	Answered int // lines with a result, faults among them
	Faults   int
	Stopped  bool // at a fault, as asked
}

// Report is told of a run from one goroutine. Both functions may be nil.
type Report struct {
	Fault func(Fault)
	// Read is told how many bytes of the input are answered.
	Read func(bytes int64)
}

// Run answers all lines of in, those of its shard, and writes their results to
// out. The error is about the whole: a header or a stream that cannot be read,
// a result that cannot be written, or the context's.
func Run(ctx context.Context, s Settings, in io.Reader, out io.Writer, report Report) (Tally, error) {
	if err := s.Check(); err != nil {
		return Tally{}, err
	}
	r := runner{s: &s, report: report}
	if err := r.begin(in, 0); err != nil {
		return Tally{}, err
	}
	if _, err := io.WriteString(out, s.Header()); err != nil {
		return Tally{}, err
	}
	err := r.run(ctx, out)
	return r.tally, err
}

// runner is one run.
type runner struct {
	s       *Settings
	report  Report
	lines   lineReader
	table   *table
	dialect dialect
	tally   Tally
}

// begin reads the header. Lines up to from are passed over.
func (r *runner) begin(in io.Reader, from int) (err error) {
	r.lines = lineReader{in: bufio.NewReaderSize(in, mostLine), s: r.s, from: from}
	r.table, r.dialect, err = r.lines.start()
	if err != nil {
		return inputError{err}
	}
	return nil
}

// ErrInput is the cause where the input as a whole cannot be read as a cohort.
var ErrInput = errors.New("no cohort")

// inputError is an error whose cause is ErrInput, in its own words.
type inputError struct{ error }

func (e inputError) Unwrap() []error { return []error{ErrInput, e.error} }

// run reads, answers and writes.
func (r *runner) run(ctx context.Context, out io.Writer) error {
	err := Pipe[batch]{
		Workers: r.s.Workers,
		Fill: func(b *batch) error {
			err := r.lines.fill(b)
			b.end = r.lines.bytes
			return err
		},
		Empty: func(b *batch) bool { return b.lines == 0 },
		Worker: func() func(*batch) {
			w := newWorker(r.s, r.table, r.dialect)
			return func(b *batch) { b.answer(w) }
		},
		Write: func(b *batch) error { return r.write(b, out) },
	}.Run(ctx)
	if err == errStopped {
		return nil
	}
	return err
}

// errStopped ends a run at a fault, as asked.
var errStopped = errors.New("stopped at a fault")

// write writes the results of a batch, up to the first fault where the run is
// to stop there.
func (r *runner) write(b *batch, out io.Writer) error {
	text := b.out
	if len(b.faults) > 0 && r.s.StopAtFault {
		text, b.faults = b.out[:b.whole], b.faults[:1]
		b.answered = count(text)
		r.tally.Stopped = true
	}
	r.tally.Answered += b.answered
	r.tally.Faults += len(b.faults)
	if r.report.Fault != nil {
		for _, f := range b.faults {
			r.report.Fault(f)
		}
	}
	if _, err := out.Write(text); err != nil {
		return err
	}
	if r.report.Read != nil {
		r.report.Read(b.end)
	}
	if r.tally.Stopped {
		return errStopped
	}
	return nil
}
