package cohort

import (
	"context"
	"io"
	"sync"
)

// Pipe is work on a stream in batches: one goroutine fills them, several work
// on them, and the caller's writes them in the order in which they were
// filled. There are few batches, used again and again.
type Pipe[B any] struct {
	Workers int
	Fill    func(*B) error  // reads the next batch; io.EOF ends the stream, with or without a last batch
	Empty   func(*B) bool   // reports whether a batch holds nothing, and is passed over
	Worker  func() func(*B) // returns what one worker does with each of its batches
	Write   func(*B) error  // an error ends the work
}

// spare is how many batches there are for each worker: one at work, one
// waiting, and some that wait for a slow one before them to be written.
const spare = 6

// piped is a batch on its way.
type piped[B any] struct {
	batch B
	done  chan struct{}
}

// Run works on the whole stream. The error is that of Fill, but for io.EOF, or
// of Write, or the context's.
func (p Pipe[B]) Run(ctx context.Context) error {
	ctx, stop := context.WithCancel(ctx)
	var running sync.WaitGroup
	defer running.Wait()
	defer stop()
	n := spare * p.Workers
	free, waiting, ordered := make(chan *piped[B], n), make(chan *piped[B], n), make(chan *piped[B], n)
	for range n {
		free <- &piped[B]{done: make(chan struct{}, 1)}
	}
	var ended error // known once ordered is closed
	running.Go(func() {
		defer close(ordered)
		defer close(waiting)
		ended = p.read(ctx, free, ordered, waiting)
	})
	for range p.Workers {
		running.Go(func() {
			work := p.Worker()
			for b := range waiting {
				work(&b.batch)
				b.done <- struct{}{}
			}
		})
	}
	for b := range ordered {
		<-b.done
		if err := p.Write(&b.batch); err != nil {
			return err
		}
		free <- b
	}
	if ended == io.EOF {
		return nil
	}
	return ended
}

// read fills batches until the stream ends.
func (p Pipe[B]) read(ctx context.Context, free <-chan *piped[B], to ...chan<- *piped[B]) error {
	for {
		var b *piped[B]
		select {
		case b = <-free:
		case <-ctx.Done():
			return ctx.Err()
		}
		err := p.Fill(&b.batch)
		if !p.Empty(&b.batch) {
			for _, c := range to {
				c <- b // never waits: there is room for all batches
			}
		}
		if err == nil {
			err = ctx.Err()
		}
		if err != nil {
			return err
		}
	}
}
