package kinematics

import (
	"math"

	"rimclear/kinematics/motion"
)

// solidPath is a motion by the way travelled: the sum of the changes of the
// three angles, in degrees.
type solidPath struct {
	hip  *solidHip
	legs [][6]float64 // angles at both ends of a leg
	from []float64    // way at each leg's start, and at the end
	lean float64
	step float64 // the shortest
}

func newSolidPath(s *solidHip, h Hip, m motion.Path) *solidPath {
	p := &solidPath{hip: s, from: []float64{0}, lean: solidTilt(h, m.Zero), step: leastStep}
	for i := range m.Legs() {
		a, b := m.Waypoints[i], m.Waypoints[i+1]
		l := [6]float64{inDeg(a.Flexion), inDeg(a.Adduction), inDeg(a.InternalRotation), inDeg(b.Flexion), inDeg(b.Adduction), inDeg(b.InternalRotation)}
		p.legs = append(p.legs, l)
		p.from = append(p.from, p.from[i]+math.Abs(l[3]-l[0])+math.Abs(l[4]-l[1])+math.Abs(l[5]-l[2]))
	}
	return p
}

func (p *solidPath) end() float64 { return p.from[len(p.legs)] }

// way returns the way travelled to a place.
func (p *solidPath) way(at motion.Place) float64 {
	return p.from[at.Leg] + at.Fraction*(p.from[at.Leg+1]-p.from[at.Leg])
}

func (p *solidPath) pose(way float64) *solidPose {
	i := 0
	for i < len(p.legs)-1 && way > p.from[i+1] {
		i++
	}
	f, l := (way-p.from[i])/(p.from[i+1]-p.from[i]), p.legs[i]
	at := func(k int) float64 { return l[k] + f*(l[k+3]-l[k]) }
	q := p.hip.pose(at(0), at(1), at(2), p.lean)
	return &q
}

// leastStep is the shortest step along a path, in degrees, if no other is
// asked for: only contacts and gaps that are shorter can be missed.
const leastStep = 2e-3

// contacts returns the stretches of the way that are in contact, in order. A
// place that lies d mm outside the neck cannot touch it, and one d mm inside
// cannot leave it, before it has gone d mm: by that much the path is stepped,
// and the change of state found by bisection.
func (p *solidPath) contacts() [][2]float64 {
	speed := p.hip.cup.reach / inDegrees
	var list [][2]float64
	inside, at, before := false, 0.0, 0.0
	for {
		pose := p.pose(at)
		now, clear := p.hip.state(pose)
		if now != inside {
			x := at
			if at > 0 {
				x = p.change(before, at, inside)
			}
			if now {
				list = append(list, [2]float64{x, p.end()})
			} else {
				list[len(list)-1][1] = x
			}
			inside = now
		}
		if at == p.end() {
			return list
		}
		before, at = at, min(p.end(), at+max(p.step, clear/speed))
	}
}

func (p *solidPath) change(a, b float64, inside bool) float64 {
	for b-a > 1e-8 {
		if m := (a + b) / 2; p.hip.touches(p.pose(m)) == inside {
			a = m
		} else {
			b = m
		}
	}
	return (a + b) / 2
}
