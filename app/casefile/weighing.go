package casefile

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Answer is what the user wrote to a question that geometry does not decide:
// the rule that holds where he works, and what he answers for this case. Both
// are plain text of any number of lines; "" is not answered.
type Answer struct {
	Rule, Answer string
}

// Weighing holds the answers by the key of their question. Keys that no version
// at hand asks about are kept.
type Weighing map[string]Answer

// Bounds of a weighing.
const (
	MaxAnswers = 40
	MaxAnswer  = 2000 // characters of a rule, and of an answer
)

// The fields of a weighing: an object of questions, each an object of texts.
const (
	weighingField = "weighing"
	ruleField     = "rule"
	answerField   = "answer"
)

const mustBeAnswer = "must be text of at most 2000 characters, with no control characters but line ends"

// With returns the weighing with one answer replaced. An empty answer takes the
// question out.
func (w Weighing) With(key string, a Answer) Weighing {
	n := maps.Clone(w)
	if a == (Answer{}) {
		delete(n, key)
		return n
	}
	if n == nil {
		n = Weighing{}
	}
	n[key] = a
	return n
}

// isAnswer reports whether a text can be kept.
func isAnswer(s string) bool {
	odd := func(c rune) bool { return unicode.IsControl(c) && c != '\n' }
	return utf8.ValidString(s) && utf8.RuneCountInString(s) <= MaxAnswer && !strings.ContainsFunc(s, odd)
}

// weighing reads the answers. Fields of an answer that this version does not
// know would be lost, so they are refused.
func (r *reader) weighing(top map[string]Member) {
	m, ok := top[weighingField]
	if !ok {
		return
	}
	list, isObject := r.doc.members(m.at)
	if !isObject || len(list) > MaxAnswers {
		r.wrong(m.at, weighingField, quoted(m.Value), fmt.Sprintf("must be an object of at most %d questions", MaxAnswers))
		return
	}
	for _, question := range list {
		field := weighingField + "." + question.Key
		if !isKey(question.Key) {
			r.wrong(question.at, weighingField+"."+quoted([]byte(question.Key)), "", mustBeKey)
			continue
		}
		r.answer(field, question)
	}
	r.fields(weighingField+".", list)
}

func (r *reader) answer(field string, question Member) {
	list, isObject := r.doc.members(question.at)
	if !isObject {
		r.wrong(question.at, field, quoted(question.Value), `must be an object of "rule" and "answer"`)
		return
	}
	var a Answer
	for _, m := range list {
		to := map[string]*string{ruleField: &a.Rule, answerField: &a.Answer}[m.Key]
		s, isText := textOf(m.Value)
		switch {
		case to == nil:
			r.wrong(m.at, field+"."+quoted([]byte(m.Key)), quoted(m.Value), `only "rule" and "answer" may stand here`)
		case !isText || !isAnswer(s):
			r.wrong(m.at, field+"."+m.Key, quoted(m.Value), mustBeAnswer)
		default:
			*to = s
		}
	}
	r.fields(field+".", list)
	r.file.Weighing = r.file.Weighing.With(question.Key, a)
}

// weighing writes the answers in the order of their keys; without any, nothing.
func (w *writer) weighing(answers Weighing) {
	if len(answers) == 0 {
		return
	}
	w.key(weighingField)
	w.open("{")
	for _, key := range slices.Sorted(maps.Keys(answers)) {
		w.key(key)
		w.open("{")
		w.field(ruleField, text(answers[key].Rule))
		w.field(answerField, text(answers[key].Answer))
		w.close("}")
	}
	w.close("}")
}

// refuseWeighing returns what Decode would not take back of the answers.
func refuseWeighing(answers Weighing) (list Problems) {
	if len(answers) > MaxAnswers {
		list = append(list, Problem{Field: weighingField, Value: fmt.Sprint(len(answers)),
			Must: fmt.Sprintf("must be an object of at most %d questions", MaxAnswers)})
	}
	for _, key := range slices.Sorted(maps.Keys(answers)) {
		a := answers[key]
		if !isKey(key) {
			list = append(list, Problem{Field: weighingField + "." + quoted([]byte(key)), Must: mustBeKey})
		}
		for field, s := range map[string]string{ruleField: a.Rule, answerField: a.Answer} {
			if !isAnswer(s) {
				list = append(list, Problem{Field: weighingField + "." + key + "." + field, Value: quoted([]byte(s)), Must: mustBeAnswer})
			}
		}
	}
	return list
}
