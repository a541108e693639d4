package session

import (
	"context"
	"sync"
	"time"
)

// Errand is a Latest whose work takes long and tells what it finds as it goes.
// A new question calls off the one before, which the work sees by its context;
// what must be told all the same it does without looking.
type Errand[Q any] struct {
	latest *Latest[sent[Q], struct{}]

	mu   sync.Mutex
	stop context.CancelFunc
}

// sent is a question with what calls it off.
type sent[Q any] struct {
	ctx      context.Context
	question Q
}

// NewErrand returns an Errand that works on one question at a time.
func NewErrand[Q any](work func(context.Context, Q), post func(func())) *Errand[Q] {
	do := func(s sent[Q]) struct{} {
		work(s.ctx, s.question)
		return struct{}{}
	}
	return &Errand[Q]{latest: NewLatest(do, post, func(sent[Q], struct{}) {})}
}

// Ask puts a question in place of those before.
func (e *Errand[Q]) Ask(q Q) {
	e.Stop()
	ctx, stop := context.WithCancel(context.Background())
	e.mu.Lock()
	e.stop = stop
	e.mu.Unlock()
	e.latest.Ask(sent[Q]{ctx, q})
}

// Stop calls off the last question.
func (e *Errand[Q]) Stop() {
	e.mu.Lock()
	defer e.mu.Unlock()
	if e.stop != nil {
		e.stop()
		e.stop = nil
	}
}

// Busy reports whether something is still being worked out.
func (e *Errand[Q]) Busy() bool { return e.latest.Busy() }

// Close calls off the last question and waits until the work has seen it.
func (e *Errand[Q]) Close() {
	e.Stop()
	e.latest.Close()
}

// quiet is how long nothing must have changed before placements are simulated,
// which takes all the time there is.
const quiet = 250 * time.Millisecond

// Quiet waits, and reports whether the question still stands.
func Quiet(ctx context.Context) bool {
	t := time.NewTimer(quiet)
	defer t.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-t.C:
		return true
	}
}
