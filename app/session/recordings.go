package session

import (
	"slices"

	"rimclear/app/casefile"
)

// Record keeps a recording in the case and requires it, as one step. It returns
// the recording's key; the error says why it cannot be kept.
func (s *Session) Record(r casefile.Recording) (key string, err error) {
	library := BuiltIn()
	known := func(key string) bool { _, ok := library.Activity(key); return ok || s.now.Case.Goal.Motions.Has(key) }
	f, r, err := s.File().Recorded(r, known)
	if err != nil {
		return "", err
	}
	s.edit(Step{"motions", -1}, s.now.Active, func(now *casefile.File) {
		*now = f
		now.Case.Goal.Motions = now.Case.Goal.Motions.With(r.Key)
	})
	return r.Key, nil
}

// Discard takes a recording out of the case, as one step.
func (s *Session) Discard(key string) {
	i := s.File().Recording(key)
	if i < 0 {
		return
	}
	s.edit(Step{"discard_recording", -1}, s.now.Active, func(f *casefile.File) {
		f.Recordings = slices.Delete(slices.Clone(f.Recordings), i, i+1)
		f.Case.Goal.Motions = f.Case.Goal.Motions.Without(key)
	})
}
