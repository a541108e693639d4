package kinematics

import (
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Question is one of the limits asked of every design. Key names it in files
// and tables and finds its words. Movement says which joint angle is read, in
// which direction; Native is the passive range of a native hip beyond which
// bone and soft tissue are known to stop first, where there is a value.
type Question struct {
	Key      string
	Movement Movement
	Flexion  unit.Angle // at which rotation is asked
	Given    bool       // asked at the case's given adduction
	End      unit.Angle // how far the path runs, in the movement's direction
	Native   Native
}

// Native is a passive range of native hips with its source; the zero value
// means that none is known.
type Native struct {
	Range  unit.Angle
	Source string // key of the source's words
}

// Known reports whether there is a value.
func (n Native) Known() bool { return n.Range > 0 }

// Passive ranges. Flexion, extension, abduction: Roach KE, Miles TP, Phys Ther
// 1991;71:656-665 (from memory), means of adults 25-74. Adduction: common
// practice, no source. Rotation: Kouyoumdjian et al., Orthop Traumatol Surg Res
// 2012;98:17-23, 120 adults: supine external 38.5, internal 29.6; prone 41.8
// and 35.2; seated internal 37.9, external about 40.6.
var (
	nativeFlexion        = Native{121 * unit.Degree, "source_roach_memory"}
	nativeExtension      = Native{19 * unit.Degree, "source_roach_memory"}
	nativeAbduction      = Native{42 * unit.Degree, "source_roach_memory"}
	nativeAdduction      = Native{30 * unit.Degree, "source_common_practice"}
	nativeInternal       = Native{35.2 * unit.Degree, "source_kouyoumdjian"}
	nativeExternal       = Native{41.8 * unit.Degree, "source_kouyoumdjian"}
	nativeSeatedInternal = Native{37.9 * unit.Degree, "source_kouyoumdjian"}
	nativeSeatedExternal = Native{40.6 * unit.Degree, "source_kouyoumdjian"}
)

// unmeasured returns a range of rotation at a flexion at which none was
// measured: on the line between those at 0° and 90°, past 90° the latter.
func unmeasured(at0, at90 Native, flexion unit.Angle) Native {
	f := min(flexion/(90*unit.Degree), 1)
	return Native{at0.Range + f*(at90.Range-at0.Range), "source_kouyoumdjian_between"}
}

// Ends of the paths: past every native range, short of the singularity at 90°
// of ad- and abduction.
const (
	endFlexion  = 180 * unit.Degree
	endExtend   = 90 * unit.Degree
	endAbduct   = 90 * unit.Degree
	endRotation = 180 * unit.Degree
)

// Questions are the limits asked of every design, in the order of the table.
var Questions = questions()

func questions() []Question {
	list := []Question{
		{Key: "flexion", Movement: FlexionMovement, End: endFlexion, Native: nativeFlexion},
		{Key: "extension", Movement: Extension, End: endExtend, Native: nativeExtension},
		{Key: "abduction", Movement: Abduction, End: endAbduct, Native: nativeAbduction},
		{Key: "adduction", Movement: AdductionMovement, End: endAbduct, Native: nativeAdduction},
	}
	rotation := func(key string, flexion unit.Angle, internal, external Native) {
		list = append(list,
			Question{Key: "internal_at_" + key, Movement: Internal, Flexion: flexion, End: endRotation, Native: internal},
			Question{Key: "external_at_" + key, Movement: External, Flexion: flexion, End: endRotation, Native: external})
	}
	between := func(key string, flexion unit.Angle) {
		rotation(key, flexion, unmeasured(nativeInternal, nativeSeatedInternal, flexion), unmeasured(nativeExternal, nativeSeatedExternal, flexion))
	}
	rotation("extension_10", -10*unit.Degree, nativeInternal, nativeExternal)
	rotation("0", 0, nativeInternal, nativeExternal)
	between("30", 30*unit.Degree)
	between("60", 60*unit.Degree)
	rotation("90", 90*unit.Degree, nativeSeatedInternal, nativeSeatedExternal)
	between("110", 110*unit.Degree)
	return append(list,
		Question{Key: "flexion_given_adduction", Movement: FlexionMovement, Given: true, End: endFlexion, Native: nativeFlexion},
		Question{Key: "internal_at_90_given_adduction", Movement: Internal, Flexion: 90 * unit.Degree, Given: true, End: endRotation, Native: nativeSeatedInternal},
		Question{Key: "external_given_adduction", Movement: External, Given: true, End: endRotation, Native: nativeExternal},
	)
}

// Path returns the question's motion: from neutral to the posture in which it
// is asked, then the movement to its end.
func (q Question) Path(h Hip) motion.Path {
	start := hip.Posture{Flexion: q.Flexion}
	postures := []hip.Posture{}
	if q.Flexion != 0 {
		postures = append(postures, start)
	}
	if q.Given && h.GivenAdduction != 0 {
		start.Adduction = h.GivenAdduction
		postures = append(postures, start)
	}
	angle, sign := q.Movement.Joint()
	return motion.Through(h.PosturePlane, append(postures, start.With(angle, sign*q.End))...)
}

// Answer is the limit of one question.
type Answer struct {
	Question Question
	Path     motion.Path
	Limit    Limit
	Reached  bool       // the movement itself was reached: no earlier leg stopped
	Reading  unit.Angle // the limit in the movement's direction; the end of the path where free
}

// BeyondNative reports whether the computed limit lies beyond the native
// passive range: bone and soft tissue stop first.
func (a Answer) BeyondNative() bool {
	return a.Reached && a.Question.Native.Known() && a.Limit.Status != StartsInContact &&
		a.Reading > a.Question.Native.Range
}

// Answers returns the limits of all questions.
func (j Joint) Answers(h Hip) []Answer {
	list := make([]Answer, len(Questions))
	for i, q := range Questions {
		list[i] = j.Answer(h, q)
	}
	return list
}

// Answer returns the limit of one question.
func (j Joint) Answer(h Hip, q Question) Answer {
	p := q.Path(h)
	l := j.Limit(p)
	angle, sign := q.Movement.Joint()
	return Answer{
		Question: q, Path: p, Limit: l,
		Reached: l.At.Leg == p.Legs()-1 && l.Status != StartsInContact,
		Reading: sign * l.Posture.Angle(angle),
	}
}
