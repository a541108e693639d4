package scene

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
)

func openFloor(r *room, end *stance) {
	r.floor(-20, 900)
	r.shade(end.pelvis.At.X*0.6, -3, 0, 460, 380)
}

// boxAhead is a box before the toes.
func boxAhead(r *room, _ *stance) {
	r.floor(60, 900)
	r.shade(90, -3, 0, 480, 380)
	r.block(r3.Vec{X: 225, Y: 0, Z: -170}, r3.Vec{X: 505, Y: 230, Z: 170}, carton)
}

// squatting is a person who squats, arms forward, and turns about to the left in
// degrees.
func squatting(m moment, raised, shin, about float64) *stance {
	s := planted(m, legs{raise: down(raised, 1), shin: bow(6, shin), other: same})
	lean := flexed(m.now) - raised*ease(m.t, 1)
	turn := about * ease(m.t-0.3, 0.7)
	s.bend(10*ease(m.t, 1)+8*pulse(m.t), 0, turn, -0.4*lean)
	for i := range 2 {
		s.hang(i, 14+62*ease(m.t, 1), 8, 12)
	}
	return s
}

// pickingUp is a person who bends to the floor, hands to a height.
func pickingUp(m moment, raised, shin, high float64) *stance {
	s := planted(m, legs{raise: down(raised, 1), shin: bow(0, shin), other: same})
	s.bend(34*ease(m.t, 1), 0, 0, -20*ease(m.t, 1))
	for i := range 2 {
		s.hang(i, 14, 8, 12)
		s.toward(i, ease(m.t-0.2, 0.8), r3.Vec{X: 200, Y: high, Z: sideOf(i) * 90}, r3.Vec{X: -1, Z: sideOf(i)})
	}
	return s
}

// lifting is a person who bends to a box, the back bent by an angle.
func lifting(m moment, raised, shin, bent float64) *stance {
	s := planted(m, legs{raise: down(raised, 1), shin: bow(0, shin), other: func(p hip.Posture) hip.Posture { return like(p, -6, 0) }})
	s.bend(bent*ease(m.t, 1), 0, 0, -14*ease(m.t, 1))
	for i := range 2 {
		s.hang(i, 14, 8, 12)
		s.toward(i, ease(m.t-0.2, 0.8), r3.Vec{X: 300, Y: 210, Z: sideOf(i) * 195}, r3.Vec{X: -1, Z: sideOf(i)})
	}
	return s
}

// kneeling is a person on both knees who sits back, thighs raised to an angle
// and the back bent by another; to the floor, with the hands laid down.
func kneeling(m moment, raised, bent float64, toFloor bool) *stance {
	t := ease(m.t, 1)
	raise := raised * t
	s := upright(flexed(m.now)-raise, 0, 0)
	for i, p := range [2]hip.Posture{m.now, like(m.now, 0, 0)} {
		s.swing(i, p, raise+90)
		s.point(i, 84)
	}
	s.ground(0)
	s.shift(r3.Vec{X: 60 - s.shank[0].At.X})
	neck := -0.5 * (flexed(m.now) - raise)
	if toFloor {
		neck = 8 * t
	}
	s.bend(bent*t, 0, 0, neck)
	for i := range 2 {
		s.give(i, 14, t)
		if toFloor {
			s.toward(i, ease(m.t-0.3, 0.7), r3.Vec{X: 430, Y: 44, Z: sideOf(i) * 210}, r3.Vec{Y: 0.5, Z: sideOf(i)})
			if f := ease(m.t-0.6, 0.4); f > 0 {
				s.hand[i] = Along(r3.Add(s.hand[i].Y, r3.Scale(3*f, r3.Vec{X: -1})), r3.Vec{Z: -sideOf(i)}).to(s.hand[i].At)
			}
		}
	}
	return s
}

// crossLegged is a person who sits down on the floor with the legs crossed.
func crossLegged(m moment) *stance {
	t := ease(m.t, 1)
	raise := 112 * t
	s := upright(flexed(m.now)-raise, 0, 0)
	s.swing(0, m.now, raise*1.06)
	s.swing(1, m.now, raise*1.2)
	for i := range 2 {
		s.point(i, 22*t)
	}
	s.ground(0)
	if m.t < 0.05 {
		s.flat(0)
		s.flat(1)
	}
	s.bend(34*t+10*pulse(m.t), 0, 0, -12)
	for i := range 2 {
		s.give(i, 14+20*pulse(m.t), t)
	}
	return s
}
