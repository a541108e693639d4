package kinematics

import (
	"testing"

	"rimclear/kinematics/implant"
)

func TestAnOverhangingNeckIsWarnedOf(t *testing.T) {
	for _, c := range []struct {
		end   float64 // mm, where the taper ends
		warns bool
	}{{16, true}, {40, false}} {
		d := Default()
		d.Designs[0].Neck = implant.Neck{
			Oval:  implant.Oval{Width: 24, Depth: 20},
			Taper: implant.Taper{StartDiameter: 24, Start: 12, EndDiameter: 12, End: c.end},
		}
		warned := false
		for _, w := range Warnings(&d) {
			warned = warned || w.Reason == NeckOverhangs && w.Value == 12
		}
		if warned != c.warns {
			t.Errorf("a neck that narrows from 12 to %g mm: warned %v, want %v", c.end, warned, c.warns)
		}
	}
}
