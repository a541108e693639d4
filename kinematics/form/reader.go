package form

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Reader takes values out of a tree and collects what is wrong with them; a
// value that is wrong is read as zero.
type Reader struct{ Problems Problems }

// Wrong notes that a value is not what it must be.
func (r *Reader) Wrong(v Value, must string) {
	r.Problems = append(r.Problems, Problem{Line: v.Line, Place: v.Place, Value: v.Show(), Must: must})
}

func (r *Reader) is(v Value, k Kind) bool {
	if v.Kind != k {
		r.Wrong(v, "must be "+kindNames[k])
	}
	return v.Kind == k
}

// Fields is an object whose keys are known.
type Fields struct {
	Value
	r *Reader
}

// Fields returns an object's fields. Keys that stand twice or that are not
// among the allowed are noted; of two, the first counts.
func (r *Reader) Fields(v Value, allowed ...string) Fields {
	if !r.is(v, Object) {
		return Fields{v, r}
	}
	for i, m := range v.Members {
		switch {
		case !slices.Contains(allowed, m.Key):
			r.Problems = append(r.Problems, Problem{Line: m.Value.Line, Place: m.Value.Place,
				Must: "no such field; there are " + strings.Join(allowed, ", ")})
		case slices.ContainsFunc(v.Members[:i], func(b Member) bool { return b.Key == m.Key }):
			r.Problems = append(r.Problems, Problem{Line: m.Value.Line, Place: m.Value.Place, Must: "stands twice; it must stand once"})
		}
	}
	return Fields{v, r}
}

// Find returns the value under a key and whether there is one.
func (f Fields) Find(key string) (Value, bool) {
	for _, m := range f.Members {
		if m.Key == key {
			return m.Value, true
		}
	}
	return Value{}, false
}

// Has reports whether there is a value under a key.
func (f Fields) Has(key string) bool {
	_, ok := f.Find(key)
	return ok
}

// Need returns the value under a key, and notes that it is missing.
func (f Fields) Need(key string) (Value, bool) {
	v, ok := f.Find(key)
	if !ok && f.Kind == Object {
		f.r.Problems = append(f.r.Problems, Problem{Line: f.Line, Place: join(f.Place, key), Must: "is missing"})
	}
	return v, ok
}

// Key returns a needed text of small letters, digits and low lines.
func (f Fields) Key(key string) string {
	v, ok := f.Need(key)
	if !ok || !f.r.is(v, Text) {
		return ""
	}
	plain := func(c rune) bool { return c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '_' }
	if v.text == "" || len(v.text) > 60 || strings.ContainsFunc(v.text, func(c rune) bool { return !plain(c) }) {
		f.r.Wrong(v, "must be 1 to 60 of the characters a to z, 0 to 9 and _")
		return ""
	}
	return v.text
}

// OneLine returns the text under a key, on one line of at most most characters;
// "" where there is none.
func (f Fields) OneLine(key string, most int) string {
	v, ok := f.Find(key)
	if !ok || !f.r.is(v, Text) {
		return ""
	}
	switch {
	case utf8.RuneCountInString(v.text) > most:
		f.r.Wrong(v, fmt.Sprintf("must have at most %d characters", most))
	case strings.ContainsFunc(v.text, unicode.IsControl):
		f.r.Wrong(v, "must stand on one line, without control characters")
	default:
		return v.text
	}
	return ""
}

// Number returns a value as a number from lo to hi.
func (r *Reader) Number(v Value, lo, hi float64) float64 {
	if !r.is(v, Number) {
		return 0
	}
	if !(v.number >= lo && v.number <= hi) {
		r.Wrong(v, "must be from "+digits(lo)+" to "+digits(hi))
		return 0
	}
	return v.number
}

func digits(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// Word returns which of the words a value is, -1 if none.
func (r *Reader) Word(v Value, words []string) int {
	if !r.is(v, Text) {
		return -1
	}
	i := slices.Index(words, v.text)
	if i < 0 {
		r.Wrong(v, "must be one of "+strings.Join(words, ", "))
	}
	return i
}

// Word returns which of the words stands under a key; otherwise where there is
// none.
func (f Fields) Word(key string, words []string, otherwise int) int {
	v, ok := f.Find(key)
	if !ok {
		return otherwise
	}
	return f.r.Word(v, words)
}

// True returns the truth under a key, false where there is none.
func (f Fields) True(key string) bool {
	v, ok := f.Find(key)
	return ok && f.r.is(v, Truth) && v.truth
}

// List returns the items of the list under a key, of at least least and at
// most most; none where there is no such key.
func (f Fields) List(key string, least, most int) []Value {
	v, ok := f.Find(key)
	if !ok {
		return nil
	}
	return f.r.List(v, least, most)
}

// List returns the items of a list, of at least least and at most most.
func (r *Reader) List(v Value, least, most int) []Value {
	if !r.is(v, List) {
		return nil
	}
	if len(v.Items) < least || len(v.Items) > most {
		r.Problems = append(r.Problems, Problem{Line: v.Line, Place: v.Place, Value: strconv.Itoa(len(v.Items)),
			Must: fmt.Sprintf("must hold %d to %d", least, most)})
		return nil
	}
	return v.Items
}

// IsFormat checks the two fields by which a file says what it is; nothing else
// need be read if they are wrong.
func (f Fields) IsFormat(format string, version int) bool {
	if f.Kind != Object {
		return false
	}
	v, ok := f.Find("format")
	if !ok || v.Kind != Text || v.text != format {
		f.r.Problems = append(f.r.Problems, Problem{Line: max(f.Line, v.Line), Place: "format", Must: strconv.Quote(format) + " must stand here"})
		return false
	}
	v, ok = f.Need("version")
	if ok && (v.Kind != Number || v.number != float64(version)) {
		f.r.Wrong(v, fmt.Sprintf("must be %d", version))
		return false
	}
	return ok
}
