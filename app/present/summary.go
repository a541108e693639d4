package present

import (
	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
)

// Line is a name and what it is.
type Line struct{ Key, Name, Value string }

// Summary returns a design's own figures: the oscillation angle and the ratio
// of head to neck.
func (w *Words) Summary(d kinematics.Design, a *aperture.Aperture) []Line {
	oscillation := w.Phrase("not_round")
	if theta, round := a.Theta(); round {
		oscillation = w.Degrees(2 * theta)
	}
	return []Line{
		{"oscillation_deg", w.Phrase("oscillation"), oscillation},
		{"head_neck_ratio", w.Phrase("ratio"), w.Digits(d.HeadNeckRatio(), 2)},
	}
}

// ColumnTitles returns the titles of the table of limits, in the order of a
// Row's fields from Question to Note.
func (w *Words) ColumnTitles() []string {
	return []string{
		w.Phrase("column_question"), w.Phrase("column_reading"), w.Phrase("column_status"),
		w.Phrase("column_clock"), w.Phrase("column_escape"), w.Phrase("column_note"),
	}
}

// Cells returns the row under ColumnTitles.
func (r Row) Cells() []string {
	return []string{r.Question, r.Reading, r.Status, r.Clock, r.Escape, r.Note}
}
