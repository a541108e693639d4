package casefile

import (
	"fmt"
	"strings"

	"rimclear/kinematics"
)

// The fields of a goal that are keys: "motions", a list of the motions required,
// and "criteria", the set of criteria required besides, "" for none. Keys that
// no library at hand has are kept: the case may come from where one has them.
const (
	motionsField  = "motions"
	criteriaField = "criteria"
	mostKey       = 60 // characters
)

const mustBeKey = "must be 1 to 60 of the characters a to z, 0 to 9 and _"

func isKey(s string) bool {
	plain := func(c rune) bool { return c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '_' }
	return s != "" && len(s) <= mostKey && !strings.ContainsFunc(s, func(c rune) bool { return !plain(c) })
}

// plainKey makes a key of a recording's name.
func plainKey(name string) string {
	key := strings.Map(func(c rune) rune {
		switch {
		case c >= 'a' && c <= 'z' || c >= '0' && c <= '9':
			return c
		case c >= 'A' && c <= 'Z':
			return c + 'a' - 'A'
		}
		return '_'
	}, name)
	key = "recorded_" + strings.Trim(key, "_")
	return strings.Trim(key[:min(len(key), 50)], "_")
}

// goal reads the motions and the criteria; without them the usual ones are
// asked for.
func (r *reader) goal(top map[string]Member) {
	g := &r.file.Case.Goal
	g.Motions = kinematics.Default().Goal.Motions
	if m, ok := top[motionsField]; ok {
		g.Motions = r.motions(m)
	}
	m, ok := top[criteriaField]
	if !ok {
		return
	}
	key, isText := textOf(m.Value)
	if !isText || key != "" && !isKey(key) {
		r.wrong(m.at, criteriaField, quoted(m.Value), mustBeKey+`, or "" for none`)
		return
	}
	g.Criteria = key
}

func (r *reader) motions(m Member) kinematics.Motions {
	starts, isList := r.doc.elements(m.at, kinematics.MostMotions)
	if !isList || len(starts) > kinematics.MostMotions {
		r.wrong(m.at, motionsField, quoted(m.Value), fmt.Sprintf("must be a list of at most %d keys of motions", kinematics.MostMotions))
		return ""
	}
	keys := make([]string, len(starts))
	for i, at := range starts {
		raw := r.doc.value(at)
		key, isText := textOf(raw)
		if !isText || !isKey(key) {
			r.wrong(at, fmt.Sprintf("%s[%d]", motionsField, i), quoted(raw), mustBeKey)
		}
		keys[i] = key
	}
	return kinematics.JoinMotions(keys...)
}

func (w *writer) goal(g kinematics.Goal) {
	w.key(motionsField)
	w.open("[")
	for _, key := range g.Motions.Keys() {
		w.next()
		w.WriteString(text(key))
	}
	w.close("]")
	w.field(criteriaField, text(g.Criteria))
}

// refuseGoal returns what Decode would not take back of a goal.
func refuseGoal(g kinematics.Goal) (list Problems) {
	keys := g.Motions.Keys()
	if len(keys) > kinematics.MostMotions {
		list = append(list, Problem{Field: motionsField, Value: fmt.Sprint(len(keys)),
			Must: fmt.Sprintf("must be a list of at most %d keys of motions", kinematics.MostMotions)})
	}
	for i, key := range keys {
		if !isKey(key) {
			list = append(list, Problem{Field: fmt.Sprintf("%s[%d]", motionsField, i), Value: quoted([]byte(key)), Must: mustBeKey})
		}
	}
	if g.Criteria != "" && !isKey(g.Criteria) {
		list = append(list, Problem{Field: criteriaField, Value: quoted([]byte(g.Criteria)), Must: mustBeKey})
	}
	return list
}
