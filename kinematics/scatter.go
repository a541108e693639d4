package kinematics

import (
	"fmt"
	"math"

	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Variable is what varies from one placement to the next.
type Variable int

const (
	CupInclination Variable = iota
	CupAnteversion
	StemAnteversion
	PelvicTilt
	VariableCount
)

// VariableKeys name the variables in files and find their words.
var VariableKeys = [VariableCount]string{"cup_inclination", "cup_anteversion", "stem_anteversion", "pelvic_tilt"}

// Scatter is how placements vary about the surgeon's own target: normally, by
// standard deviations, with a correlation for any pair. The cup's angles are
// those of its definition and plane. One deviation of tilt moves the pelvis in
// every posture alike, so it acts where a motion, a load or the cup's angles
// belong to a posture and the other do not.
type Scatter struct {
	SD [VariableCount]unit.Angle
	// Correlation of a pair is read where its first index is the smaller.
	Correlation [VariableCount][VariableCount]float64
}

// ScatterPreset is a published scatter of cups or stems; its zeros are what the
// paper says nothing of.
type ScatterPreset struct {
	Key    string
	SD     [VariableCount]unit.Angle
	Basis  motion.Basis
	Source string
}

// ScatterPresets are published standard deviations about the mean of a series.
// Those of stems and tilt are of patients, not of error: a surgeon's own error
// is smaller.
var ScatterPresets = []ScatterPreset{
	// Saxler, Int Orthop 2004;28:198-201: 45.8 ± 10.1 and 27.3 ± 15.0, freehand.
	{Key: "saxler", SD: deviations(10.1, 15.0, 0, 0), Basis: motion.Found, Source: "source_saxler"},
	// Bosker 2007: 49.7 ± 6.7 and 16.0 ± 8.1, freehand.
	{Key: "bosker", SD: deviations(handInclination, handAnteversion, 0, 0), Basis: motion.Found, Source: "source_bosker"},
	// Bosker 2007: the surgeon's own estimate is off by 4.1 ± 3.9 and 5.2 ± 4.5.
	{Key: "bosker_estimate", SD: deviations(3.9, 4.5, 0, 0), Basis: motion.Found, Source: "source_bosker"},
	// Sengodan: 41.7 ± 10.9 and 26.3 ± 17.3, freehand.
	{Key: "sengodan", SD: deviations(10.9, 17.3, 0, 0), Basis: motion.Found, Source: "source_sengodan"},
	// J Orthop Traumatol 2024, n = 170: target 44.8 / 19.4, got 43.1 ± 7.6 and
	// 27.2 ± 5.6.
	{Key: "jot_2024", SD: deviations(7.6, 5.6, 0, 0), Basis: motion.Found, Source: "source_jot_2024"},
	// Dorr: stem anteversion 10.2 ± 7.5 of patients.
	{Key: "dorr_stem", SD: deviations(0, 0, 7.5, 0), Basis: motion.Memory, Source: "source_dorr_stem_memory"},
	// Fujishiro: stem anteversion 29 ± 11 of patients.
	{Key: "fujishiro_stem", SD: deviations(0, 0, 11, 0), Basis: motion.Memory, Source: "source_fujishiro_memory"},
	// Tilt of one patient from day to day: no value was found; 5° is the
	// delivery error with which Pierrepont et al., Bone Joint J 2017;99-B:184-191,
	// reckon.
	{Key: "tilt_5", SD: deviations(0, 0, 0, 5), Basis: motion.Assumed, Source: "source_tilt_scatter_assumed"},
}

// Usual deviations in degrees: Bosker's cups, set by hand, and an assumed stem
// and tilt.
const (
	handInclination = 6.7
	handAnteversion = 8.1
	assumedStem     = 5
	assumedTilt     = 5
)

// UsualScatter is what a case has by default.
var UsualScatter = Scatter{SD: deviations(handInclination, handAnteversion, assumedStem, assumedTilt)}

func deviations(inclination, anteversion, stem, tilt float64) (sd [VariableCount]unit.Angle) {
	for i, x := range [VariableCount]float64{inclination, anteversion, stem, tilt} {
		sd[i] = unit.Angle(x) * unit.Degree
	}
	return sd
}

// With returns the scatter with what a preset says replaced.
func (s Scatter) With(p ScatterPreset) Scatter {
	for i, sd := range p.SD {
		if sd > 0 {
			s.SD[i] = sd
		}
	}
	return s
}

// mixing is the matrix that makes correlated deviations of independent standard
// normal ones: the Cholesky factor of the covariance.
type mixing [VariableCount][VariableCount]float64

// rounded is by how much a value may miss its range, as in the table.
const rounded = 1e-9 * unit.Degree

// mixing returns the factor, or an error if no such scatter can be.
func (s Scatter) mixing() (mixing, error) {
	var l mixing
	for i := range VariableCount {
		if !s.SD[i].Finite() || s.SD[i] < -rounded {
			return l, fmt.Errorf("standard deviation of %s is %g°: must be 0° or more", VariableKeys[i], s.SD[i].Degrees())
		}
		for k := range i {
			r := s.Correlation[k][i]
			if !(r >= -1 && r <= 1) {
				return l, fmt.Errorf("correlation of %s and %s is %g: must be from -1 to 1", VariableKeys[k], VariableKeys[i], r)
			}
		}
	}
	// Of the correlations; the deviations scale the rows.
	for i := range VariableCount {
		left := 1.0
		for k := range i {
			v := s.Correlation[k][i]
			for m := range k {
				v -= l[i][m] * l[k][m]
			}
			if l[k][k] > 0 {
				v /= l[k][k]
			}
			l[i][k] = v
			left -= v * v
		}
		if left < -1e-12 {
			return l, fmt.Errorf("correlations of %s contradict each other: no such scatter can be", VariableKeys[i])
		}
		l[i][i] = math.Sqrt(max(0, left))
	}
	for i := range VariableCount {
		for k := range VariableCount {
			l[i][k] *= max(0, float64(s.SD[i]))
		}
	}
	return l, nil
}

// deviation is one placement's deviation from the target.
type deviation [VariableCount]unit.Angle

// of returns the deviation made from independent standard normal numbers.
func (l *mixing) of(z *[VariableCount]float64) (d deviation) {
	for i := range VariableCount {
		for k := range i + 1 {
			d[i] += unit.Angle(l[i][k] * z[k])
		}
	}
	return d
}
