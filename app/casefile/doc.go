// Package casefile reads and writes a case as a JSON file.
//
// The file is one object: "format" and "version" first, then the case's label
// and values with "motions", a list of keys, and "criteria", a key, then
// "recordings", the motions read from elsewhere, and "weighing", what the user
// answered to questions that geometry does not decide, then "designs", a list
// of one to four objects. Every value stands under its parameter's key, which
// carries its unit (see kinematics.Parameters); a choice is written by its own
// key, such as "left". A value that is left out has its default. Fields that
// this version does not know are kept and written back. The whole is described
// by a JSON Schema (Schema), which assets holds.
//
// A file of an earlier version is read through one step per version (see
// migrations); a later one is refused.
//
// Nothing is read in part: a file is read whole or refused with everything that
// is wrong with it, by line and field.
package casefile

import (
	"bytes"
	"errors"
	"io"
	"maps"
	"slices"

	"rimclear/app/store"
	"rimclear/kinematics"
)

// Format and Version are what the files say they are.
const (
	Format  = "rimclear-case"
	Version = 2
)

// Bounds of a file.
const (
	MaxBytes = 16 << 20
	MaxLabel = 200 // characters of the case's label
	MaxName  = 80  // characters of a design's name
)

// Extension is how the files' names end.
const Extension = ".rimclear.json"

// ErrNewer is the cause when a file was written by a later version.
var ErrNewer = errors.New("written by a later version of this program")

// File is a case as it is kept: the case, what the user wrote beside it, and the
// fields of its file that this version does not know, in their order. It is a
// value: whoever changes a map or a list in it changes a copy.
type File struct {
	Case         kinematics.Case
	Weighing     Weighing
	Recordings   []Recording
	Others       []Member
	DesignOthers [kinematics.MaxDesigns][]Member // by index; they follow their design
}

// Read reads a case from r. The error is Problems where the contents are at
// fault; errors.Is finds ErrNewer and store.ErrTooLarge.
func Read(r io.Reader) (File, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return File{}, err
	}
	if len(data) > MaxBytes {
		return File{}, store.ErrTooLarge
	}
	return Decode(data)
}

// Open reads the case at path. An error that is not about the contents is a
// *store.Fault.
func Open(path string) (File, error) {
	data, err := store.Read(path, MaxBytes)
	if err != nil {
		return File{}, err
	}
	return Decode(data)
}

// Save writes the case whole or leaves what is at path as it was. A case that
// could not be read again is refused with Problems.
func Save(path string, f File) error {
	data, err := Encode(f)
	if err != nil {
		return err
	}
	return store.Write(path, data)
}

// Same reports whether two files hold the same.
func (f File) Same(o File) bool {
	for i := range f.DesignOthers {
		if !slices.EqualFunc(f.DesignOthers[i], o.DesignOthers[i], sameMember) {
			return false
		}
	}
	return f.Case == o.Case && maps.Equal(f.Weighing, o.Weighing) && slices.EqualFunc(f.Others, o.Others, sameMember) &&
		slices.EqualFunc(f.Recordings, o.Recordings, Recording.Same)
}

func sameMember(a, b Member) bool { return a.Key == b.Key && bytes.Equal(a.Value, b.Value) }

// Unknown returns the names of the fields that this version does not know, as
// "designs[1].bearing".
func (f File) Unknown() []string {
	var names []string
	for _, m := range f.Others {
		names = append(names, m.Key)
	}
	for i, r := range f.Recordings {
		for _, m := range r.Others {
			names = append(names, recordingField(i)+"."+m.Key)
		}
	}
	for i, list := range f.DesignOthers {
		for _, m := range list {
			names = append(names, designField(i, m.Key))
		}
	}
	return names
}
