package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"rimclear/app/casefile"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/form"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
)

// fileKind is what a file is, "" where that cannot be told.
type fileKind string

const (
	caseFile      fileKind = "case"
	libraryFile   fileKind = "library"
	bearingsFile  fileKind = "bearings"
	recordingFile fileKind = "recording"
)

// formats are the kinds of JSON files by what they say they are.
var formats = map[string]fileKind{
	casefile.Format: caseFile, motion.LibraryFormat: libraryFile, kinematics.CatalogueFormat: bearingsFile,
}

// examine finds out what a file is and what is wrong with it.
func (f *checkedFile) examine(data []byte) {
	start := bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")), " \t\r\n")
	switch {
	case len(start) == 0:
		f.problems = []finding{{Must: "is empty: must be a case, a library, a catalogue of bearings or a recording"}}
		return
	case start[0] != '{' && start[0] != '[':
		f.kind = recordingFile
		f.take(checkRecording(data))
		return
	}
	var said struct{ Format any }
	// Of a file that is no JSON the reader of cases says where.
	json.NewDecoder(bytes.NewReader(start)).Decode(&said)
	format, isText := said.Format.(string)
	f.kind = formats[format]
	switch f.kind {
	case libraryFile:
		_, err := motion.Read(bytes.NewReader(data))
		f.take(err)
	case bearingsFile:
		_, err := kinematics.ReadCatalogue(bytes.NewReader(data))
		f.take(err)
	case caseFile:
		f.checkCase(data)
	default:
		if isText {
			f.problems = []finding{{lineOf(data, "format"), "format", fmt.Sprintf("%q", shortened(format)),
				fmt.Sprintf("must be %q, %q or %q", casefile.Format, motion.LibraryFormat, kinematics.CatalogueFormat)}}
			return
		}
		f.checkCase(data)
	}
}

// take notes the problems that an error holds.
func (f *checkedFile) take(err error) {
	var ofCase casefile.Problems
	var ofForm form.Problems
	switch {
	case err == nil:
	case errors.As(err, &ofCase):
		for _, p := range ofCase {
			f.problems = append(f.problems, finding{p.Line, p.Field, p.Value, p.Must})
		}
	case errors.As(err, &ofForm):
		for _, p := range ofForm {
			f.problems = append(f.problems, finding{p.Line, p.Place, p.Value, p.Must})
		}
	default:
		f.problems = append(f.problems, finding{Must: err.Error()})
	}
}

// checkCase checks a case, its unknown fields, and the motions it names.
func (f *checkedFile) checkCase(data []byte) {
	file, err := casefile.Read(bytes.NewReader(data))
	f.take(err)
	if err != nil {
		if f.kind == caseFile && f.compares() {
			f.notes = append(f.notes, finding{Must: "values are held against each other only when each of them is in range: mend these, and check again"})
		}
		return
	}
	for _, field := range file.Unknown() {
		key := field[strings.LastIndex(field, ".")+1:]
		f.notes = append(f.notes, finding{lineOf(data, field), field, "", "is not known to this version and has no effect" + didYouMean(key, parameterKeys())})
	}
	f.notes = append(f.notes, unknownMotions(data, file)...)
	for _, w := range kinematics.Warnings(&file.Case) {
		field := w.Key
		if w.Design >= 0 {
			field = fmt.Sprintf("designs[%d].%s", w.Design, w.Key)
		}
		f.notes = append(f.notes, finding{lineOf(data, field), field, "", present.English().FaultText(w)})
	}
}

// unknownMotions are the motions and criteria of a case of which nothing is
// known here; a library of the user's own may have them.
func unknownMotions(data []byte, file casefile.File) (list []finding) {
	l := session.BuiltIn()
	var named struct{ Motions []string }
	json.Unmarshal(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")), &named) // it was read before
	for i, key := range named.Motions {
		if _, ok := l.Activity(key); !ok && file.Recording(key) < 0 {
			field := fmt.Sprintf("motions[%d]", i)
			list = append(list, finding{lineOf(data, field), field, fmt.Sprintf("%q", key),
				"is no motion built in or recorded here" + didYouMean(key, activityKeys(l))})
		}
	}
	if key := file.Case.Goal.Criteria; key != "" {
		if _, ok := l.Set(key); !ok {
			list = append(list, finding{lineOf(data, "criteria"), "criteria", fmt.Sprintf("%q", key),
				"is no set of criteria built in; there are " + strings.Join(setKeys(l), ", ")})
		}
	}
	return list
}

// compares reports whether problems kept values from being held against each
// other.
func (f *checkedFile) compares() bool {
	return slices.ContainsFunc(f.problems, func(p finding) bool { return p.Field != "" && p.Field != "format" && p.Field != "version" })
}

func parameterKeys() []string {
	keys := []string{"label", "motions", "criteria", "recordings", "designs", "name"}
	for _, p := range kinematics.Parameters {
		keys = append(keys, p.Key)
	}
	return keys
}

// checkRecording checks a table as a recording of the side its headings name
// first. What its headings do not say is a problem.
func checkRecording(data []byte) error {
	table, err := motion.ReadTable(bytes.NewReader(data))
	if err != nil {
		return err
	}
	side := hip.Right
	if sides := table.Sides(); len(sides) > 0 {
		side = sides[0]
	}
	_, err = readRecording(bytes.NewReader(data), "", side)
	return err
}

// tree reads a file as a tree that knows its lines; nothing where it is none.
func tree(data []byte) form.Value {
	v, err := form.Read(bytes.NewReader(data), math.MaxInt32)
	if err != nil {
		return form.Value{}
	}
	return v
}

// at returns the value at a field such as "designs[1].wall_mm".
func at(v form.Value, field string) form.Value {
	for _, m := range v.Members {
		rest, ok := strings.CutPrefix(field, m.Key)
		switch {
		case !ok:
		case rest == "":
			return m.Value
		case rest[0] == '.':
			return at(m.Value, rest[1:])
		case rest[0] == '[':
			var i int
			if n, _ := fmt.Sscanf(rest, "[%d]", &i); n == 1 && i >= 0 && i < len(m.Value.Items) {
				_, rest, _ = strings.Cut(rest, "]")
				if rest == "" {
					return m.Value.Items[i]
				}
				return at(m.Value.Items[i], rest[1:])
			}
		}
	}
	return form.Value{}
}

// lineOf returns the line of a field, 0 where it is on none.
func lineOf(data []byte, field string) int { return at(tree(data), field).Line }
