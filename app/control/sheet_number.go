package control

import "fyne.io/fyne/v2"

// Number returns the key of the number in the row the keyboard is at.
func (s *Sheet) Number() string {
	if s.cursor < 0 || s.cursor >= len(s.rows) {
		return ""
	}
	return s.rows[s.cursor].About
}

// ask asks about the number of a row, and reports whether it has one.
func (s *Sheet) ask(row int) bool {
	if row < 0 || row >= len(s.rows) || s.rows[row].About == "" || s.OnAsk == nil {
		return false
	}
	s.OnAsk(s.rows[row].About)
	return true
}

// TappedSecondary asks about the number under the pointer.
func (s *Sheet) TappedSecondary(e *fyne.PointEvent) {
	if i := s.rowAt(e.Position.Y); i >= 0 && !s.rows[i].Heading {
		s.cursor = i
		s.ask(i)
	}
}

// Cursor returns the row the keyboard is at.
func (s *Sheet) Cursor() int { return s.cursor }

// MoveTo takes the keyboard to a row.
func (s *Sheet) MoveTo(row int) {
	if row >= 0 && row < len(s.rows) {
		s.cursor = row
		s.step(0)
	}
}
