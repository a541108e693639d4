package session

import (
	"slices"
	"time"

	"rimclear/app/casefile"
)

// Step names a change, for the words of undo: the key of the parameter that
// was changed, or of the act ("add_design").
type Step struct {
	Key    string
	Design int // the design changed, -1 for the case itself
}

// state is what undo brings back. The case travels with the fields of its file
// that this version does not know.
type state struct {
	file   casefile.File
	active int
}

// entry is a state with the step that led to it.
type entry struct {
	state
	step Step
	at   time.Time
}

// mergeWithin is how long after a change another one of the same step still
// belongs to it: a drag, or a key held down, is undone as one.
const mergeWithin = time.Second

// deepest bounds the changes kept. An entry takes about 2 kB.
const deepest = 1000

// history is the stack of states. The last of past is the present one.
type history struct {
	past, future []entry
}

func (h *history) now() *entry { return &h.past[len(h.past)-1] }

// begin forgets all and starts from s.
func (h *history) begin(s state) {
	h.past, h.future = append(h.past[:0], entry{state: s}), nil
}

// push makes s the present state. It takes the place of the last one if that
// came of the same step within the time of a merge.
func (h *history) push(s state, step Step, at time.Time) {
	h.future = nil
	if last := h.now(); len(h.past) > 1 && last.step == step && at.Sub(last.at) < mergeWithin {
		last.state, last.at = s, at
		return
	}
	if len(h.past) > deepest {
		h.past = slices.Delete(h.past, 0, 1)
	}
	h.past = append(h.past, entry{s, step, at})
}

// undone and redone name what undo and redo would do.
func (h *history) undone() (Step, bool) { return h.now().step, len(h.past) > 1 }

func (h *history) redone() (Step, bool) {
	if n := len(h.future); n > 0 {
		return h.future[n-1].step, true
	}
	return Step{}, false
}

// undo goes one state back.
func (h *history) undo() bool {
	if len(h.past) < 2 {
		return false
	}
	h.future = append(h.future, *h.now())
	h.past = h.past[:len(h.past)-1]
	h.now().at = time.Time{}
	return true
}

// redo takes an undo back.
func (h *history) redo() bool {
	n := len(h.future)
	if n == 0 {
		return false
	}
	h.past = append(h.past, h.future[n-1])
	h.future = h.future[:n-1]
	h.now().at = time.Time{}
	return true
}
