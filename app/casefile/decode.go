package casefile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"unicode"
	"unicode/utf8"

	"rimclear/kinematics"
)

// Decode reads a case from the contents of a file.
func Decode(data []byte) (File, error) {
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return File{}, Problems{{Line: 1, Must: "must be text in UTF-8; it is in UTF-16, which some editors call Unicode: save it as UTF-8"}}
	}
	if !utf8.Valid(data) {
		return File{}, Problems{{Line: firstInvalid(data), Must: "must be text in UTF-8"}}
	}
	d, at, err := parse(data)
	if err != nil {
		return File{}, err
	}
	r := reader{doc: d, lines: map[string]int{}}
	r.read(at)
	if len(r.problems) > 0 {
		return File{}, r.problems
	}
	return r.file, nil
}

func firstInvalid(data []byte) int {
	for at := 0; at < len(data); {
		r, size := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && size == 1 {
			return document(data).line(at)
		}
		at += size
	}
	return 0
}

// reader builds a file and collects what is wrong on the way.
type reader struct {
	doc      document
	file     File
	problems Problems
	lines    map[string]int // of the fields read
}

// mostProblems is how many problems of one file are said: nobody reads more, and
// a file made to have millions must not take forever.
const mostProblems = 100

func (r *reader) wrong(at int, field, value, must string) {
	switch n := len(r.problems); {
	case n > mostProblems:
		return
	case n == mostProblems:
		r.problems = append(r.problems, Problem{Must: "there is more that is wrong"})
		return
	}
	r.problems = append(r.problems, Problem{Line: r.doc.line(at), Field: field, Value: value, Must: must})
}

func (r *reader) read(at int) {
	list, ok := r.doc.members(at)
	if !ok {
		r.wrong(at, "", "", `must be an object, from "{" to "}"`)
		return
	}
	top := r.fields("", list)
	version, ok := r.isOurs(at, top)
	if !ok {
		return
	}
	list = migrated(list, version)
	top = index(list)
	r.file.Case.Count = 1
	r.text(top, "", "label", MaxLabel, &r.file.Case.Label)
	r.values(top, kinematics.OfCase, -1)
	r.goal(top)
	r.recordings(top)
	r.weighing(top)
	r.designs(at, top)
	r.file.Others = r.others(list, kinematics.OfCase, topFields...)
	r.relations()
}

// fields indexes an object by key and reports keys that stand twice.
func (r *reader) fields(prefix string, list []Member) map[string]Member {
	seen := map[string]bool{}
	for _, m := range list {
		if seen[m.Key] {
			r.wrong(m.at, prefix+quoted([]byte(m.Key)), "", "stands twice; it must stand once")
		}
		seen[m.Key] = true
	}
	return index(list)
}

// index finds the first field of each key.
func index(list []Member) map[string]Member {
	byKey := make(map[string]Member, len(list))
	for _, m := range list {
		if _, twice := byKey[m.Key]; !twice {
			byKey[m.Key] = m
		}
	}
	return byKey
}

// topFields are the fields of a file that are not values of parameters.
var topFields = []string{"format", "version", "label", motionsField, criteriaField, recordingsField, weighingField, "designs"}

// isOurs checks format and version, which it returns; without them nothing else
// is read.
func (r *reader) isOurs(at int, top map[string]Member) (version int, ok bool) {
	m, ok := top["format"]
	if format, isText := textOf(m.Value); !ok || !isText || format != Format {
		r.wrong(max(at, m.at), "format", quoted(m.Value), strconv.Quote(Format)+" must stand here")
		return 0, false
	}
	m, ok = top["version"]
	number, isNumber := numberOf(m.Value)
	switch {
	case !ok || !isNumber || number != float64(int64(number)) || number < 1:
		r.wrong(max(at, m.at), "version", quoted(m.Value), fmt.Sprintf("must be a whole number from 1 to %d", Version))
		return 0, false
	case number > Version:
		r.problems = append(r.problems, Problem{
			Line: r.doc.line(m.at), Field: "version", Value: quoted(m.Value), Err: ErrNewer,
			Must: fmt.Sprintf("%v, which reads up to version %d; a later one is needed", ErrNewer, Version),
		})
		return 0, false
	}
	return int(number), true
}

func (r *reader) text(fields map[string]Member, prefix, key string, most int, to *string) {
	m, ok := fields[key]
	if !ok {
		return
	}
	s, isText := textOf(m.Value)
	switch {
	case !isText:
		r.wrong(m.at, prefix+key, quoted(m.Value), "must be text in quotation marks")
	case utf8.RuneCountInString(s) > most:
		r.wrong(m.at, prefix+key, quoted(m.Value), fmt.Sprintf("must have at most %d characters", most))
	case !printable(s):
		r.wrong(m.at, prefix+key, quoted(m.Value), "must have no control characters, on one line")
	default:
		*to = s
	}
}

