package present

import (
	"math"

	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/unit"
)

// placedBy are the variables that placement errs in; tilt is the patient's.
var placedBy = [...]struct {
	variable kinematics.Variable
	of       func(*kinematics.Design) *unit.Angle
}{
	{kinematics.CupInclination, func(d *kinematics.Design) *unit.Angle { return &d.Cup.Inclination }},
	{kinematics.CupAnteversion, func(d *kinematics.Design) *unit.Angle { return &d.Cup.Anteversion }},
	{kinematics.StemAnteversion, func(d *kinematics.Design) *unit.Angle { return &d.Stem.Anteversion }},
}

// DoubtOf returns by how much one standard deviation of placement alone moves
// each of ComparedQuestions: the root of the sum of the squares of what each variable does, one
// deviation to either side.
func DoubtOf(h kinematics.Hip, d kinematics.Design, ap *aperture.Aperture, sd [kinematics.VariableCount]unit.Angle) []unit.Angle {
	sums := make([]float64, len(ComparedQuestions))
	for _, v := range placedBy {
		step := sd[v.variable]
		if step == 0 {
			continue
		}
		low, high := d, d
		*v.of(&low) -= step
		*v.of(&high) += step
		a, b := kinematics.Assemble(h, low, ap), kinematics.Assemble(h, high, ap)
		for k, q := range ComparedQuestions {
			half := float64(b.Answer(h, q).Reading-a.Answer(h, q).Reading) / 2
			sums[k] += half * half
		}
	}
	doubt := make([]unit.Angle, len(sums))
	for k, s := range sums {
		doubt[k] = unit.Angle(math.Sqrt(s))
	}
	return doubt
}
