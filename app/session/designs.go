package session

import (
	"rimclear/app/casefile"
	"rimclear/kinematics"
)

// Duplicate adds a copy of the design looked at and looks at the copy. Without
// room for one it does nothing.
func (s *Session) Duplicate() {
	n := s.now.Case.Count
	if n == kinematics.MaxDesigns {
		return
	}
	s.edit(Step{"add_design", n}, n, func(f *casefile.File) {
		f.Case.Designs[n] = *s.now.Design()
		f.Case.Designs[n].Name = ""
		f.Case.Count++
		f.DesignOthers[n] = f.DesignOthers[s.now.Active]
	})
}

// Remove takes the design looked at out of the case. The last one stays.
func (s *Session) Remove() {
	n, i := s.now.Case.Count, s.now.Active
	if n == 1 {
		return
	}
	s.edit(Step{"remove_design", i}, min(i, n-2), func(f *casefile.File) {
		copy(f.Case.Designs[i:], f.Case.Designs[i+1:n])
		copy(f.DesignOthers[i:], f.DesignOthers[i+1:n])
		f.Case.Designs[n-1], f.DesignOthers[n-1] = kinematics.Default().Designs[0], nil
		f.Case.Count--
	})
}
