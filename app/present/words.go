// Package present turns answers into what a reader meets: words in the user's
// language, digits with their unit, rows of tables, sentences. It draws nothing
// and decides nothing.
package present

import (
	"encoding/json"
	"fmt"
	"strings"
	"sync"

	"rimclear/assets"
	"rimclear/kinematics"
)

// Words are the words of one language, found by section and key. They are
// read-only once made.
type Words struct {
	language string
	sections map[string]map[string]string
}

// Sections of a file of words.
const (
	nameSection      = "name"      // of a parameter, by its key
	helpSection      = "help"      // one sentence on a parameter, by its key
	unitSection      = "unit"      // written after a number, with its space
	choiceSection    = "choice"    // by parameter key, a point, and the choice's key
	groupSection     = "group"     // of parameters
	questionSection  = "question"  // by its key
	movementSection  = "movement"  // one of the six, inside a sentence
	statusSection    = "status"    // how a motion ends
	reasonSection    = "reason"    // what is wrong with a value
	sourceSection    = "source"    // where a range or a value comes from
	directionSection = "direction" // of the body
	phraseSection    = "phrase"    // everything else
)

// In returns the words of a language by its tag, such as "en". Region and
// script are passed over: "en-GB" finds "en".
func In(language string) (*Words, error) {
	tag, _, _ := strings.Cut(strings.ReplaceAll(language, "_", "-"), "-")
	tag = strings.ToLower(tag)
	files := assets.Words(tag)
	if len(files) == 0 {
		return nil, fmt.Errorf("no words in language %q; there are %s", language, strings.Join(assets.Languages(), ", "))
	}
	w := &Words{language: tag, sections: map[string]map[string]string{}}
	for _, data := range files {
		var part map[string]map[string]string
		if err := json.Unmarshal(data, &part); err != nil {
			return nil, fmt.Errorf("words in %s: %w", tag, err)
		}
		for section, words := range part {
			if err := w.add(section, words); err != nil {
				return nil, err
			}
		}
	}
	return w, nil
}

func (w *Words) add(section string, words map[string]string) error {
	if w.sections[section] == nil {
		w.sections[section] = map[string]string{}
	}
	for key, word := range words {
		if _, twice := w.sections[section][key]; twice {
			return fmt.Errorf("words in %s: %s.%s stands twice", w.language, section, key)
		}
		w.sections[section][key] = word
	}
	return nil
}

// English returns the English words, which are always built in.
var English = sync.OnceValue(func() *Words {
	w, err := In("en")
	if err != nil {
		panic(err) // a test reads the same files
	}
	return w
})

// Language returns the language's tag.
func (w *Words) Language() string { return w.language }

// word returns a word, or its section and key in brackets where the language
// lacks it, so that a gap shows and nothing breaks.
func (w *Words) word(section, key string) string {
	if word, ok := w.sections[section][key]; ok {
		return word
	}
	return "[" + section + "." + key + "]"
}

// Phrase returns the phrase under key with its {places} filled: parts are
// pairs of a place's name and what stands there.
func (w *Words) Phrase(key string, parts ...string) string {
	return fill(w.word(phraseSection, key), parts...)
}

func fill(pattern string, parts ...string) string {
	pairs := make([]string, len(parts))
	for i := 0; i+1 < len(parts); i += 2 {
		pairs[i], pairs[i+1] = "{"+parts[i]+"}", parts[i+1]
	}
	return strings.NewReplacer(pairs[:len(parts)/2*2]...).Replace(pattern)
}

// Name returns the name of the parameter with that key.
func (w *Words) Name(key string) string { return w.word(nameSection, key) }

// Help returns one sentence on what the parameter with that key means.
func (w *Words) Help(key string) string { return w.word(helpSection, key) }

// Unit returns a unit as it is written after a number, with its space.
func (w *Words) Unit(u kinematics.Unit) string {
	switch u {
	case kinematics.Millimetre:
		return w.word(unitSection, "mm")
	case kinematics.Degrees:
		return w.word(unitSection, "deg")
	}
	return ""
}

// Choice returns the words of one choice of a parameter, both by key.
func (w *Words) Choice(parameter, choice string) string {
	return w.word(choiceSection, parameter+"."+choice)
}

// Choices returns the words of all choices of a parameter, in their order.
func (w *Words) Choices(p *kinematics.Parameter) []string {
	list := make([]string, len(p.Choices))
	for i, c := range p.Choices {
		list[i] = w.Choice(p.Key, c)
	}
	return list
}

// groupKeys are the keys of the groups in their order.
var groupKeys = [kinematics.GroupCount]string{"bearing", "rim", "neck", "cup", "stem", "hip", "posture", "goal"}

// Group returns the title of a group of parameters.
func (w *Words) Group(g kinematics.Group) string { return w.word(groupSection, groupKeys[g]) }

// Source returns the words on where a range or a published value comes from.
func (w *Words) Source(key string) string {
	if key == "" {
		return ""
	}
	return w.word(sourceSection, key)
}

// Caution returns what every window, table, report and file of answers says of
// the model.
func (w *Words) Caution() string { return w.Phrase("caution") }

// Side returns "right hip" or "left hip".
func (w *Words) Side(c *kinematics.Case) string {
	side := kinematics.ParameterByKey("side")
	return w.Phrase("hip", "side", w.Choice(side.Key, side.Choices[int(side.Get(c, 0))]))
}

// DesignName returns the name of the i-th design, or its letter where it has
// none.
func (w *Words) DesignName(c *kinematics.Case, i int) string {
	if name := c.Designs[i].Name; name != "" {
		return name
	}
	return w.Phrase("unnamed", "letter", Letter(i))
}

// Letter returns the letter by which the i-th design is known, from A.
func Letter(i int) string { return string(rune('A' + i)) }
