package present

import (
	"slices"
	"strings"
)

// Sections of the words on numbers, each by the number's key.
const (
	aboutNameSection       = "about_name"
	aboutDefinitionSection = "about_definition"
	aboutFormulaSection    = "about_formula"
	aboutSourceSection     = "about_source" // a line for each thing it rests on
	aboutLimitsSection     = "about_limits"
	aboutStatusSection     = "about_status" // by the key of a Rest
)

// Rest says how firm a thing is on which a number rests.
type Rest int

// From firm to weak.
const (
	Found          Rest = iota // read in the text that is named
	Derived                    // from the definitions, and checked by computation
	CommonPractice             // in use, without a source
	FromMemory                 // the text that is named was not seen
	OwnChoice                  // the program's
	restCount
)

var restKeys = [restCount]string{"found", "derived", "common_practice", "memory", "choice"}

// Number is a kind of result on screen, by its key, and how firm each line of
// its sources is.
type Number struct {
	Key   string
	Rests []Rest
}

// Numbers are all kinds of results, in the order in which they are listed.
var Numbers = []Number{
	{"limit", []Rest{Derived, FromMemory}},
	{"native_range", []Rest{Found, FromMemory, CommonPractice}},
	{"tightest", []Rest{OwnChoice}},
	{"oscillation_deg", []Rest{Derived, CommonPractice}},
	{"head_neck_ratio", []Rest{Derived, FromMemory}},
	{"margin", []Rest{Derived}},
	{"clearance", []Rest{Derived}},
	{"rim_clock", []Rest{OwnChoice}},
	{"escape", []Rest{Derived}},
	{"functional_cup", []Rest{Derived, Found}},
	{"jump_lateral", []Rest{Found, FromMemory}},
	{"jump_least", []Rest{Found, OwnChoice}},
	{"escape_jump", []Rest{Derived}},
	{"lever", []Rest{Derived}},
	{"patch_to_rim", []Rest{Found, FromMemory, OwnChoice}},
	{"total_arc", []Rest{FromMemory}},
	{"demanded", []Rest{Derived}},
	{"best_cup", []Rest{Derived}},
	{"motion_margin", []Rest{Derived, Found}},
	{"flank", []Rest{OwnChoice}},
	{"share", []Rest{Found, Derived}},
	{"first_to_fail", []Rest{Derived}},
	{"uncovered", []Rest{Derived}},
	{"slope", []Rest{Derived}},
	{"most", []Rest{Derived}},
	{"size_needed", []Rest{Derived}},
	{"zone", []Rest{Found, Found}},
	{"map_margin", []Rest{Derived}},
	{"map_share", []Rest{Derived}},
	{"envelope", []Rest{Derived}},
	{"thigh_globe", []Rest{Derived}},
	{"rim_clock_chart", []Rest{Derived}},
	{"margin_track", []Rest{Derived}},
	{"ratio_chart", []Rest{Derived}},
	{"arc_chart", []Rest{Derived}},
	{"difference", []Rest{Derived}},
}

// Cited is one thing a number rests on.
type Cited struct {
	Text string
	Rest Rest
}

// About is what there is to say of a number.
type About struct {
	Key, Name  string
	Definition string
	Formula    string // in the trade's notation, on one or more lines
	Sources    []Cited
	Limits     string // where it no longer holds
}

// About returns what there is to say of the number with that key.
func (w *Words) About(key string) About {
	a := About{
		Key: key, Name: w.word(aboutNameSection, key), Definition: w.word(aboutDefinitionSection, key),
		Formula: w.word(aboutFormulaSection, key), Limits: w.word(aboutLimitsSection, key),
	}
	i := slices.IndexFunc(Numbers, func(n Number) bool { return n.Key == key })
	for k, text := range strings.Split(w.word(aboutSourceSection, key), "\n") {
		c := Cited{Text: text, Rest: OwnChoice}
		if i >= 0 && k < len(Numbers[i].Rests) {
			c.Rest = Numbers[i].Rests[k]
		}
		a.Sources = append(a.Sources, c)
	}
	return a
}

// Cite returns one thing a number rests on with how firm it is.
func (w *Words) Cite(c Cited) string {
	return w.Phrase("about_source_line", "text", c.Text, "status", w.word(aboutStatusSection, restKeys[c.Rest]))
}

// kinds are the beginnings of keys of lines, and the number each kind is.
var kinds = []struct{ begins, number string }{
	{"orientation_", "functional_cup"},
	{"jump_lateral_", "jump_lateral"},
	{"jump_least_", "jump_least"},
	{"patch_", "patch_to_rim"},
	{"total_", "total_arc"},
	{"lever_", "lever"},
	{"first_", "first_to_fail"},
	{"slope_", "slope"},
	{"offered", "oscillation_deg"},
	{"best", "best_cup"},
	{"head_here", "size_needed"}, {"head_best", "size_needed"},
	{"neck_here", "size_needed"}, {"neck_best", "size_needed"},
}

// chartKinds are the same for charts.
var chartKinds = []struct{ begins, number string }{
	{"envelope_", "envelope"},
	{"thigh_globe", "thigh_globe"},
	{"rim_clock", "rim_clock_chart"},
	{"limit_rulers", "limit"},
	{"head_neck_ratio", "ratio_chart"},
	{"cup_arc", "arc_chart"},
}

// NumberOf returns the key of the number that a line shows, by the line's key;
// "" where there is none.
func NumberOf(line string) string {
	for _, k := range kinds {
		if strings.HasPrefix(line, k.begins) {
			return k.number
		}
	}
	if slices.ContainsFunc(Numbers, func(n Number) bool { return n.Key == line }) {
		return line
	}
	return ""
}

// NumberOfChart returns the key of the number that a chart is of, by the
// chart's key; "" where there is none.
func NumberOfChart(chart string) string {
	for _, k := range chartKinds {
		if strings.HasPrefix(chart, k.begins) {
			return k.number
		}
	}
	return ""
}
