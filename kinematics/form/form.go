// Package form reads small files of values, written by hand in JSON, into a
// tree that knows on which line everything stands, and collects what is wrong:
// the line and place, the value there, and what is allowed. It knows no
// anatomy.
package form

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Problem is one thing that is wrong with a file.
type Problem struct {
	Line  int    // from 1; 0 where there is none
	Place string // "activities[3].through[0].flexion_deg"; "" for the file itself
	Value string // as it stands there, shortened; "" where none does
	Must  string // what is allowed
}

// Error implements error.
func (p Problem) Error() string {
	var parts []string
	if p.Line > 0 {
		parts = append(parts, "line "+strconv.Itoa(p.Line))
	}
	if p.Place != "" {
		parts = append(parts, p.Place)
	}
	if p.Value != "" {
		parts = append(parts, p.Value)
	}
	return strings.Join(append(parts, p.Must), ": ")
}

// Problems is all that is wrong with a file.
type Problems []Problem

// Error implements error, one line per problem.
func (list Problems) Error() string {
	lines := make([]string, len(list))
	for i, p := range list {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// Err returns the problems as an error, nil if there are none.
func (list Problems) Err() error {
	if len(list) == 0 {
		return nil
	}
	return list
}

// Kind of a value.
type Kind int

const (
	Null Kind = iota
	Object
	List
	Text
	Number
	Truth
)

var kindNames = [...]string{"null", "an object", "a list", "text in quotation marks", "a number", "true or false"}

// Value is a value of the file and where it stands.
type Value struct {
	Kind    Kind
	Line    int
	Place   string
	Items   []Value  // of a list
	Members []Member // of an object, in the file's order
	text    string
	number  float64
	truth   bool
}

// Member is one key of an object and its value.
type Member struct {
	Key   string
	Value Value
}

// deepest is how far lists and objects may be nested.
const deepest = 16

// longestValue is how much of a value a problem repeats, in characters.
const longestValue = 40

// Read reads one value from r, of at most most bytes.
func Read(r io.Reader, most int64) (Value, error) {
	data, err := io.ReadAll(io.LimitReader(r, most+1))
	if err != nil {
		return Value{}, fmt.Errorf("reading the file: %w", err)
	}
	if int64(len(data)) > most {
		return Value{}, Problems{{Must: fmt.Sprintf("the file must be at most %d bytes long", most)}}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !utf8.Valid(data) {
		return Value{}, Problems{{Must: "the file must be text in UTF-8"}}
	}
	p := parser{data: data, tokens: json.NewDecoder(bytes.NewReader(data)), line: 1}
	p.tokens.UseNumber()
	v, err := p.value("", 0)
	if err == nil {
		if _, more := p.tokens.Token(); more != io.EOF {
			err = p.wrong("nothing may follow the closing bracket")
		}
	}
	return v, err
}

// parser builds the tree from tokens and counts lines on the way.
type parser struct {
	data    []byte
	tokens  *json.Decoder
	line    int
	counted int // bytes whose lines are counted
}

func (p *parser) here() int {
	at := int(p.tokens.InputOffset())
	p.line += bytes.Count(p.data[p.counted:at], []byte("\n"))
	p.counted = at
	return p.line
}

func (p *parser) wrong(must string) error { return Problems{{Line: p.here(), Must: must}} }

func (p *parser) next() (json.Token, error) {
	t, err := p.tokens.Token()
	var syntax *json.SyntaxError
	switch {
	case err == nil:
		return t, nil
	case errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF):
		return nil, p.wrong("the file ends too early: a bracket or a quotation mark is not closed")
	case errors.As(err, &syntax):
		at := min(max(int(syntax.Offset), p.counted), len(p.data))
		line := p.line + bytes.Count(p.data[p.counted:at], []byte("\n"))
		return nil, Problems{{Line: line, Must: "not JSON: " + syntax.Error()}}
	}
	return nil, p.wrong("not JSON: " + err.Error())
}

func (p *parser) value(place string, depth int) (Value, error) {
	if depth > deepest {
		return Value{}, p.wrong(fmt.Sprintf("lists and objects may be nested at most %d deep", deepest))
	}
	t, err := p.next()
	if err != nil {
		return Value{}, err
	}
	v := Value{Line: p.here(), Place: place}
	switch t := t.(type) {
	case string:
		v.Kind, v.text = Text, t
	case bool:
		v.Kind, v.truth = Truth, t
	case json.Number:
		v.Kind, v.text = Number, t.String()
		v.number = math.Inf(1) // too large for a number: refused by every range
		if x, err := t.Float64(); err == nil {
			v.number = x
		}
	case json.Delim:
		if t == '[' {
			v.Kind, err = List, p.items(&v, depth)
		} else {
			v.Kind, err = Object, p.members(&v, depth)
		}
	}
	return v, err
}

func (p *parser) items(v *Value, depth int) error {
	for p.tokens.More() {
		item, err := p.value(fmt.Sprintf("%s[%d]", v.Place, len(v.Items)), depth+1)
		if err != nil {
			return err
		}
		v.Items = append(v.Items, item)
	}
	_, err := p.next()
	return err
}

func (p *parser) members(v *Value, depth int) error {
	for p.tokens.More() {
		t, err := p.next()
		if err != nil {
			return err
		}
		key, _ := t.(string)
		value, err := p.value(join(v.Place, key), depth+1)
		if err != nil {
			return err
		}
		v.Members = append(v.Members, Member{key, value})
	}
	_, err := p.next()
	return err
}

func join(place, key string) string {
	if place == "" {
		return key
	}
	return place + "." + key
}

// Show returns the value as a problem repeats it.
func (v Value) Show() string {
	switch v.Kind {
	case Text:
		return shorten(strconv.Quote(v.text))
	case Number:
		return shorten(v.text)
	case Truth:
		return strconv.FormatBool(v.truth)
	}
	return kindNames[v.Kind]
}

func shorten(s string) string {
	if r := []rune(s); len(r) > longestValue {
		return string(r[:longestValue]) + "…"
	}
	return s
}
