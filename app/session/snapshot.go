package session

import (
	"rimclear/kinematics"
)

// Snapshot is what is on screen at one moment. It is not changed after it was
// made.
type Snapshot struct {
	Case    kinematics.Case // without faults
	Active  int             // the design looked at
	Joint   kinematics.Joint
	Contact kinematics.Contact // at the case's posture
	// Answers are the limits of the design looked at. They are the ones of
	// an earlier snapshot while Solving.
	Answers []kinematics.Answer
	Solving bool

	Step    Step   // the change that led here
	Path    string // the case's file, "" if it has none
	Unsaved bool
	Serial  uint64 // grows with each snapshot
}

// Design returns the design looked at.
func (s *Snapshot) Design() *kinematics.Design { return &s.Case.Designs[s.Active] }

// question is all the limits of a design depend on.
type question struct {
	hip    kinematics.Hip
	design kinematics.Design
}

func (s *Snapshot) question() question {
	q := question{s.Case.Hip, *s.Design()}
	q.design.Name = ""
	return q
}

// Joint returns the i-th design of the present case, placed in its hip.
func (s *Session) Joint(i int) kinematics.Joint {
	if i == s.now.Active {
		return s.now.Joint
	}
	d := s.now.Case.Designs[i]
	return kinematics.Assemble(s.now.Case.Hip, d, s.apertures.of(d))
}
