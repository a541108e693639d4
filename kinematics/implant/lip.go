package implant

import (
	"math"

	"rimclear/kinematics/unit"
)

// Lip raises the rim over a part of its circumference: by Height (an angle
// seen from the bearing's centre) over a plateau of full width Plateau centred
// at azimuth Centre (0 superior, positive towards anterior), falling on both
// sides along a cosine ramp of width Ramp. A ramp of width 0 is a step. As a
// notch it lowers the rim in the same way.
type Lip struct {
	Height  unit.Angle
	Centre  unit.Angle
	Plateau unit.Angle
	Ramp    unit.Angle
}

// Present reports whether the lip changes the rim.
func (l Lip) Present() bool { return l.Height != 0 }

func (l Lip) rise(phi unit.Angle) unit.Angle {
	if !l.Present() {
		return 0
	}
	return l.Height * unit.Angle(plateau(phi, l.Centre, l.width(), l.Ramp))
}

// narrowest is the plateau of a lip that is stated without any: its crest is
// still there, and the neck must not pass it as if it were not. Azimuths nearer
// to each other than about 1e-8° are one to the contact search.
const narrowest = 1e-6 * unit.Degree

func (l Lip) width() unit.Angle { return max(l.Plateau, narrowest) }

// breaks returns the azimuths at which the lip's outline has a corner or step.
func (l Lip) breaks() []unit.Angle {
	if !l.Present() {
		return nil
	}
	a, b := l.width()/2, l.width()/2+l.Ramp
	return []unit.Angle{l.Centre - b, l.Centre - a, l.Centre + a, l.Centre + b}
}

// plateau is 1 on a plateau of full width about centre, 0 away from it, and
// falls between along a cosine over the ramp.
func plateau(at, centre, width, ramp unit.Angle) float64 {
	x := (at - centre).Wrapped().Abs() - width/2
	switch {
	case x <= 0:
		return 1
	case x >= ramp:
		return 0
	}
	return (1 + math.Cos(math.Pi*float64(x/ramp))) / 2
}
