package present

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"rimclear/assets"
	"rimclear/kinematics/unit"
)

var place = regexp.MustCompile(`\{[a-z_0-9]+\}`)

// severalLines are the words of which each line is something of its own.
func severalLines(id string) bool {
	return strings.HasPrefix(id, aboutSourceSection+".") || id == phraseSection+".window_keys"
}

// englishWords tell an English sentence from a formula, a reference to what was
// printed, or mere places, which read alike in every language.
var englishWords = regexp.MustCompile(`(?i)\b(the|of|and|is|are|it|to|by|with|from|for|at|on|no|not)\b`)

// untranslated returns how the words of a language differ from those of English
// otherwise than by their wording: words that are missing or too many, places
// to be filled that are not the same, lines that do not answer to each other,
// and sentences that were left in English.
func untranslated(english, other *Words) []string {
	var faults []string
	for section, words := range english.sections {
		for _, key := range slices.Sorted(maps.Keys(words)) {
			id, from := section+"."+key, words[key]
			to, ok := other.sections[section][key]
			switch {
			case !ok:
				faults = append(faults, id+" is missing")
			case !slices.Equal(places(from), places(to)):
				faults = append(faults, fmt.Sprintf("%s has the places %v, English has %v", id, places(to), places(from)))
			case severalLines(id) && strings.Count(from, "\n") != strings.Count(to, "\n"):
				faults = append(faults, id+" has another number of lines")
			case from == to && len(strings.Fields(from)) > 2 && englishWords.MatchString(place.ReplaceAllString(from, "")):
				faults = append(faults, id+" is still in English")
			}
		}
	}
	for section, words := range other.sections {
		for _, key := range slices.Sorted(maps.Keys(words)) {
			if _, ok := english.sections[section][key]; !ok {
				faults = append(faults, section+"."+key+" is not in English")
			}
		}
	}
	slices.Sort(faults)
	return faults
}

// places returns what is to be filled into a text, each once.
func places(text string) []string {
	list := place.FindAllString(text, -1)
	slices.Sort(list)
	return slices.Compact(list)
}

func TestEveryLanguageIsWhole(t *testing.T) {
	for _, tag := range assets.Languages() {
		if tag == "en" {
			continue
		}
		w, err := In(tag)
		if err != nil {
			t.Fatal(err)
		}
		for _, fault := range untranslated(English(), w) {
			t.Errorf("%s: %s", tag, fault)
		}
	}
}

func TestALanguageWritesItsOwnDecimalPoint(t *testing.T) {
	german, err := In("de")
	if err != nil {
		t.Fatal(err)
	}
	for w, want := range map[*Words][]string{
		English(): {"38.7°", "−0.5°", "0.0°", "12.25", "40", "+0.6"},
		german:    {"38,7°", "−0,5°", "0,0°", "12,25", "40", "+0,6"},
	} {
		got := []string{
			w.Degrees(38.7 * unit.Degree), w.Margin(-0.5 * unit.Degree), w.Margin(-0.01 * unit.Degree),
			w.Shortest(12.25, 3), w.Digits(40, 0), w.changed(0.6, 1),
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s writes %q, want %q", w.Language(), got, want)
		}
		if w.changed(0.01, 1) != "" {
			t.Errorf("%s calls nothing a change: %q", w.Language(), w.changed(0.01, 1))
		}
	}
}

// Words of number, such as lost_one and lost_many, come in pairs.
func TestPluralFormsAreWhole(t *testing.T) {
	for _, tag := range assets.Languages() {
		w, err := In(tag)
		if err != nil {
			t.Fatal(err)
		}
		pairs := 0
		for key := range w.sections[phraseSection] {
			if start, ok := strings.CutSuffix(key, "_many"); ok {
				pairs++
				_, one := w.sections[phraseSection][start+"_one"]
				_, alone := w.sections[phraseSection][start]
				if !one && !alone {
					t.Errorf("%s has %s and nothing for one", tag, key)
				}
			}
		}
		if pairs == 0 {
			t.Errorf("%s has no words of number", tag)
		}
	}
}

func TestAGapInALanguageIsFound(t *testing.T) {
	english := &Words{language: "en", sections: map[string]map[string]string{
		"phrase": {"a": "{count} of {all}", "b": "a sentence of five words", "window_keys": "x: y\nz: w", "c": "gone"}}}
	other := &Words{language: "xx", sections: map[string]map[string]string{
		"phrase": {"a": "{count} von {alle}", "b": "a sentence of five words", "window_keys": "x: y", "d": "too many"}}}
	want := []string{
		"phrase.a has the places [{alle} {count}], English has [{all} {count}]", "phrase.b is still in English",
		"phrase.c is missing", "phrase.d is not in English", "phrase.window_keys has another number of lines",
	}
	if got := untranslated(english, other); !slices.Equal(got, want) {
		t.Errorf("found %q, want %q", got, want)
	}
	if got := untranslated(English(), English()); slices.ContainsFunc(got, func(s string) bool { return !strings.HasSuffix(s, "still in English") }) {
		t.Errorf("English differs from itself: %q", got)
	}
}

func TestThePreferredLanguageIsTheFirstThatIsBuiltIn(t *testing.T) {
	for _, tags := range [][]string{{"", "C", "en_GB.UTF-8"}, {"xx-YY"}, {"POSIX"}, {}, {"en@euro"}} {
		if got := Preferred(tags...).Language(); got != "en" {
			t.Errorf("Preferred(%q) is %q, want English", tags, got)
		}
	}
	if list := Languages(); len(list) == 0 || !slices.Contains(list, Language{"en", "English"}) {
		t.Errorf("the languages are %v", list)
	}
}
