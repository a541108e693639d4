package assets

import (
	"embed"
	"io/fs"
	"path"
	"strings"
)

//go:embed cases/*.json
var cases embed.FS

// Sample is a case built in, as the contents of a case file. Its values are
// typical sizes of common practice; no patient, hospital, maker or brand is
// behind them.
type Sample struct {
	Name string // the file's name without its ending
	Data []byte
}

// Cases returns the samples in the order of their names.
func Cases() []Sample {
	names, err := fs.Glob(cases, "cases/*.json")
	if err != nil {
		panic(err) // the pattern is well formed
	}
	samples := make([]Sample, len(names))
	for i, name := range names {
		data, err := cases.ReadFile(name)
		if err != nil {
			panic(err) // it was listed from the same embedded folder
		}
		samples[i] = Sample{Name: strings.TrimSuffix(path.Base(name), ".json"), Data: data}
	}
	return samples
}

// Demo returns the sample with which the program starts.
func Demo() Sample { return Cases()[0] }
