package view

import "testing"

// The chip of the design looked at has wider letters than the others.
func TestEveryDesignsChipHasRoomForItsName(t *testing.T) {
	e := open(t, 1280, 776)
	e.Session.Duplicate()
	for i := range 2 {
		e.Session.Activate(i)
		for k, c := range e.centre.designs[:2] {
			if need, has := c.MinSize().Width, c.Size().Width; has < need {
				t.Errorf("design %d looked at: chip %d needs %.0f and has %.0f", i, k, need, has)
			}
		}
	}
}
