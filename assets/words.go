// Package assets holds what is built into the program beside its code.
package assets

import (
	"embed"
	"io/fs"
	"path"
	"slices"
	"strings"
)

//go:embed words/*.json
var words embed.FS

// Words returns the files of words in one language: LANGUAGE.json and every
// LANGUAGE.PART.json beside it, in the order of their names. There are none for
// a language that is not built in.
func Words(language string) [][]byte {
	var files [][]byte
	for _, name := range wordFiles() {
		if tag, _, _ := strings.Cut(name, "."); tag == language {
			data, err := words.ReadFile(path.Join("words", name))
			if err != nil {
				panic(err) // it was listed from the same embedded folder
			}
			files = append(files, data)
		}
	}
	return files
}

// Languages returns the tags of the languages built in, sorted.
func Languages() []string {
	var tags []string
	for _, name := range wordFiles() {
		tag, _, _ := strings.Cut(name, ".")
		tags = append(tags, tag)
	}
	slices.Sort(tags)
	return slices.Compact(tags)
}

func wordFiles() []string {
	names, err := fs.Glob(words, "words/*.json")
	if err != nil {
		panic(err) // the pattern is well formed
	}
	for i, name := range names {
		names[i] = path.Base(name)
	}
	return names
}
