package session

import (
	"math"
	"slices"
	"time"

	"rimclear/app/casefile"
	"rimclear/kinematics"
)

// Session is one window's work on one case.
type Session struct {
	now     *Snapshot
	history history
	saved   casefile.File // as in the file, or as begun

	apertures apertures
	answers   *Latest[question, []kinematics.Answer]
	known     question // the question now.Answers answers

	watchers []*watcher
	clock    func() time.Time
}

type watcher struct{ see func(*Snapshot) }

// New returns a session on a case without faults. post runs a function on the
// goroutine that draws; clock tells the time, by which quick changes are merged.
func New(c kinematics.Case, post func(func()), clock func() time.Time) *Session {
	s := &Session{clock: clock}
	s.answers = NewLatest(solve, post, s.answered)
	s.Begin(casefile.File{Case: c}, "")
	return s
}

// Close ends the work in the background.
func (s *Session) Close() { s.answers.Close() }

// Now returns what is on screen.
func (s *Session) Now() *Snapshot { return s.now }

// Watch calls see with each snapshot from now on, and returns what ends that.
func (s *Session) Watch(see func(*Snapshot)) (stop func()) {
	w := &watcher{see}
	s.watchers = append(s.watchers, w)
	return func() {
		s.watchers = slices.DeleteFunc(slices.Clone(s.watchers), func(o *watcher) bool { return o == w })
	}
}

// Begin starts on another case without faults, with path its file or "". There
// is nothing to undo before it.
func (s *Session) Begin(f casefile.File, path string) {
	s.history.begin(state{file: f})
	s.saved = f
	s.show(Step{}, path)
}

// File returns the present case as it is to be kept.
func (s *Session) File() casefile.File { return s.history.now().file }

// Saved notes that the present case is in the file at path.
func (s *Session) Saved(path string) {
	s.saved = s.File()
	s.show(s.now.Step, path)
}

// Set changes one parameter, of the design looked at where it belongs to a
// design. If the case would have faults it stays as it is and they are
// returned. A value that would not be read back, as of a reading that means
// nothing for the shape at hand, is not taken either.
func (s *Session) Set(p *kinematics.Parameter, value float64) []kinematics.Fault {
	step := Step{Key: p.Key, Design: -1}
	if p.Scope == kinematics.OfDesign {
		step.Design = s.now.Active
	}
	if f := p.Check(value); f != nil {
		f.Design = step.Design
		return []kinematics.Fault{*f}
	}
	c := p.Set(s.now.Case, s.now.Active, value)
	if math.Abs(p.Get(&c, s.now.Active)-value) > 1e-6 {
		return nil
	}
	return s.Edit(step, func(now *kinematics.Case) { *now = c })
}

// Edit changes the case as one step. If it would have faults it stays as it is
// and they are returned. A change that changes nothing is no step.
func (s *Session) Edit(step Step, change func(*kinematics.Case)) []kinematics.Fault {
	return s.edit(step, s.now.Active, func(f *casefile.File) { change(&f.Case) })
}

// Reword changes the case's label and what is kept beside its values, such as an
// answer of Weighing, as one step; other changes to the case are not taken. change must not write into maps or lists of the
// file, but put others in their place. A change that changes nothing is no step.
func (s *Session) Reword(step Step, change func(*casefile.File)) {
	s.edit(step, s.now.Active, func(f *casefile.File) {
		values := f.Case
		change(f)
		values.Label = f.Case.Label
		f.Case = values
	})
}

// Answer keeps what the user wrote to a question that geometry does not decide.
func (s *Session) Answer(question string, a casefile.Answer) {
	s.Reword(Step{Key: "weighing", Design: -1}, func(f *casefile.File) { f.Weighing = f.Weighing.With(question, a) })
}

func (s *Session) edit(step Step, active int, change func(*casefile.File)) []kinematics.Fault {
	f := s.File()
	change(&f)
	if f.Same(s.File()) && active == s.now.Active {
		return nil
	}
	if faults := kinematics.Validate(&f.Case); len(faults) > 0 {
		return faults
	}
	s.history.push(state{f, active}, step, s.clock())
	s.show(step, s.now.Path)
	return nil
}

// Activate looks at another design. This is no step: it changes nothing.
func (s *Session) Activate(i int) {
	if i < 0 || i >= s.now.Case.Count || i == s.now.Active {
		return
	}
	s.history.now().active = i
	s.show(s.now.Step, s.now.Path)
}

// Undoable and Redoable name the step that Undo and Redo would take.
func (s *Session) Undoable() (Step, bool) { return s.history.undone() }

// Redoable names the step that Redo would take.
func (s *Session) Redoable() (Step, bool) { return s.history.redone() }

// Undo takes the last step back, if there is one.
func (s *Session) Undo() {
	if step, ok := s.history.undone(); ok && s.history.undo() {
		s.show(step, s.now.Path)
	}
}

// Redo takes the last undo back, if there is one.
func (s *Session) Redo() {
	if step, ok := s.history.redone(); ok && s.history.redo() {
		s.show(step, s.now.Path)
	}
}

// Resume goes on with a case of another time, whose file at path holds saved.
func (s *Session) Resume(f, saved casefile.File, path string) {
	s.history.begin(state{file: f})
	if f.Same(saved) {
		saved = f // equal lists need not be looked through again
	}
	s.saved = saved
	s.show(Step{}, path)
}
