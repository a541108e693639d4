package implant

import (
	"math"

	"rimclear/kinematics/unit"
)

// Lip raises the rim over a part of its circumference: by Height (an angle
// seen from the bearing's centre) over a plateau of full width Plateau centred
// at azimuth Centre (0 superior, positive towards anterior), falling on both
// sides along a cosine ramp of width Ramp. A ramp of width 0 is a step. A
// negative height is a notch.
type Lip struct {
	Height  unit.Angle
	Centre  unit.Angle
	Plateau unit.Angle
	Ramp    unit.Angle
}

// Present reports whether the lip raises anything.
func (l Lip) Present() bool { return l.Height != 0 }

// rise returns the share of the height that stands at azimuth phi.
func (l Lip) rise(phi unit.Angle) float64 {
	x := (phi - l.Centre).Wrapped().Abs() - l.Plateau/2
	switch {
	case x <= 0:
		return 1
	case x >= l.Ramp:
		return 0
	}
	return (1 + math.Cos(math.Pi*float64(x/l.Ramp))) / 2
}

// breaks returns the azimuths at which the lip's outline has a corner or step.
func (l Lip) breaks() [4]unit.Angle {
	a, b := l.Plateau/2, l.Plateau/2+l.Ramp
	return [4]unit.Angle{l.Centre - b, l.Centre - a, l.Centre + a, l.Centre + b}
}
