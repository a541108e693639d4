package scene

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// sitting is a person who sits down, the thighs raised to an angle and the back
// bent by another at the end.
func sitting(m moment, raised, bent float64, other func(p hip.Posture) hip.Posture) *stance {
	s := planted(m, legs{raise: down(raised, 1), shin: bow(14, 3), other: other})
	lean := flexed(m.now) - raised*ease(m.t, 1)
	s.bend(bent*ease(m.t, 1)+16*pulse(m.t), 0, 0, -0.5*lean-18*pulse(m.t)-0.3*bent*m.t)
	for i := range 2 {
		s.give(i, 14+22*pulse(m.t), ease(m.t, 1))
	}
	return s
}

// give lets a hand go from hanging to its thigh.
func (s *stance) give(i int, swing, share float64) {
	s.hang(i, swing, 8, 12)
	from := s.hand[i].At
	s.rest(i, 0.72)
	if share < 1 {
		s.grasp(i, r3.Add(r3.Scale(1-share, from), r3.Scale(share, s.hand[i].At)))
	}
}

// grasp brings a hand to a place, the elbow out and back.
func (s *stance) grasp(i int, at r3.Vec) {
	s.reach(i, at, r3.Add(r3.Scale(-1, s.chest.X), r3.Add(r3.Scale(sideOf(i)*0.9, s.chest.Z), r3.Scale(-0.4, s.chest.Y))))
}

// toward moves a hand a share of the way to a place.
func (s *stance) toward(i int, share float64, place, elbow r3.Vec) {
	if share > 0 {
		s.reach(i, r3.Add(r3.Scale(1-share, s.hand[i].At), r3.Scale(share, place)), elbow)
	}
}

// outward is the elbows' side in a stoop.
func (s *stance) outward(i int) r3.Vec {
	return r3.Add(r3.Scale(sideOf(i), s.chest.Z), r3.Vec{X: -0.3})
}

func chairUnder(back bool) func(r *room, end *stance) {
	return func(r *room, end *stance) {
		r.floor(-170, 880)
		r.shade(-200, -3, 0, 560, 420)
		r.chair(end.pelvis.At.X+30, end.seat(), back)
	}
}

// tyingShoe is a person who sits down and bends to the right shoe.
func tyingShoe(m moment) *stance {
	s := planted(m, legs{raise: down(92, 0.62), shin: bow(12, 0), other: steady})
	reach := ease(m.t-0.5, 0.5)
	s.bend(14*ease(m.t, 0.6)+14*pulse(m.t/0.7)+44*reach, 0, -8*reach, -10-6*reach)
	for i := range 2 {
		s.give(i, 14+14*pulse(m.t), ease(m.t, 0.62))
		s.toward(i, reach, s.foot[0].Moved(r3.Vec{X: 40, Y: 90, Z: sideOf(i) * 50}), s.outward(i))
	}
	return s
}

// onOneFoot is a person who sits down on the left foot's leg alone and holds the
// right one up: higher by lift degrees, with its knee bent.
func onOneFoot(m moment, lift, knee float64) (s *stance, up float64) {
	up = ease(m.t-0.4, 0.6)
	raise := 88 * ease(m.t, 0.6)
	lean := flexed(m.now) - raise - lift*up
	s = upright(lean, 0, 0)
	left := hip.Posture{Flexion: unit.Angle((lean + raise) * degree), Adduction: -4 * unit.Degree}
	s.swing(1, left, raise+6*pulse(m.t/0.6))
	s.pin(1, 0, 0)
	s.flat(1)
	s.swing(0, m.now, raise+6*pulse(m.t/0.6)+(knee-88)*up)
	if up < 0.05 {
		s.flat(0)
	} else {
		s.point(0, 12*up)
	}
	return s, up
}

// crossingLegs is a person who sits down and lays the right thigh over the left.
func crossingLegs(m moment) *stance {
	s, up := onOneFoot(m, 17, 76)
	s.bend(10+14*pulse(m.t/0.8)+14*up, 0, 0, -2)
	for i := range 2 {
		s.give(i, 14+14*pulse(m.t), ease(m.t, 0.6))
	}
	if up > 0 { // both hands on the upper thigh
		for i := range 2 {
			s.toward(i, up, s.thigh[0].Moved(r3.Vec{X: 88, Y: -0.55*thighLong - 30*sideOf(i), Z: -20}), s.outward(i))
		}
	}
	return s
}

// puttingOnSock is a person who sits with the right foot brought up, and reaches
// for it.
func puttingOnSock(m moment) *stance {
	s, up := onOneFoot(m, 30, 104)
	s.bend(12*ease(m.t, 0.5)+12*pulse(m.t)+46*up, 0, 0, -6)
	s.barefoot = true
	for i := range 2 {
		s.give(i, 14+14*pulse(m.t), ease(m.t, 0.55))
		s.toward(i, up, s.foot[0].Moved(r3.Vec{X: 70, Y: 60, Z: sideOf(i) * 50}), s.outward(i))
	}
	return s
}
