package session

import "rimclear/kinematics"

// solve answers all questions of a design in a hip.
func solve(q question) []kinematics.Answer {
	return kinematics.NewJoint(q.hip, q.design).Answers(q.hip)
}

// show makes the present state the snapshot on screen. Round designs are
// answered at once, in less than a picture takes; the others in the background.
func (s *Session) show(step Step, path string) {
	st := s.history.now().state
	n := &Snapshot{Case: st.file.Case, Active: min(st.active, st.file.Case.Count-1), Step: step, Path: path}
	q := n.question()
	if s.now != nil {
		n.Serial, n.Answers = s.now.Serial+1, s.now.Answers
	}
	ap := s.apertures.of(q.design)
	n.Joint = kinematics.Assemble(n.Case.Hip, q.design, ap)
	n.Contact = n.Joint.Contact(n.Case.Posture)
	n.Unsaved = !st.file.Same(s.saved)
	if n.Answers == nil || q != s.known {
		if _, round := ap.Theta(); round {
			n.Answers, s.known = n.Joint.Answers(n.Case.Hip), q
		} else {
			n.Solving = true
			s.answers.Ask(q)
		}
	}
	s.publish(n)
}

// answered takes what the background has worked out. It may already be out of
// date; then it is still the newest there is.
func (s *Session) answered(q question, list []kinematics.Answer) {
	if s.known == s.now.question() {
		return
	}
	n := *s.now
	n.Serial++
	n.Answers, s.known = list, q
	n.Solving = q != n.question()
	s.publish(&n)
}

func (s *Session) publish(n *Snapshot) {
	s.now = n
	for _, w := range s.watchers {
		w.see(n)
	}
}
