package motion

import (
	"sort"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Recording is a recorded motion of one hip: joint angles over time, in the
// program's signs. It is joined linearly between its samples.
type Recording struct {
	Times      []float64 // s, rising
	Postures   []hip.Posture
	Zero       Zero
	Mechanical bool // the angles are those of the mechanical axis
}

// Path returns the recording as a motion with a waypoint per sample.
func (r Recording) Path(s Setting) Path {
	planes := make([]hip.Plane, len(r.Postures))
	for i := range planes {
		planes[i] = r.Zero.plane(hip.APP)
	}
	return s.path(planes, r.Postures, r.Mechanical)
}

// Requirement returns the recording as something a hip is asked to do.
func (r Recording) Requirement(key, name string, risk Risk, s Setting) Requirement {
	return Requirement{
		Kind: OfRecording, Key: key, Name: name, Risk: risk, Basis: Own,
		Converted: r.Zero.Converted(), Paths: []Path{r.Path(s)}, Continuous: true,
	}
}

// Duration returns the time from the first to the last sample, in s.
func (r Recording) Duration() float64 { return r.Times[len(r.Times)-1] - r.Times[0] }

// Place returns the place of the path at a time since the first sample; times
// before and after are held at the ends.
func (r Recording) Place(t float64) Place {
	t += r.Times[0]
	i := sort.SearchFloat64s(r.Times, t)
	switch {
	case i == 0:
		return Place{}
	case i == len(r.Times):
		return Place{Leg: len(r.Times) - 2, Fraction: 1}
	}
	return Place{Leg: i - 1, Fraction: (t - r.Times[i-1]) / (r.Times[i] - r.Times[i-1])}
}

// Time returns the time since the first sample at a place of the path, in s.
func (r Recording) Time(at Place) float64 {
	if at.Leg+1 >= len(r.Times) {
		return r.Duration()
	}
	return r.Times[at.Leg] + at.Fraction*(r.Times[at.Leg+1]-r.Times[at.Leg]) - r.Times[0]
}

// At returns the posture at a time since the first sample.
func (r Recording) At(t float64) hip.Posture { return Path{Waypoints: r.Postures}.At(r.Place(t)) }

// Peak returns the sample at which a joint angle is greatest.
func (r Recording) Peak(a hip.JointAngle) (sample int, value unit.Angle) {
	for i, p := range r.Postures {
		if v := p.Angle(a); i == 0 || v > value {
			sample, value = i, v
		}
	}
	return sample, value
}