func printable(s string) bool {
	for _, c := range s {
		if unicode.IsControl(c) {
			return false
		}
	}
	return true
}

// values sets every parameter of a scope, in the table's order, to the file's
// value or its default. Design -1 is the case itself.
func (r *reader) values(fields map[string]Member, scope kinematics.Scope, design int) {
	prefix := ""
	if design >= 0 {
		prefix = designField(design, "")
	}
	for k := range kinematics.Parameters {
		p := &kinematics.Parameters[k]
		if p.Scope != scope {
			continue
		}
		if m, ok := fields[p.Key]; ok && p.Derived {
			r.wrong(m.at, prefix+p.Key, quoted(m.Value), "must be left out: it follows from other values")
		}
		if p.Derived {
			continue
		}
		v := p.Default
		if m, ok := fields[p.Key]; ok {
			r.lines[prefix+p.Key] = m.at
			got, valid := valueOf(p, m.Value)
			if !valid {
				r.wrong(m.at, prefix+p.Key, quoted(m.Value), allowed(p))
				continue
			}
			v = got
		}
		r.file.Case = p.Set(r.file.Case, max(design, 0), v)
	}
}

// valueOf reads a parameter's value: a number in range, or a choice's key.
func valueOf(p *kinematics.Parameter, raw json.RawMessage) (float64, bool) {
	if p.Kind == kinematics.Choice {
		word, ok := textOf(raw)
		for i, key := range p.Choices {
			if ok && key == word {
				return float64(i), true
			}
		}
		return 0, false
	}
	v, ok := numberOf(raw)
	return v, ok && p.Check(v) == nil
}

func textOf(raw json.RawMessage) (string, bool) {
	var s string
	return s, len(raw) > 0 && raw[0] == '"' && json.Unmarshal(raw, &s) == nil
}

func numberOf(raw json.RawMessage) (float64, bool) {
	if len(raw) == 0 || raw[0] != '-' && (raw[0] < '0' || raw[0] > '9') {
		return 0, false
	}
	v, err := strconv.ParseFloat(string(raw), 64)
	return v + 0, err == nil
}

func (r *reader) designs(at int, top map[string]Member) {
	m, ok := top["designs"]
	starts, isList := r.doc.elements(m.at, kinematics.MaxDesigns)
	if !ok || !isList || len(starts) < 1 || len(starts) > kinematics.MaxDesigns {
		value := ""
		if isList && ok {
			value = fmt.Sprintf("%d designs", len(starts))
		}
		r.wrong(max(at, m.at), "designs", value, fmt.Sprintf("must be a list of 1 to %d designs", kinematics.MaxDesigns))
		return
	}
	r.file.Case.Count = len(starts)
	for i := range kinematics.MaxDesigns {
		if i >= len(starts) {
			r.values(nil, kinematics.OfDesign, i)
			continue
		}
		r.design(i, starts[i])
	}
}

func (r *reader) design(i, at int) {
	list, ok := r.doc.members(at)
	if !ok {
		r.wrong(at, fmt.Sprintf("designs[%d]", i), quoted(r.doc.value(at)), `must be an object, from "{" to "}"`)
		return
	}
	fields := r.fields(designField(i, ""), list)
	r.text(fields, designField(i, ""), "name", MaxName, &r.file.Case.Designs[i].Name)
	r.values(fields, kinematics.OfDesign, i)
	r.file.DesignOthers[i] = r.others(list, kinematics.OfDesign, "name")
	r.lines[designField(i, "")] = at
}

// others returns the fields that are neither named nor parameters of a scope.
func (r *reader) others(list []Member, scope kinematics.Scope, named ...string) []Member {
	known := map[string]bool{}
	for _, key := range named {
		known[key] = true
	}
	for _, p := range kinematics.Parameters {
		known[p.Key] = known[p.Key] || p.Scope == scope
	}
	var others []Member
	for _, m := range list {
		if !known[m.Key] {
			m.Value = compact(m.Value)
			others = append(others, m)
		}
	}
	return others
}

// compact returns a value without the white space between its parts.
func compact(raw json.RawMessage) json.RawMessage {
	var b bytes.Buffer
	if json.Compact(&b, raw) != nil {
		return raw // not JSON: nothing that was read can be
	}
	return b.Bytes()
}

// relations reports what is wrong between values, each of which is in range.
func (r *reader) relations() {
	if len(r.problems) > 0 {
		return
	}
	for _, f := range kinematics.Validate(&r.file.Case) {
		field := f.Key
		if f.Design >= 0 {
			field = designField(f.Design, f.Key)
		}
		at, ok := r.lines[field]
		if !ok {
			at = r.lines[designField(max(f.Design, 0), "")]
		}
		r.wrong(at, field, number(f.Value), faultText(f))
	}
}
