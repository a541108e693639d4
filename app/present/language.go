package present

import (
	"strings"

	"rimclear/assets"
)

// languageSection holds the "name" of the language in itself, and the "point"
// between a whole number and its decimals.
const languageSection = "language"

// Language is one of those built in.
type Language struct {
	Tag  string // "en"
	Name string // in itself: "English"
}

// Languages returns the languages built in, by their tags.
func Languages() []Language {
	var list []Language
	for _, tag := range assets.Languages() {
		if w, err := In(tag); err == nil {
			list = append(list, Language{tag, w.word(languageSection, "name")})
		}
	}
	return list
}

// Preferred returns the words of the first of some tags that is built in, or
// else English. A locale such as "de_AT.UTF-8" is a tag; "C", "POSIX" and ""
// are passed over.
func Preferred(tags ...string) *Words {
	for _, tag := range tags {
		tag, _, _ = strings.Cut(tag, ".")
		tag, _, _ = strings.Cut(tag, "@")
		if w, err := In(tag); tag != "" && err == nil {
			return w
		}
	}
	return English()
}
