package cohort

import (
	"fmt"
	"strings"

	"rimclear/app/present"
	"rimclear/kinematics"
)

// Fault is why a line could not be answered: the first thing found wrong.
type Fault struct {
	Line   int    // of the input, the header counted
	ID     string // of the case, where the line gives one
	Field  string // "" for the line as a whole
	Value  string // as it stands there, shortened
	Reason string
}

// Error implements error.
func (f *Fault) Error() string {
	var b strings.Builder
	fmt.Fprintf(&b, "line %d", f.Line)
	if f.ID != "" {
		fmt.Fprintf(&b, " (id %s)", f.ID)
	}
	b.WriteString(": ")
	if f.Field != "" {
		b.WriteString(f.Field)
		if f.Value != "" {
			fmt.Fprintf(&b, " %q", f.Value)
		}
		b.WriteString(": ")
	}
	b.WriteString(f.Reason)
	return b.String()
}

// mostShown is how many bytes of a value a message shows.
const mostShown = 60

func shortened(text []byte) string {
	s := strings.ToValidUTF8(string(text[:min(len(text), mostShown)]), "\uFFFD")
	s = strings.Map(func(c rune) rune {
		if c < ' ' || c == 0x7f {
			return '\uFFFD'
		}
		return c
	}, s)
	if len(text) > mostShown {
		s += "…"
	}
	return s
}

// allowed says what values a parameter takes.
func allowed(p *kinematics.Parameter) string {
	if p.Kind == kinematics.Choice {
		return "must be one of " + strings.Join(p.Choices, ", ")
	}
	return "must be a number, " + present.English().Range(p)
}
