package session

import (
	"fmt"
	"regexp"
	"unicode/utf8"

	"rimclear/app/casefile"
	"rimclear/kinematics"
)

// copied is the mark at the end of a copy's name.
var copied = regexp.MustCompile(` \(\d{1,2}\)$`)

// copyName returns the name of a copy of a design: the original's with the
// least number from 2 that no design of the case bears, in parentheses. It is
// "" where the original has none.
func copyName(c *kinematics.Case, of string) string {
	if of == "" {
		return ""
	}
	taken := map[string]bool{}
	for _, d := range c.Active() {
		taken[d.Name] = true
	}
	base := copied.ReplaceAllString(of, "")
	for n := 2; ; n++ {
		name := fmt.Sprintf("%s (%d)", base, n)
		if utf8.RuneCountInString(name) > casefile.MaxName {
			return ""
		}
		if !taken[name] {
			return name
		}
	}
}

// Duplicate adds a copy of the design looked at and looks at the copy. Without
// room for one it does nothing.
func (s *Session) Duplicate() {
	n := s.now.Case.Count
	if n == kinematics.MaxDesigns {
		return
	}
	s.edit(Step{"add_design", n}, n, func(f *casefile.File) {
		f.Case.Designs[n] = *s.now.Design()
		f.Case.Designs[n].Name = copyName(&s.now.Case, s.now.Design().Name)
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
