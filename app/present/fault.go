package present

import (
	"strconv"

	"rimclear/kinematics"
)

// reasonKeys are the keys of what can be wrong with a value.
var reasonKeys = map[kinematics.Reason]string{
	kinematics.OutOfRange:      "out_of_range",
	kinematics.NotFinite:       "not_finite",
	kinematics.NotAChoice:      "not_a_choice",
	kinematics.NeckTooWide:     "neck_too_wide",
	kinematics.TaperReversed:   "taper_reversed",
	kinematics.NeverFree:       "never_free",
	kinematics.NeckMissing:     "neck_missing",
	kinematics.Incomplete:      "incomplete",
	kinematics.SectionTwice:    "section_twice",
	kinematics.AxisOutside:     "axis_outside",
	kinematics.CornersTooRound: "corners_too_round",
	kinematics.LipTooWide:      "lip_too_wide",
	kinematics.LipTooHigh:      "lip_too_high",
	kinematics.FaceTooNarrow:   "face_too_narrow",
	kinematics.RimInsideHead:   "rim_inside_head",
	kinematics.InsetTooDeep:    "inset_too_deep",
	kinematics.TooManyDesigns:  "too_many_designs",
	kinematics.NotThisSocket:   "not_this_socket",
	kinematics.RangeReversed:   "range_reversed",
	kinematics.NeckNearHead:    "neck_near_head",
	kinematics.NeckOverhangs:   "neck_overhangs",
	kinematics.SocketFree:      "socket_free",
	kinematics.NoEffect:        "no_effect",
}

// FaultText says what is wrong with a value and what is allowed, as shown at
// its slider. The design is not named.
func (w *Words) FaultText(f kinematics.Fault) string {
	key := reasonKeys[f.Reason]
	p := kinematics.ParameterByKey(f.Key)
	if p == nil { // not a value of the table: the count of designs
		return fill(w.word(reasonSection, key),
			"count", Shortest(f.Value, 0), "least", Shortest(f.Min, 0), "most", Shortest(f.Max, 0))
	}
	switch {
	case f.Reason == kinematics.OutOfRange && p.Optional:
		key += "_optional"
	case f.Reason == kinematics.NotThisSocket && f.Min == f.Max:
		key += "_exactly"
	case f.Reason == kinematics.NotThisSocket && f.Min == 0:
		key += "_at_most"
	}
	value := w.Value(p, f.Value)
	if f.Reason == kinematics.NotFinite {
		value = strconv.FormatFloat(f.Value, 'f', -1, 64)
	}
	return fill(w.word(reasonSection, key),
		"name", w.Name(f.Key), "value", value,
		"min", w.Value(p, f.Min), "max", w.Value(p, f.Max), "choices", w.list(w.Choices(p)))
}
