package cohort

import (
	"bytes"
	"encoding/json"
	"errors"

	"rimclear/app/casefile"
	"rimclear/kinematics"
)

// object reads a line of NDJSON: one object whose members are named like the
// columns of CSV, with numbers or words as values and null for none. A line
// that says it is a case file is read as one.
func (w *worker) object(line []byte) {
	o := members{text: line}
	if !o.take('{') {
		w.wrong("", nil, `must be an object, from "{" to "}"`)
		return
	}
	for first := true; !o.take('}'); first = false {
		if !first && !o.take(',') {
			w.wrong("", nil, "must be JSON: a comma or the end of the object is missing")
			return
		}
		name, ok := o.string()
		if !ok || !o.take(':') {
			w.wrong("", nil, "must be JSON: a name in quotation marks and a colon are missing")
			return
		}
		if string(name) == "format" {
			w.caseLine(line)
			return
		}
		if !w.member(name, &o) {
			return
		}
	}
	if o.skip(); len(o.text) > 0 {
		w.wrong("", o.text, "stands after the end of the object; one case stands on one line")
	}
}

// member takes one member, and reports whether reading can go on.
func (w *worker) member(name []byte, o *members) bool {
	i, ok := w.t.byName[string(name)]
	if !ok {
		_, err := w.s.columnOf(string(name))
		if err == nil { // cannot be: all names are in the table
			err = errors.New("is not known")
		}
		w.wrong(shortened(name), nil, err.Error())
		return false
	}
	if w.given[i].line == w.seen {
		w.wrong(string(name), nil, "stands twice; it must stand once")
		return false
	}
	value, quoted, ok := o.value()
	if !ok {
		w.wrong(string(name), nil, "must be a number, a text or null")
		return false
	}
	c := &w.t.columns[i]
	switch {
	case !quoted && string(value) == "null":
	case c.id:
		w.id = value
		w.given[i].line = w.seen
	case c.carried >= 0:
		w.texts[c.carried] = value
		w.given[i].line = w.seen
	case quoted != (c.p.Kind == kinematics.Choice):
		w.wrong(c.name, value, allowed(c.p))
	case quoted:
		w.word(i, value)
	default:
		v, ok := parse(value, '.')
		if !ok {
			w.wrong(c.name, value, allowed(c.p))
			break
		}
		w.number(i, v, value)
	}
	return true
}

// caseLine reads a line that is a whole case file. Its motions and criteria
// are passed over: a run's own apply to all its cases.
func (w *worker) caseLine(line []byte) {
	f, err := casefile.Decode(line)
	var list casefile.Problems
	switch {
	case errors.As(err, &list) && len(list) > 0:
		w.wrong(list[0].Field, []byte(list[0].Value), list[0].Must)
		return
	case err != nil:
		w.wrong("", nil, err.Error())
		return
	case f.Case.Count != w.s.Base.Count:
		w.wrong("designs", appendNumber(nil, float64(f.Case.Count)), "the run answers another number of designs; --designs gives it")
		return
	}
	for _, m := range f.Others {
		i, ok := w.t.byName[m.Key]
		if !ok || w.t.columns[i].p != nil {
			w.wrong(m.Key, nil, "is not known to this version")
			return
		}
		text := []byte(m.Value)
		var s string
		if json.Unmarshal(m.Value, &s) == nil {
			text = []byte(s)
		}
		if w.t.columns[i].id {
			w.id = text
		} else {
			w.texts[w.t.columns[i].carried] = text
		}
	}
	w.seen++ // what was given before the line was known as a case file counts no more
	w.c = f.Case
}

// members reads the members of an object from the front of its text.
type members struct{ text []byte }

func (m *members) skip() {
	for len(m.text) > 0 && (m.text[0] == ' ' || m.text[0] == '\t') {
		m.text = m.text[1:]
	}
}

// take passes over one character, if it is the next.
func (m *members) take(c byte) bool {
	m.skip()
	if len(m.text) == 0 || m.text[0] != c {
		return false
	}
	m.text = m.text[1:]
	return true
}

// string reads a text in quotation marks.
func (m *members) string() ([]byte, bool) {
	m.skip()
	if len(m.text) == 0 || m.text[0] != '"' {
		return nil, false
	}
	plain := true
	for i := 1; i < len(m.text); i++ {
		switch c := m.text[i]; {
		case c == '\\':
			plain = false
			i++
		case c < ' ':
			return nil, false
		case c == '"':
			raw := m.text[:i+1]
			m.text = m.text[i+1:]
			if plain {
				return raw[1:i], true
			}
			var s string
			err := json.Unmarshal(raw, &s)
			return []byte(s), err == nil
		}
	}
	return nil, false
}

// value reads a text, a number or a word.
func (m *members) value() (value []byte, quoted, ok bool) {
	m.skip()
	if len(m.text) > 0 && m.text[0] == '"' {
		value, ok = m.string()
		return value, true, ok
	}
	end := bytes.IndexAny(m.text, ",}] \t")
	if end < 0 {
		end = len(m.text)
	}
	value, m.text = m.text[:end], m.text[end:]
	return value, false, simple(value)
}

// simple reports whether a value is a number, null or a truth value of JSON.
func simple(v []byte) bool {
	switch string(v) {
	case "null", "true", "false":
		return true
	}
	if len(v) == 0 {
		return false
	}
	digits := v
	if digits[0] == '-' {
		digits = digits[1:]
	}
	if len(digits) == 0 || digits[0] < '0' || digits[0] > '9' {
		return false
	}
	return len(digits) == 1 || digits[0] != '0' || digits[1] < '0' || digits[1] > '9'
}
