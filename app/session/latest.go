package session

import "sync"

// Latest answers questions away from the goroutine that draws, one at a time.
// While one is being answered only the newest of those that follow is kept: the
// latest edit wins, and each answer that is worked out is shown.
type Latest[Q, A any] struct {
	solve func(Q) A
	post  func(func())
	done  func(Q, A)

	mu      sync.Mutex
	waiting *Q
	busy    bool
	closed  bool
	idle    sync.WaitGroup
}

// NewLatest returns a Latest that works with solve and hands each answer to
// done, called by post on the goroutine that draws.
func NewLatest[Q, A any](solve func(Q) A, post func(func()), done func(Q, A)) *Latest[Q, A] {
	return &Latest[Q, A]{solve: solve, post: post, done: done}
}

// Ask puts a question, in place of one that still waits.
func (l *Latest[Q, A]) Ask(q Q) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.closed {
		return
	}
	l.waiting = &q
	if !l.busy {
		l.busy = true
		l.idle.Add(1)
		go l.work()
	}
}

// Busy reports whether an answer is still to come.
func (l *Latest[Q, A]) Busy() bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.busy
}

// Close drops what waits and waits for what is being worked out, whose answer
// is not handed on any more.
func (l *Latest[Q, A]) Close() {
	l.mu.Lock()
	l.closed, l.waiting = true, nil
	l.mu.Unlock()
	l.idle.Wait()
}

func (l *Latest[Q, A]) work() {
	defer l.idle.Done()
	for {
		q, ok := l.next()
		if !ok {
			return
		}
		a := l.solve(q)
		l.mu.Lock()
		closed := l.closed
		l.mu.Unlock()
		if !closed {
			l.post(func() { l.done(q, a) })
		}
	}
}

func (l *Latest[Q, A]) next() (Q, bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.waiting == nil {
		l.busy = false
		var none Q
		return none, false
	}
	q := *l.waiting
	l.waiting = nil
	return q, true
}
