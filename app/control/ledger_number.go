package control

import "fyne.io/fyne/v2"

// Tapped asks about the number under the pointer.
func (l *Ledger) Tapped(e *fyne.PointEvent) { l.TappedSecondary(e) }

// TappedSecondary asks about the number under the pointer.
func (l *Ledger) TappedSecondary(e *fyne.PointEvent) {
	for i, foot := range l.feet {
		if e.Position.Y < foot {
			if key := l.lines[i].About; key != "" && l.OnAsk != nil {
				l.OnAsk(key)
			}
			return
		}
	}
}
