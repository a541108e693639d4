package assets

import (
	"embed"
	"io/fs"
)

//go:embed activities/*.json
var activities embed.FS

// Activities returns the built-in files of activities and criteria sets, in
// the order of their names; together they make one library. Every value in
// them says what it rests on.
func Activities() [][]byte { return contents(activities, "activities/*.json") }

// contents returns the files of an embedded folder in the order of their names.
func contents(folder embed.FS, pattern string) [][]byte {
	names, err := fs.Glob(folder, pattern)
	if err != nil {
		panic(err) // the pattern is well formed
	}
	files := make([][]byte, len(names))
	for i, name := range names {
		if files[i], err = folder.ReadFile(name); err != nil {
			panic(err) // it was listed from the same embedded folder
		}
	}
	return files
}
