package chart

import (
	"testing"

	"pgregory.net/rapid"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

func TestRulerEndsWhereTheMotionStops(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyJoint().Draw(t, "subject")
		c := newRulerChart(s, white)
		for _, r := range c.rulers {
			lower, upper := senses(r.angle)
			sp := r.spans()[0]
			for m, a := range map[kinematics.Movement]kinematics.Answer{lower: sp.lower, upper: sp.upper} {
				if !a.Reached {
					continue
				}
				start := hip.Posture{Flexion: r.flexion}
				l := s.Designs[0].Joint.Limit(m.Path(start, a.Question.End, s.Hip.PosturePlane))
				_, sign := m.Joint()
				if d := (sign*l.Angle - a.Reading).Abs(); d > 1e-6 {
					t.Errorf("movement %v at %v: ruler ends at %v, the motion stops at %v", m, r.flexion.Degrees(), a.Reading.Degrees(), (sign * l.Angle).Degrees())
				}
			}
		}
	})
}
