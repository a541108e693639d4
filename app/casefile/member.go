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

// elements returns where the elements of the list at a byte start, or of a
// longer list the first most+1.
func (d document) elements(at, most int) ([]int, bool) {
	if at >= len(d) || d[at] != '[' {
		return nil, false
	}
	var starts []int
	for i := d.skip(at + 1); i < len(d) && d[i] != ']' && len(starts) <= most; {
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
	if at >= len(d) {
		return nil
	}
	return json.RawMessage(d[at:d.end(at)])
}

// end returns where the value that starts at a byte ends. It relies on the
// document being well-formed.
func (d document) end(at int) int {
	if d[at] != '{' && d[at] != '[' && d[at] != '"' {
		for at < len(d) && !bytes.ContainsRune([]byte(",]} \t\r\n"), rune(d[at])) {
			at++
		}
		return at
	}
	for depth := 0; at < len(d); at++ {
		switch d[at] {
		case '"':
			at = d.quote(at)
		case '{', '[':
			depth++
		case '}', ']':
			depth--
		}
		if depth == 0 {
			return min(at+1, len(d))
		}
	}
	return len(d)
}

// quote returns where the text that starts at a byte has its last quotation
// mark.
func (d document) quote(at int) int {
	for at++; at < len(d) && d[at] != '"'; at++ {
		if d[at] == '\\' {
			at++
		}
	}
	return at
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
			at := int(syntax.Offset) - 1
			p.Line, p.Must = d.line(at), p.Must+d.hint(at)
		}
		return nil, 0, Problems{p}
	}
	return d, d.skip(0), nil
}

// hint says what often is the reason when a byte is not JSON.
func (d document) hint(at int) string {
	before := func(n int) rune { return rune(d[max(at-n, 0)]) }
	digit := func(c rune) bool { return c >= '0' && c <= '9' }
	switch {
	case at < 0 || at >= len(d):
		return ""
	case digit(before(0)) && before(1) == ',' && digit(before(2)):
		return "; a number must have a decimal point, not a comma"
	case bytes.HasPrefix(d[at:], []byte("“")) || bytes.HasPrefix(d[at:], []byte("„")) || bytes.HasPrefix(d[at:], []byte("”")) || before(0) == '\'':
		return `; text must stand in plain quotation marks, "`
	}
	return ""
}
