package present

import (
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
)

// Sections of the words on motions and bearings.
const (
	activitySection  = "activity"  // everyday names, by key
	setSection       = "set"       // of criteria, by key
	criterionSection = "criterion" // by movement, with {angle}
	basisSection     = "basis"     // what a value rests on
	referenceSection = "reference" // what angles are counted from
	planeSection     = "plane"     // after a reference to a posture or room
	categorySection  = "category"  // of activities
	riskSection      = "risk"      // side of dislocation
	togetherSection  = "together"  // whether joint angles belong to one moment
	mobilitySection  = "mobility"  // of the pelvis
	standingSection  = "standing"  // of a design to a motion
	bearingSection   = "bearing"   // built in, by key
)

// Activity returns an activity's everyday name; a user's activity brings its
// own, or goes by its key.
func (w *Words) Activity(a motion.Activity) string { return w.named(activitySection, a.Key, a.Name) }

// CriteriaSet returns the name of a criteria set.
func (w *Words) CriteriaSet(s motion.CriteriaSet) string { return w.named(setSection, s.Key, s.Name) }

// Bearing returns the name of a bearing of the catalogue.
func (w *Words) Bearing(b kinematics.Bearing) string { return w.named(bearingSection, b.Key, b.Name) }

// named returns a user's own name, or the built-in one; without either the key.
func (w *Words) named(section, key, own string) string {
	if own != "" {
		return own
	}
	if word, ok := w.sections[section][key]; ok {
		return word
	}
	return key
}

// Criterion returns what a criterion asks for: "flexion to 120°".
func (w *Words) Criterion(c motion.Criterion) string {
	return fill(w.word(criterionSection, c.Movement.Key()), "angle", w.angle(c.Least))
}

func (w *Words) angle(s motion.Stated) string {
	return w.Shortest(s.Angle.Degrees(), 1) + w.Unit(kinematics.Degrees)
}

// Requirement returns the name of something a hip is asked to do.
func (w *Words) Requirement(r motion.Requirement) string {
	switch r.Kind {
	case motion.OfActivity:
		return w.named(activitySection, r.Key, r.Name)
	case motion.OfCriterion:
		p := r.Paths[0]
		moving, _ := p.Moving(p.Legs() - 1)
		end := p.At(p.End()).Angle(moving).Abs()
		return fill(w.word(criterionSection, r.Key), "angle", w.angle(motion.Stated{Angle: end}))
	}
	return w.named("", r.Key, r.Name)
}

// Basis returns what a value rests on.
func (w *Words) Basis(b motion.Basis) string { return w.word(basisSection, b.Key()) }

// Zero returns what the angles of a motion are counted from.
func (w *Words) Zero(z motion.Zero) string {
	return fill(w.word(referenceSection, z.Reference.Key()), "plane", w.word(planeSection, motion.PlaneKeys[z.Plane]))
}

// Category returns where a user looks for an activity.
func (w *Words) Category(c motion.Category) string { return w.word(categorySection, c.Key()) }

// Risk returns the side to which the head would dislocate.
func (w *Words) Risk(r motion.Risk) string { return w.word(riskSection, r.Key()) }

// Together returns whether the joint angles of an activity belong to one
// moment.
func (w *Words) Together(t motion.Together) string { return w.word(togetherSection, t.Key()) }

// Mobility returns how a pelvis moves between standing and sitting.
func (w *Words) Mobility(m motion.Mobility) string { return w.word(mobilitySection, m.Key()) }

// Standing returns how a design stands to a motion.
func (w *Words) Standing(s kinematics.Standing) string { return w.word(standingSection, s.Key()) }
