package chart

import (
	"testing"

	"pgregory.net/rapid"

	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

func TestNeedleIsFoundWhereItIsDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyJoint().Draw(t, "subject")
		c := newRulerChart(s, white)
		for _, r := range c.rulers {
			v := s.Posture.Angle(r.angle)
			at := figure.Pt(r.x(v.Degrees()), r.box.Min.Y+1)
			angle, got, ok := RulerAt(s, white, at)
			if !ok || angle != r.angle || (got-v).Abs() > 1e-9 {
				t.Errorf("needle of %v at %v: found %v at %v (%v)", r.angle, v.Degrees(), angle, got.Degrees(), ok)
			}
		}
	})
}

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
