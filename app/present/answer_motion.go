package present

import (
	"strings"

	"rimclear/kinematics/motion"
)

// RequirementKey is the key of a requirement by which tables name it, unique
// in a list: that of an activity or recording, or of a set and its movement.
func RequirementKey(r motion.Requirement) string {
	if r.Kind == motion.OfCriterion {
		return r.Set + "_" + r.Key
	}
	return r.Key
}

// RequirementNote says what the angles of a requirement rest on, and where
// they come from.
func (w *Words) RequirementNote(r motion.Requirement) string {
	basis := w.Basis(r.Basis)
	if !r.Converted {
		basis = w.Phrase("list", "first", basis, "rest", w.Phrase("not_converted"))
	}
	return w.rests(r.Source, basis)
}

// rests joins a source and what its values rest on, which it may say itself.
func (w *Words) rests(source, basis string) string {
	switch {
	case source == "":
		return basis
	case strings.Contains(source, basis):
		return source
	}
	return w.Phrase("calc_basis", "source", source, "basis", basis)
}
