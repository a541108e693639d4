package session

import "rimclear/kinematics"

// Duplicate adds a copy of the design looked at and looks at the copy. Without
// room for one it does nothing.
func (s *Session) Duplicate() {
	n := s.now.Case.Count
	if n == kinematics.MaxDesigns {
		return
	}
	s.edit(Step{"add_design", n}, n, func(c *kinematics.Case) {
		c.Designs[n] = *s.now.Design()
		c.Designs[n].Name = ""
		c.Count++
	})
}

// Remove takes the design looked at out of the case. The last one stays.
func (s *Session) Remove() {
	n, i := s.now.Case.Count, s.now.Active
	if n == 1 {
		return
	}
	s.edit(Step{"remove_design", i}, min(i, n-2), func(c *kinematics.Case) {
		copy(c.Designs[i:], c.Designs[i+1:n])
		c.Designs[n-1] = kinematics.Default().Designs[0]
		c.Count--
	})
}
