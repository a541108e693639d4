package present

import (
	"strings"
	"testing"

	"rimclear/kinematics"
)

// narrowed returns a case of designs of which some have an offset that is too
// small for a resurfacing.
func narrowed(t *testing.T, count int, narrow ...int) *kinematics.Case {
	t.Helper()
	c := kinematics.Default()
	c.Hip.Socket.Rule = kinematics.SocketTied
	c.Hip.Socket.Outer = c.Designs[0].Rim.HeadDiameter + 8
	c.Count = count
	for i := range count {
		c.Designs[i] = c.Designs[0]
	}
	for _, i := range narrow {
		c.Designs[i].Bearing = kinematics.Resurfacing
		c.Designs[i].Neck.Diameter = c.Designs[i].Rim.HeadDiameter - 2
	}
	return &c
}

func TestAWarningNamesTheDesignsOfWhichItHolds(t *testing.T) {
	for _, x := range []struct {
		count  int
		narrow []int
		start  string
	}{
		{1, []int{0}, "The neck"},
		{3, []int{1}, "B: The neck"},
		{3, []int{0, 2}, "A, C: The neck"},
		{2, []int{0, 1}, "The neck"},
	} {
		list := English().Warned(narrowed(t, x.count, x.narrow...))
		if len(list) != 1 || !strings.HasPrefix(list[0], x.start) {
			t.Errorf("%d designs, narrow %v: %q", x.count, x.narrow, list)
		}
	}
	if list := English().Warned(narrowed(t, 2)); len(list) > 0 {
		t.Errorf("nothing is to be warned of, but %q is said", list)
	}
}
