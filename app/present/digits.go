package present

import (
	"math"
	"strconv"
	"strings"

	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

// Digits returns a number with so many decimals. A value that rounds to zero
// has no sign.
func Digits(x float64, decimals int) string {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if s[0] == '-' && allZero(s[1:]) {
		return s[1:]
	}
	return s
}

func allZero(s string) bool {
	for _, r := range s {
		if r != '0' && r != '.' && r != ',' {
			return false
		}
	}
	return true
}

// minus returns the text of a number with a true minus sign.
func minus(s string) string {
	if s[0] == '-' {
		return "−" + s[1:]
	}
	return s
}

// signed returns a change with its sign; what rounds to zero has none.
func (w *Words) signed(x float64, decimals int) string {
	s := w.Digits(x, decimals)
	if s[0] == '-' || allZero(s) {
		return minus(s)
	}
	return "+" + s
}

// changed is signed, but "" where it rounds to zero.
func (w *Words) changed(x float64, decimals int) string {
	if s := w.signed(x, decimals); !allZero(s) {
		return s
	}
	return ""
}

// Shortest returns a number with as many decimals as it needs, at most so many.
func Shortest(x float64, decimals int) string {
	scale := math.Pow10(decimals)
	if r := math.Round(x*scale) / scale; !math.IsNaN(r) && !math.IsInf(r, 0) {
		x = r + 0 // no negative zero
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// Digits returns a number with so many decimals as the language writes it. What
// a program is to read again is written by the function of that name.
func (w *Words) Digits(x float64, decimals int) string { return w.pointed(Digits(x, decimals)) }

// Shortest returns a number with as many decimals as it needs, at most so many,
// as the language writes it.
func (w *Words) Shortest(x float64, decimals int) string { return w.pointed(Shortest(x, decimals)) }

// Point returns what the language writes between a whole number and its
// decimals.
func (w *Words) Point() string { return w.word(languageSection, "point") }

// pointed puts the language's point into a number.
func (w *Words) pointed(number string) string { return strings.Replace(number, ".", w.Point(), 1) }

// Degrees returns an angle with one decimal and its unit, as tables have it.
func (w *Words) Degrees(a unit.Angle) string {
	return w.Digits(a.Degrees(), 1) + w.Unit(kinematics.Degrees)
}

// Millimetres returns a length with one decimal and its unit.
func (w *Words) Millimetres(x float64) string {
	return w.Digits(x, 1) + w.Unit(kinematics.Millimetre)
}

// Value returns a parameter's value with its unit, or the words of its choice.
func (w *Words) Value(p *kinematics.Parameter, v float64) string {
	if p.Kind == kinematics.Choice {
		if i := int(v); v == math.Trunc(v) && i >= 0 && i < len(p.Choices) {
			return w.Choice(p.Key, p.Choices[i])
		}
	}
	return w.Shortest(v, 5) + w.Unit(p.Unit)
}

// Range returns what values a parameter takes.
func (w *Words) Range(p *kinematics.Parameter) string {
	if p.Kind == kinematics.Choice {
		return w.list(w.Choices(p))
	}
	phrase := "range"
	if p.Optional {
		phrase = "range_optional"
	}
	return w.Phrase(phrase, "min", w.Value(p, p.Min), "max", w.Value(p, p.Max))
}

// RangeSource returns the words on where a parameter's range comes from, ""
// for a choice, which has none.
func (w *Words) RangeSource(p *kinematics.Parameter) string { return w.Source(p.Source) }

// list joins words with commas.
func (w *Words) list(words []string) string {
	if len(words) < 2 {
		return join(words)
	}
	return w.Phrase("list", "first", words[0], "rest", w.list(words[1:]))
}

func join(words []string) string {
	if len(words) == 0 {
		return ""
	}
	return words[0]
}
