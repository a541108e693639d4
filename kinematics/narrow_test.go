package kinematics

import (
	"testing"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// A lip of which only the height is stated has a crest: a motion must not pass
// it as if it were absent, and no wider lip of that height lets it go further.
func TestALipWithoutWidthStopsTheNeckAsANarrowOneDoes(t *testing.T) {
	limit := func(l implant.Lip) float64 {
		c := Default()
		c.Designs[0].Rim.Lips[0] = l
		j := NewJoint(c.Hip, c.Designs[0])
		return j.Limit(FlexionMovement.Path(hip.Neutral, 180*unit.Degree, c.Hip.PosturePlane)).Angle.Degrees()
	}
	lip := implant.Lip{Height: 10 * unit.Degree, Centre: 30 * unit.Degree}
	bare, crest := limit(implant.Lip{}), limit(lip)
	last := crest + 1e-6
	for _, width := range []unit.Angle{0, 1e-12, 1e-9, 1e-6, 1e-3, 0.1, 1} {
		wide, sloped := lip, lip
		wide.Plateau, sloped.Ramp = width*unit.Degree, width*unit.Degree
		flat, slope := limit(wide), limit(sloped)
		if flat > last || slope > crest+1e-6 || bare-flat < 10 || bare-slope < 10 {
			t.Errorf("width %g°: flexion to %.6f° with a step, %.6f° with a ramp; %.6f° without a lip", float64(width), flat, slope, bare)
		}
		last = flat + 1e-6
	}
}
