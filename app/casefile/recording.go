package casefile

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Recording is a recorded motion that is kept in the case: its samples, what it
// is called, and how the columns of its table were read.
type Recording struct {
	Key, Name string // Key is what "motions" names it by
	Risk      motion.Risk
	motion.Recording
	Mapping motion.Mapping // its Zero and Mechanical are the recording's own
	Others  []Member
}

// Bounds of what is kept of recordings: 20,000 samples are 200 s at 100 a
// second. All together stay below MaxBytes.
const (
	MaxRecordings = 10
	MaxSamples    = 20000
	maxTime       = 1e7 // s
	// grains is into how many parts a second and a degree are divided in a file:
	// times and angles are rounded to these.
	grains = 1e9
)

// Rounded returns the recording as it comes back from a file.
func (r Recording) Rounded() Recording {
	r.Times, r.Postures = slices.Clone(r.Times), slices.Clone(r.Postures)
	for i := range r.Times {
		r.Times[i] = rounded(r.Times[i])
		for a := hip.Flexion; a <= hip.InternalRotation; a++ {
			r.Postures[i] = r.Postures[i].With(a, unit.Angle(degrees(r.Postures[i].Angle(a)))*unit.Degree)
		}
	}
	for a := range r.Mapping.Channels {
		c := &r.Mapping.Channels[a]
		c.Offset = unit.Angle(degrees(c.Offset)) * unit.Degree
	}
	r.Mapping.Zero, r.Mapping.Mechanical = r.Zero, r.Mechanical
	return r
}

func rounded(x float64) float64 { return math.Round(x*grains)/grains + 0 }

// degrees rounds off the noise of the conversion, so that what was read as
// 40.1° is written as 40.1.
func degrees(a unit.Angle) float64 { return rounded(a.Degrees()) }

// Same reports whether two recordings are the same, sample for sample.
func (r Recording) Same(o Recording) bool {
	if r.Key != o.Key || r.Name != o.Name || r.Risk != o.Risk || r.Zero != o.Zero || r.Mechanical != o.Mechanical ||
		r.Mapping != o.Mapping || len(r.Times) != len(o.Times) || len(r.Postures) != len(o.Postures) ||
		!slices.EqualFunc(r.Others, o.Others, sameMember) {
		return false
	}
	if len(r.Times) > 0 && &r.Times[0] == &o.Times[0] && len(r.Postures) > 0 && &r.Postures[0] == &o.Postures[0] {
		return true
	}
	return slices.Equal(r.Times, o.Times) && slices.Equal(r.Postures, o.Postures)
}

// angleFields are the fields of the joint angles, in the order of
// hip.JointAngle.
var angleFields = [3]string{"flexion", "adduction", "internal_rotation"}

// fault says what is wrong with the samples: the field, and what it must be.
// Both are "" if nothing is.
func (r Recording) fault() (field, must string) {
	n := len(r.Times)
	if n < 2 || n > MaxSamples || len(r.Postures) != n {
		return "time_s", fmt.Sprintf("must be a list of 2 to %d samples, as long as the lists of angles", MaxSamples)
	}
	for i, t := range r.Times {
		if !(math.Abs(t) <= maxTime) {
			return sample("time_s", i), fmt.Sprintf("must be a number from -%g to %g s", maxTime, maxTime)
		}
		if i > 0 && t <= r.Times[i-1] {
			return sample("time_s", i), "must be later than the one before, by a nanosecond at least"
		}
	}
	for a := hip.Flexion; a <= hip.InternalRotation; a++ {
		if i, must := r.angleFault(a); must != "" {
			return sample(angleFields[a]+"_deg", i), must
		}
	}
	return "", ""
}

// slack is how far beyond a bound the noise of a conversion may lead.
const slack = 1e-9 * unit.Degree

func (r Recording) angleFault(a hip.JointAngle) (i int, must string) {
	for i, p := range r.Postures {
		v := p.Angle(a)
		if most := motion.Range(a); !(v.Abs() <= most+slack) {
			return i, fmt.Sprintf("must be from -%g to %g degrees", most.Degrees(), most.Degrees())
		}
		if i > 0 && (v-r.Postures[i-1].Angle(a)).Abs() > motion.FarthestStep+2*slack {
			return i, fmt.Sprintf("must be within %g degrees of the one before", motion.FarthestStep.Degrees())
		}
	}
	return 0, ""
}

func sample(field string, i int) string { return fmt.Sprintf("%s[%d]", field, i) }

// Recorded returns the file with one more recording, under a key made of its
// name that neither a recording in the file nor the program's library has
// (known). The error says what does not fit.
func (f File) Recorded(r Recording, known func(key string) bool) (File, Recording, error) {
	if len(f.Recordings) >= MaxRecordings {
		return f, r, Problems{{Field: recordingsField, Must: fmt.Sprintf(
			"a case keeps at most %d recordings; take one out first", MaxRecordings)}}
	}
	if n := len(r.Times); n > MaxSamples {
		return f, r, Problems{{Value: fmt.Sprintf("%d samples", n), Must: fmt.Sprintf(
			"a case keeps at most %d samples of a recording; take fewer per second, or a part", MaxSamples)}}
	}
	r = r.Rounded()
	r.Name, r.Mapping.Time.Column = lineOf(r.Name, MaxName), lineOf(r.Mapping.Time.Column, MaxLabel)
	for a := range r.Mapping.Channels {
		r.Mapping.Channels[a].Column = lineOf(r.Mapping.Channels[a].Column, MaxLabel)
	}
	stem := plainKey(r.Name)
	r.Key = stem
	for n := 2; known(r.Key) || f.Recording(r.Key) >= 0; n++ {
		r.Key = fmt.Sprintf("%s_%d", stem, n)
	}
	if p := refuseRecording(recordingField(len(f.Recordings)), r); len(p) > 0 {
		return f, r, p
	}
	f.Recordings = slices.Concat(f.Recordings, []Recording{r})
	return f, r, nil
}

// Recording returns the place of the recording with that key, -1 if there is
// none.
func (f File) Recording(key string) int {
	return slices.IndexFunc(f.Recordings, func(r Recording) bool { return r.Key == key })
}

// lineOf returns a text as one line, cut to a length.
func lineOf(s string, most int) string {
	s = strings.Join(strings.FieldsFunc(strings.ToValidUTF8(s, "�"), unicode.IsControl), " ")
	if runes := []rune(s); len(runes) > most {
		s = string(runes[:most-1]) + "…"
	}
	return s
}
