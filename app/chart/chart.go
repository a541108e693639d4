package chart

import (
	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Chart is one kind of plot.
type Chart struct {
	Key   string // names it in files
	Title func(*present.Words) string
	Draw  func(Subject, Look) figure.Figure
	// Still returns the part of the posture that the static layer depends on:
	// pixels of it may be kept as long as this and the designs stay the same.
	Still func(Subject) hip.Posture
}

// All lists the charts in the order of the chooser.
var All = []Chart{
	slice("envelope_flexion_rotation", kinematics.FlexionByRotation,
		func(w *present.Words) string { return w.Phrase("chart_envelope_flexion_rotation") }),
	slice("envelope_flexion_adduction", kinematics.FlexionByAdduction,
		func(w *present.Words) string { return w.Phrase("chart_envelope_flexion_adduction") }),
	slice("envelope_adduction_rotation", kinematics.AdductionByRotation,
		func(w *present.Words) string { return w.Phrase("chart_envelope_adduction_rotation") }),
	thighGlobe,
	rimClock,
	limitRulers,
	headNeckRatio,
	cupArc,
}

// Find returns the chart of a key.
func Find(key string) (Chart, bool) {
	for _, c := range All {
		if c.Key == key {
			return c, true
		}
	}
	return Chart{}, false
}

// Subject is what a chart shows: the designs placed in one hip, and the posture
// looked at.
type Subject struct {
	Hip      kinematics.Hip
	Posture  hip.Posture  // zero in Hip.PosturePlane
	Designs  []Design     // A to D, in this order
	Active   int          // the design whose area is filled; the others are lines
	Motions  []Motion     // drawn on the rim; nil draws the ways to the main limits
	Flexions []unit.Angle // at which the rulers ask for rotation; nil is 0 and 90°
}

// Design is one design of the subject.
type Design struct {
	Name  string
	Joint kinematics.Joint
	Of    kinematics.Design // what is placed, for charts that vary it
}

// SubjectOf places all designs of a case. Aperture caches are the caller's: it
// may fill a Subject itself.
func SubjectOf(c kinematics.Case, active int) Subject {
	s := Subject{Hip: c.Hip, Posture: c.Posture, Active: active}
	for _, d := range c.Active() {
		s.Designs = append(s.Designs, Design{d.Name, kinematics.NewJoint(c.Hip, d), d})
	}
	return s
}

// active returns the joint of the active design; ok is false where there is
// none.
func (s Subject) active() (j kinematics.Joint, ok bool) {
	if s.Active < 0 || s.Active >= len(s.Designs) {
		return j, false
	}
	return s.Designs[s.Active].Joint, true
}
