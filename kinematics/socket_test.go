package kinematics

import (
	"testing"

	"rimclear/kinematics/unit"
)

// A socket of 56 mm with a shell of 3 mm and a liner of at least 5 mm.
func TestASocketHoldsTheHeadsThatFitIt(t *testing.T) {
	s := Socket{Rule: SocketTied, Outer: 56, Shell: 3, LeastLiner: 5}
	for _, c := range []struct {
		kind BearingKind
		head float64
		fits bool
	}{
		{Resurfacing, 45.5, false}, {Resurfacing, 46, true}, {Resurfacing, 50, true}, {Resurfacing, 50.5, false},
		{FixedLiner, 28, true}, {FixedLiner, 40, true}, {FixedLiner, 40.5, false},
		{DualMobility, 50, true}, {DualMobility, 50.5, false},
	} {
		d := Default().Designs[0]
		d.Bearing, d.Rim.HeadDiameter = c.kind, c.head
		if c.kind == Resurfacing {
			d.Rim.Wall = (s.Outer - c.head) / 2
		}
		list := s.faults(d)
		if got := len(list) == 0; got != c.fits {
			t.Errorf("bearing %v, head %g mm: fits %v, want %v", c.kind, c.head, got, c.fits)
		}
		for _, f := range list {
			if f.Key != "head_diameter_mm" || f.Reason != NotThisSocket || f.Value != c.head {
				t.Errorf("bearing %v, head %g mm: complains of %+v", c.kind, c.head, f)
			}
		}
	}
}

func TestAResurfacingCupFillsItsSocket(t *testing.T) {
	s := Socket{Rule: SocketTied, Outer: 56, Shell: 3, LeastLiner: 5}
	d := Default().Designs[0]
	d.Bearing, d.Rim.HeadDiameter, d.Rim.Wall = Resurfacing, 50, 2.5
	if list := s.faults(d); len(list) != 1 || list[0].Key != "wall_mm" || list[0].Min != 3 {
		t.Errorf("a wall of 2.5 mm about a head of 50 mm in a socket of 56 mm: %+v, want a wall of 3 mm", list)
	}
}

func TestAMobileLinerIsThickEnough(t *testing.T) {
	s := Socket{Rule: SocketTied, Outer: 56, Shell: 3, LeastLiner: 5}
	d := Default().Designs[0]
	d.Bearing, d.Rim.HeadDiameter = DualMobility, 46
	for head, fits := range map[float64]bool{28: true, 36: true, 36.5: false} {
		d.Rim.Mobile.Head, d.Rim.Mobile.Arc = head, 200*unit.Degree
		if list := s.faults(d); (len(list) == 0) != fits {
			t.Errorf("a head of %g mm in a mobile liner of 46 mm: %+v", head, list)
		}
	}
}

func TestAFreeSocketHoldsAnything(t *testing.T) {
	d := Default().Designs[0]
	d.Rim.HeadDiameter = 70
	if list := (Socket{Rule: SocketUntied, Outer: 40}).faults(d); list != nil {
		t.Errorf("a free socket complains: %+v", list)
	}
}
