package motion

import (
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Movement is a movement a criterion asks for: one joint angle, in one
// direction, at a stated flexion.
type Movement int

const (
	Flexion Movement = iota
	Extension
	Abduction
	Adduction
	InternalAt0
	InternalAt90
	ExternalAt0
	MovementCount
)

// MovementKeys are the words for a criterion's movement in files, in their
// order; each is the least angle in that direction.
var MovementKeys = []string{
	"flexion", "extension", "abduction", "adduction", "internal_at_0", "internal_at_90", "external_at_0",
}

// Key returns the word for the movement in files.
func (m Movement) Key() string { return MovementKeys[m] }

// Joint returns the joint angle that moves, its sign, and the flexion at which
// it does.
func (m Movement) Joint() (angle hip.JointAngle, sign, flexion unit.Angle) {
	switch m {
	case Extension:
		return hip.Flexion, -1, 0
	case Abduction:
		return hip.Adduction, -1, 0
	case Adduction:
		return hip.Adduction, 1, 0
	case InternalAt0:
		return hip.InternalRotation, 1, 0
	case InternalAt90:
		return hip.InternalRotation, 1, 90 * unit.Degree
	case ExternalAt0:
		return hip.InternalRotation, -1, 0
	}
	return hip.Flexion, 1, 0
}

// Risk returns the side to which the head would dislocate at the movement's
// end: posterior with flexion and internal rotation, anterior with extension
// and external rotation.
func (m Movement) Risk() Risk {
	switch m {
	case Flexion, InternalAt0, InternalAt90:
		return Posterior
	case Extension, ExternalAt0:
		return Anterior
	}
	return NoRisk
}

// Farthest returns the greatest angle that may be asked for.
func (m Movement) Farthest() unit.Angle {
	if a, _, _ := m.Joint(); a == hip.Adduction {
		return 89 * unit.Degree
	}
	return 180 * unit.Degree
}

// Criterion is a movement that must be free up to at least an angle, counted
// in the movement's direction.
type Criterion struct {
	Movement Movement
	Least    Stated
}

// Path returns the motion that must be free: from neutral, by way of the
// movement's flexion, to the angle asked for.
func (c Criterion) Path(zero hip.Plane) Path {
	angle, sign, flexion := c.Movement.Joint()
	at := hip.Posture{Flexion: flexion}
	var via []hip.Posture
	if flexion != 0 {
		via = append(via, at)
	}
	return Through(zero, append(via, at.With(angle, sign*c.Least.Angle))...)
}

// CriteriaSet is thresholds that must all be met, of one paper or of the user.
// Different sets want different cups of the same stem, so a result always names
// its set.
type CriteriaSet struct {
	Key      string
	Name     string // of a user's set; "" for one built in
	Zero     Zero   // never a room's: a threshold is a joint angle
	Criteria []Criterion
	Source   string
}

// Basis returns the weakest basis of the set's thresholds.
func (s CriteriaSet) Basis() Basis {
	worst := Own
	for _, c := range s.Criteria {
		worst = max(worst, c.Least.Basis)
	}
	return worst
}

// Of returns the threshold of a movement and whether the set has one.
func (s CriteriaSet) Of(m Movement) (Stated, bool) {
	for _, c := range s.Criteria {
		if c.Movement == m {
			return c.Least, true
		}
	}
	return Stated{}, false
}

// With returns the set with the threshold of a movement replaced, added, or,
// for an angle of 0, taken away.
func (s CriteriaSet) With(m Movement, least Stated) CriteriaSet {
	kept := make([]Criterion, 0, len(s.Criteria)+1)
	for _, c := range s.Criteria {
		if c.Movement < m {
			kept = append(kept, c)
		}
	}
	if least.Angle > 0 {
		kept = append(kept, Criterion{m, least})
	}
	for _, c := range s.Criteria {
		if c.Movement > m {
			kept = append(kept, c)
		}
	}
	s.Criteria = kept
	return s
}
