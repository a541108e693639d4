package casefile

import (
	"bytes"
	"encoding/json"
	"errors"
)

// Member is a field of an object as it stands in the file.
type Member struct {
	Key   string
	Value json.RawMessage
	at    int // byte at which the value starts in the file
}

// document is the file's bytes, known to be well-formed JSON.
type document []byte

// line returns the line, from 1, on which a byte stands.
func (d document) line(at int) int {
	return 1 + bytes.Count(d[:min(max(at, 0), len(d))], []byte("\n"))
}

// members returns the fields of the object that starts at a byte of the
// document, nil and false where there is no object.
func (d document) members(at int) ([]Member, bool) {
	if at >= len(d) || d[at] != '{' {
		return nil, false
	}
	var list []Member
	d.each(at, func(key string, value int) int {
		raw := d.value(value)
		list = append(list, Member{Key: key, Value: raw, at: value})
		return value + len(raw)
	})
	return list, true
}

// elements returns where the elements of the list at a byte start.
func (d document) elements(at int) ([]int, bool) {
	if at >= len(d) || d[at] != '[' {
		return nil, false
	}
	var starts []int
	for i := d.skip(at + 1); i < len(d) && d[i] != ']'; {
		starts = append(starts, i)
		i = d.skip(i + len(d.value(i)))
		if i < len(d) && d[i] == ',' {
			i = d.skip(i + 1)
		}
	}
	return starts, true
}

// each calls visit with every key of the object at a byte and where its value
// starts; visit returns where it ends.
func (d document) each(at int, visit func(key string, value int) int) {
	for i := d.skip(at + 1); i < len(d) && d[i] == '"'; {
		raw := d.value(i)
		var key string
		if json.Unmarshal(raw, &key) != nil {
			return
		}
		colon := d.skip(i + len(raw))
		i = d.skip(visit(key, d.skip(colon+1)))
		if i < len(d) && d[i] == ',' {
			i = d.skip(i + 1)
		}
	}
}

// value returns the bytes of the value that starts at a byte.
func (d document) value(at int) json.RawMessage {
	var raw json.RawMessage
	if json.NewDecoder(bytes.NewReader(d[at:])).Decode(&raw) != nil {
		return nil
	}
	return raw
}

// skip returns the next byte that is not white space.
func (d document) skip(at int) int {
	for at < len(d) && (d[at] == ' ' || d[at] == '\t' || d[at] == '\n' || d[at] == '\r') {
		at++
	}
	return at
}

// parse checks that data is one JSON value and returns where it starts.
func parse(data []byte) (document, int, error) {
	d := document(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")))
	var raw json.RawMessage
	if err := json.Unmarshal(d, &raw); err != nil {
		p := Problem{Line: d.line(len(d)), Must: "must be JSON: " + err.Error()}
		if syntax := (*json.SyntaxError)(nil); errors.As(err, &syntax) {
			p.Line = d.line(int(syntax.Offset) - 1)
		}
		return nil, 0, Problems{p}
	}
	return d, d.skip(0), nil
}
