package cohort

import (
	"bufio"
	"context"
	"errors"
	"io"
	"sync"
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
	ctx, stop := context.WithCancel(ctx)
	var running sync.WaitGroup
	defer running.Wait()
	defer stop()
	q := newQueue(r.s.Workers)
	running.Go(func() { q.read(ctx, &r.lines) })
	for range r.s.Workers {
		running.Go(func() { q.work(newWorker(r.s, r.table, r.dialect)) })
	}
	for b := range q.ordered {
		<-b.done
		if err := r.write(b, out); err != nil || r.tally.Stopped {
			return err
		}
		q.free <- b
	}
	if q.err != io.EOF {
		return q.err
	}
	return nil
}

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
	return nil
}

// queue hands batches from the reader to the workers, and in their order to
// the writer. There are few, used again and again.
type queue struct {
	free, waiting, ordered chan *batch
	err                    error // why reading ended; known once ordered is closed
}

// spare is how many batches there are for each worker: one at work, one
// waiting, and some that wait for a slow one before them to be written.
const spare = 6

func newQueue(workers int) *queue {
	n := spare * workers
	q := &queue{free: make(chan *batch, n), waiting: make(chan *batch, n), ordered: make(chan *batch, n)}
	for range n {
		q.free <- &batch{done: make(chan struct{}, 1)}
	}
	return q
}

// read fills batches until the lines end, which is the error io.EOF.
func (q *queue) read(ctx context.Context, r *lineReader) {
	defer close(q.ordered)
	defer close(q.waiting)
	for q.err == nil {
		var b *batch
		select {
		case b = <-q.free:
		case <-ctx.Done():
			q.err = ctx.Err()
			return
		}
		q.err = r.fill(b)
		b.end = r.bytes
		if b.lines > 0 {
			q.ordered <- b
			q.waiting <- b
		}
		if ctx.Err() != nil {
			q.err = ctx.Err()
		}
	}
}

func (q *queue) work(w *worker) {
	for b := range q.waiting {
		b.answer(w)
		b.done <- struct{}{}
	}
}
