package scene

import (
	"gonum.org/v1/gonum/spatial/r3"
)

const mattress = 480.0 // height, mm

// lying returns a stance on the back, the head at −X, rolled over to the left by
// an angle.
func lying(roll float64) *stance {
	s := &stance{barefoot: true}
	back := Pose{X: r3.Vec{Y: 1}, Y: r3.Vec{X: -1}, Z: r3.Vec{Z: 1}}
	s.pelvis = back.Mul(Turn(roll*degree, Still.Y))
	side := s.pelvis.Z.Y * s.pelvis.Z.Y
	s.pelvis.At = r3.Vec{X: 60, Y: mattress + 108 + 76*side}
	s.chest, s.head = s.pelvis, s.pelvis
	return s
}

// turningInBed is a person on the back who turns over to the left, the right leg
// left behind.
func turningInBed(m moment) *stance {
	t := ease(m.t, 1)
	s := lying(78 * t)
	s.shift(r3.Vec{Z: 90 * t})
	s.swing(0, m.now, 4)
	s.swing(1, angled(22*t, 0, 0), 34*t)
	for i := range 2 {
		s.point(i, 30)
	}
	s.bend(4, 0, 6*t, 6)
	p := s.pelvis
	s.hang(0, 8, 10, 8)
	s.hang(1, 8, 10, 8)
	s.toward(0, ease(m.t, 0.8), p.Moved(r3.Vec{X: 360, Y: 260, Z: -90}), r3.Add(p.Z, r3.Scale(-0.6, p.Y)))
	s.toward(1, ease(m.t, 0.8), p.Moved(r3.Vec{X: 330, Y: 420, Z: -150}), r3.Add(r3.Scale(-1, p.Y), p.X))
	for _, part := range []*Pose{&s.upper[1], &s.fore[1], &s.hand[1]} {
		part.At.Y += 30 * t // the shoulder one lies on gives way
	}
	return s
}

// lyingOnBack is a person on the back whose feet fall outwards.
func lyingOnBack(m moment) *stance {
	s := lying(0)
	s.swing(0, m.now, 3)
	s.swing(1, like(m.now, 0, 0.8*m.now.InternalRotation.Degrees()), 3)
	for i := range 2 {
		s.point(i, 24)
	}
	s.bend(6, 0, 0, 6)
	for i := range 2 {
		s.hang(i, 4, 14, 8)
	}
	return s
}

func bedUnder(r *room, end *stance) {
	r.floor(60, 1250)
	r.shade(60, -3, 0, 1050, 560)
	r.bed(mattress, -880, 1060, 480)
	head := end.head.At
	r.pillow(r3.Vec{X: head.X - 10, Y: mattress + 28}, padding)
}
