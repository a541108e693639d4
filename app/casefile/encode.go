package casefile

import (
	"bytes"
	"encoding/json"
	"strconv"
	"unicode/utf8"

	"rimclear/kinematics"
)

// Encode returns the case as the contents of a file. What could not be read
// again is refused with Problems.
func Encode(f File) ([]byte, error) {
	if err := refuse(f); err != nil {
		return nil, err
	}
	var w writer
	w.open("{")
	w.field("format", text(Format))
	w.field("version", strconv.Itoa(Version))
	w.field("label", text(f.Case.Label))
	w.values(&f.Case, kinematics.OfCase, 0)
	w.goal(f.Case.Goal)
	w.recordings(f.Recordings)
	w.weighing(f.Weighing)
	w.others(f.Others)
	w.key("designs")
	w.open("[")
	for i := range f.Case.Count {
		w.next()
		w.open("{")
		w.field("name", text(f.Case.Designs[i].Name))
		w.values(&f.Case, kinematics.OfDesign, i)
		w.others(f.DesignOthers[i])
		w.close("}")
	}
	w.close("]")
	w.close("}")
	w.WriteByte('\n')
	if w.Len() > MaxBytes {
		return nil, Problems{{Must: "must have at most " + strconv.Itoa(MaxBytes) + " bytes"}}
	}
	return w.Bytes(), nil
}

// refuse returns what Decode would not take back.
func refuse(f File) error {
	var list Problems
	if n := f.Case.Count; n < 1 || n > kinematics.MaxDesigns {
		return Problems{{Field: "designs", Value: strconv.Itoa(n), Must: "must be 1 to " + strconv.Itoa(kinematics.MaxDesigns)}}
	}
	check := func(field, s string, most int) {
		if !utf8.ValidString(s) || !printable(s) || utf8.RuneCountInString(s) > most {
			list = append(list, Problem{Field: field, Value: quoted([]byte(s)),
				Must: "must be one line of at most " + strconv.Itoa(most) + " characters"})
		}
	}
	check("label", f.Case.Label, MaxLabel)
	for i, d := range f.Case.Active() {
		check(designField(i, "name"), d.Name, MaxName)
	}
	list = append(list, refuseGoal(f.Case.Goal)...)
	list = append(list, refuseRecordings(f.Recordings)...)
	list = append(list, refuseWeighing(f.Weighing)...)
	for _, fault := range kinematics.Validate(&f.Case) {
		field := fault.Key
		if fault.Design >= 0 {
			field = designField(fault.Design, fault.Key)
		}
		list = append(list, Problem{Field: field, Value: number(fault.Value),
			Must: faultText(fault)})
	}
	if len(list) > 0 {
		return list
	}
	return nil
}

// writer lays out JSON by two spaces a level.
type writer struct {
	bytes.Buffer
	depth int
	begun bool // something stands in the open object or list
}

func (w *writer) open(bracket string) {
	w.WriteString(bracket)
	w.depth++
	w.begun = false
}

func (w *writer) close(bracket string) {
	w.depth--
	if w.begun {
		w.line()
	}
	w.WriteString(bracket)
	w.begun = true
}

func (w *writer) next() {
	if w.begun {
		w.WriteByte(',')
	}
	w.begun = true
	w.line()
}

func (w *writer) line() {
	w.WriteByte('\n')
	w.WriteString(w.indent())
}

func (w *writer) indent() string { return string(bytes.Repeat([]byte("  "), w.depth)) }

func (w *writer) key(key string) {
	w.next()
	w.WriteString(text(key))
	w.WriteString(": ")
}

func (w *writer) field(key, value string) {
	w.key(key)
	w.WriteString(value)
}

func (w *writer) values(c *kinematics.Case, scope kinematics.Scope, i int) {
	for k := range kinematics.Parameters {
		p := &kinematics.Parameters[k]
		if p.Scope != scope || p.Derived {
			continue
		}
		v := p.Get(c, i)
		if p.Kind == kinematics.Choice {
			w.field(p.Key, text(p.Choices[int(v)]))
		} else {
			w.field(p.Key, number(v))
		}
	}
}

func (w *writer) others(list []Member) {
	for _, m := range list {
		w.key(m.Key)
		if err := json.Indent(&w.Buffer, m.Value, w.indent(), "  "); err != nil {
			w.WriteString("null") // not JSON: nothing that was read can be
		}
	}
}

// text returns a string as JSON.
func text(s string) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if e.Encode(s) != nil {
		return `""` // a string always has a form
	}
	return string(bytes.TrimSuffix(b.Bytes(), []byte("\n")))
}
