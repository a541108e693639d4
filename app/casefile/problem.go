package casefile

import (
	"fmt"
	"strconv"
	"strings"

	"rimclear/kinematics"
)

// Problem is one thing that is wrong with a file: the line and field where it
// stands, the value there, and what it must be.
type Problem struct {
	Line  int    // from 1; 0 where there is no file
	Field string // "designs[1].head_diameter_mm", "" for the file itself
	Value string // as it stands in the file, shortened; "" where none does
	Must  string // what is allowed
	Err   error  // ErrNewer, or nil
}

// Error implements error.
func (p Problem) Error() string {
	var parts []string
	if p.Line > 0 {
		parts = append(parts, "line "+strconv.Itoa(p.Line))
	}
	if p.Field != "" {
		parts = append(parts, p.Field)
	}
	text := p.Must
	if p.Value != "" {
		text = p.Value + ": " + p.Must
	}
	return strings.Join(append(parts, text), ": ")
}

// Unwrap returns the cause.
func (p Problem) Unwrap() error { return p.Err }

// Problems is all that is wrong with a file.
type Problems []Problem

// Error implements error, one line per problem.
func (list Problems) Error() string {
	lines := make([]string, len(list))
	for i, p := range list {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns the problems one by one.
func (list Problems) Unwrap() []error {
	errs := make([]error, len(list))
	for i, p := range list {
		errs[i] = p
	}
	return errs
}

func designField(i int, key string) string { return fmt.Sprintf("designs[%d].%s", i, key) }

// allowed says what values a parameter takes.
func allowed(p *kinematics.Parameter) string {
	if p.Kind == kinematics.Choice {
		return "must be one of " + strings.Join(p.Choices, ", ")
	}
	text := "must be a number from " + number(p.Min) + " to " + number(p.Max) + unitOf(p)
	if p.Optional {
		text = "must be 0 (absent) or a number from " + number(p.Min) + " to " + number(p.Max) + unitOf(p)
	}
	return text
}

func unitOf(p *kinematics.Parameter) string {
	switch p.Unit {
	case kinematics.Millimetre:
		return " mm"
	case kinematics.Degrees:
		return " degrees"
	}
	return ""
}

// faultText says what must be of a value that does not fit the others.
func faultText(f kinematics.Fault) string {
	p := kinematics.ParameterByKey(f.Key)
	if p == nil { // not a value of the table: the count of designs
		return "must be from " + number(f.Min) + " to " + number(f.Max)
	}
	unit := unitOf(p)
	switch f.Reason {
	case kinematics.NeckTooWide:
		return "must be below the diameter of the head, " + number(f.Max) + unit
	case kinematics.TaperReversed:
		return "must be beyond the taper's start, " + number(f.Min) + unit
	case kinematics.NeverFree:
		return "must leave the neck room: with this head and neck it meets the rim in every direction"
	case kinematics.NeckMissing:
		return "must be above 0, or a taper or section must give the neck its width"
	case kinematics.Incomplete:
		return "must be given too, as another value of the same part is"
	case kinematics.SectionTwice:
		return "must be 0: the neck has another section already"
	case kinematics.AxisOutside:
		return "must keep the neck's axis inside its section"
	case kinematics.CornersTooRound:
		return "must be smaller: the corners do not fit the sides"
	case kinematics.LipTooWide, kinematics.LipTooHigh:
		return "must be at most " + number(f.Max) + unit + " here"
	case kinematics.FaceTooNarrow:
		return "must be below the wall, " + number(f.Max) + unit
	case kinematics.RimInsideHead:
		return "must, with the rim's height, lie at least " + number(f.Min) + unit + " from the head centre, outside the head"
	case kinematics.RangeReversed:
		return "must be above where the range starts, " + number(f.Min) + unit
	case kinematics.NotThisSocket:
		return "must be from " + number(f.Min) + " to " + number(f.Max) + unit + " in this socket"
	}
	return allowed(p)
}

func number(x float64) string { return strconv.FormatFloat(x+0, 'f', -1, 64) }

// quoted returns a value as it stands in the file, cut to a readable length.
func quoted(raw []byte) string {
	const most = 40
	s := strings.ToValidUTF8(string(raw), "�")
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "…"
	}
	return strings.Join(strings.Fields(s), " ")
}
