package scene

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// angled returns a posture in degrees.
func angled(flexion, adduction, internal float64) hip.Posture {
	return hip.Posture{
		Flexion: unit.Angle(flexion * degree), Adduction: unit.Angle(adduction * degree), InternalRotation: unit.Angle(internal * degree),
	}
}

// walking is a person in mid stride, the right leg where the hip has it and the
// left one opposite.
func walking(m moment) *stance {
	f := flexed(m.now)
	s := upright(4, 0, 0)
	ahead, behind := 0, 1
	if f < 4 {
		ahead, behind = 1, 0
	}
	knee := func(i int, p hip.Posture) {
		raise := flexed(p) - 4
		k := 6.0
		if i == behind {
			k += 0.9 * max(-raise, 0)
		}
		s.swing(i, p, k)
	}
	knee(0, m.now)
	knee(1, angled(8-f*0.9, 0, 0))
	for i, heel := range [2]float64{heelOf(0, ahead, f), heelOf(1, ahead, f)} {
		s.sole(i, heel)
	}
	s.ground(0)
	s.bend(2, 0, 0, 0)
	s.hang(0, 10-0.9*f, 7, 14)
	s.hang(1, 10+0.9*f, 7, 14)
	return s
}

// heelOf returns how far a heel is raised in a stride: the hind one's up, the
// fore one's down.
func heelOf(i, ahead int, flexion float64) float64 {
	if i == ahead {
		return -0.6 * max(flexion-4, 4-flexion, 0)
	}
	return 1.3 * max(flexion-4, 4-flexion, 0)
}

// climbing is a person whose right foot steps up a stair.
func climbing(m moment) *stance {
	t := ease(m.t, 1)
	lean := 10 * t
	s := upright(lean, 0, 0)
	s.swing(1, angled(lean-6*t, 0, 0), 4)
	s.pin(1, 0, 0)
	s.sole(1, 0)
	s.swing(0, m.now, (flexed(m.now)-lean)*1.2+30*pulse(m.t))
	s.sole(0, 18*pulse(m.t))
	s.bend(6*t, 0, 0, -6*t)
	s.hang(0, 14-20*t, 8, 14)
	s.hang(1, 14+14*t, 8, 24)
	return s
}

func stairsUp(r *room, end *stance) {
	r.floor(60, 950)
	r.shade(-20, -3, 0, 330, 330)
	high := end.foot[0].At.Y - ankleHigh
	x := end.foot[0].At.X - 110
	r.steps(x, high, high, 290, 3)
}

// descending is a person whose right leg bends on a stair while the left foot
// comes down to the next.
func descending(m moment) *stance {
	t := ease(m.t, 1)
	lean := 6 * t
	s := upright(lean, 0, 0)
	raise := flexed(m.now) - lean
	s.swing(0, m.now, raise+40*t)
	s.pin(0, 0, stairHigh)
	s.flat(0)
	s.swing(1, angled(lean+17*t+20*pulse(m.t), 0, 0), 4+46*pulse(m.t))
	s.sole(1, 6*t)
	s.bend(4*t, 0, 0, 10*t)
	s.hang(0, 14+22*t, 9, 18)
	s.hang(1, 14-16*t, 9, 18)
	return s
}

// stairHigh is the height of the stair one comes down from, mm.
const stairHigh = 250.0

func stairsDown(r *room, end *stance) {
	r.floor(60, 950)
	r.shade(300, -3, 0, 420, 330)
	low := end.foot[1].Moved(r3.Vec{X: 130, Y: -ankleHigh}).Y
	const half = 430.0
	r.block(r3.Vec{X: -420, Z: -half}, r3.Vec{X: 205, Y: stairHigh, Z: half}, stone)
	r.block(r3.Vec{X: 205, Z: -half}, r3.Vec{X: 520, Y: low, Z: half}, stone)
}

// turningRound is a person whose feet stay while the body turns away from the
// right leg, or towards it.
func turningRound(m moment) *stance {
	f := flexed(m.now)
	s := upright(0, 0, 0)
	raise := 0.9 * f
	s.pelvisOn(Turn(raise*degree, Still.Z), m.now)
	s.swing(0, m.now, 5)
	s.pin(0, 0, 0)
	s.sole(0, max(0, -raise))
	s.ground(0)
	front := flexed(m.end) * -9
	s.stretch(1, r3.Vec{X: front, Y: ankleHigh, Z: s.foot[0].At.Z - 2*hipAt - 20}, r3.Vec{X: 1, Z: -0.2})
	s.flat(1)
	about := -m.now.InternalRotation.Degrees()
	s.bend(4, 0, 0.5*about, 0)
	for i := range 2 {
		s.hang(i, 14+sideOf(i)*0.5*about, 12, 18)
	}
	return s
}
