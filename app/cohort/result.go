package cohort

import (
	"strconv"
	"unicode/utf8"

	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Names of the columns of every result.
const (
	lineColumn   = "line"
	statusColumn = "status"

	answered = "answered"
	refused  = "error"
)

// resultNames returns the columns of a run's results, in their order. The
// answers of each design have its letter in front where there are several.
func resultNames(s *Settings) []string {
	names := append([]string{lineColumn, statusColumn, idName, "fault_field", "fault_value", "fault_reason"}, s.Carry...)
	base := s.Base
	list, _ := s.required(session.NewMotions(), &base)
	for i := range s.Base.Count {
		for _, name := range answerNames(s, list) {
			if s.Base.Count > 1 {
				name = present.Letter(i) + "." + name
			}
			names = append(names, name)
		}
	}
	return names
}

// answerNames returns the columns of one design's answers.
func answerNames(s *Settings, list []motion.Requirement) []string {
	names := []string{"oscillation_deg"}
	for _, q := range kinematics.Questions {
		names = append(names, "limit_"+q.Key+"_deg", "status_"+q.Key)
	}
	if len(list) == 0 {
		return names
	}
	names = append(names, "serves", "least_margin_deg", "least_motion")
	for _, r := range list {
		names = append(names, "margin_"+present.RequirementKey(r)+"_deg", "verdict_"+present.RequirementKey(r))
	}
	if s.Target {
		names = append(names, "target", "target_inclination_deg", "target_anteversion_deg", "target_margin_deg")
	}
	return names
}

// result writes results field by field.
type result struct {
	s      *Settings
	names  []string
	fronts [][]byte // what stands before each field
	back   string   // and after the last
	carry  int      // carried fields
	to     []byte
	at     int // of the next field
	keys   []string
}

func newResult(s *Settings) result {
	r := result{s: s, names: resultNames(s), back: "\n", carry: len(s.Carry)}
	if s.Format == NDJSON {
		r.back = "}\n"
	}
	for i, name := range r.names {
		front := ","
		switch {
		case s.Format == NDJSON && i == 0:
			front = `{"` + name + `":`
		case s.Format == NDJSON:
			front = `,"` + name + `":`
		case i == 0:
			front = ""
		}
		r.fronts = append(r.fronts, []byte(front))
	}
	base := s.Base
	list, _ := s.required(session.NewMotions(), &base)
	for _, q := range list {
		r.keys = append(r.keys, present.RequirementKey(q))
	}
	return r
}

// Header returns the first line of the results, "" for NDJSON.
func (s *Settings) Header() string {
	if s.Format == NDJSON {
		return ""
	}
	line := ""
	for i, name := range resultNames(s) {
		if i > 0 {
			line += ","
		}
		line += name
	}
	return line + "\n"
}

func (r *result) next() {
	r.to = append(r.to, r.fronts[r.at]...)
	r.at++
}

// none leaves a field empty.
func (r *result) none() {
	r.next()
	if r.s.Format == NDJSON {
		r.to = append(r.to, "null"...)
	}
}

func (r *result) number(x float64) {
	r.next()
	r.to = appendFixed(r.to, x)
}

// word writes a word of ours, which needs no quotation.
func (r *result) word(s string) {
	r.next()
	if r.s.Format == NDJSON {
		r.to = append(append(append(r.to, '"'), s...), '"')
		return
	}
	r.to = append(r.to, s...)
}

// text writes what came from outside: harmless to spreadsheets in CSV, and
// quoted where need be.
func (r *result) text(s []byte) {
	if len(s) == 0 {
		r.none()
		return
	}
	r.next()
	if r.s.Format == NDJSON {
		r.to = appendJSON(r.to, s)
		return
	}
	if !letterOrDigit(s[0]) && r.s.Harmless != nil {
		s = []byte(r.s.Harmless(string(s)))
	}
	r.to = appendCell(r.to, s)
}

func letterOrDigit(c byte) bool {
	return c >= '0' && c <= '9' || c|0x20 >= 'a' && c|0x20 <= 'z'
}

// appendCell appends a cell of CSV, quoted where it must be.
func appendCell(to, s []byte) []byte {
	quote := s[0] == ' ' || s[len(s)-1] == ' '
	for _, c := range s {
		quote = quote || c == '"' || c == ',' || c == ';' || c < ' '
	}
	if !quote {
		return append(to, s...)
	}
	to = append(to, '"')
	for _, c := range s {
		if c == '"' {
			to = append(to, '"')
		}
		to = append(to, c)
	}
	return append(to, '"')
}

// appendJSON appends a string of JSON.
func appendJSON(to, s []byte) []byte {
	const digits = "0123456789abcdef"
	to = append(to, '"')
	for i := 0; i < len(s); {
		c := s[i]
		switch {
		case c == '"' || c == '\\':
			to = append(to, '\\', c)
		case c < ' ':
			to = append(to, '\\', 'u', '0', '0', digits[c>>4], digits[c&15])
		case c < utf8.RuneSelf:
			to = append(to, c)
		default:
			r, n := utf8.DecodeRune(s[i:])
			to = utf8.AppendRune(to, r)
			i += n
			continue
		}
		i++
	}
	return append(to, '"')
}

// begin starts the result of the line a worker has read.
func (r *result) begin(to []byte, w *worker) {
	r.to, r.at = to, 0
	r.next()
	r.to = strconv.AppendInt(r.to, int64(w.line), 10)
	if w.fault != nil {
		r.word(refused)
		r.text(w.id)
		w.fault.ID = shortened(w.id)
		r.text([]byte(w.fault.Field))
		r.text([]byte(w.fault.Value))
		r.text([]byte(w.fault.Reason))
	} else {
		r.word(answered)
		r.text(w.id)
		r.none()
		r.none()
		r.none()
	}
	for _, t := range w.texts {
		r.text(t)
	}
}

// end leaves the fields empty that a fault leaves without an answer.
func (r *result) end(fault bool) []byte {
	if fault {
		for r.at < len(r.fronts) {
			r.none()
		}
	}
	r.to = append(r.to, r.back...)
	return r.to
}

// cone writes the whole angle of a round bearing's free cone, 0 for others.
func (r *result) cone(theta unit.Angle) {
	if theta == 0 {
		r.none()
		return
	}
	r.number(2 * theta.Degrees())
}

func (r *result) reading(a reading) {
	if a.ending == limited {
		r.number(a.angle.Degrees())
	} else {
		r.none()
	}
	r.word(EndingKeys[a.ending])
}

// verdicts writes how a design stands to each requirement, the least first.
func (r *result) verdicts(list []motion.Requirement, closeness unit.Angle, margin func(*motion.Requirement) unit.Angle) {
	var margins [kinematics.MostMotions + int(motion.MovementCount)]unit.Angle
	least := 0
	for i := range list {
		margins[i] = margin(&list[i])
		if margins[i] < margins[least] {
			least = i
		}
	}
	serves := "yes"
	if margins[least] <= kinematics.Touch {
		serves = "no"
	}
	r.word(serves)
	r.number(margins[least].Degrees())
	r.word(r.keys[least])
	for i := range list {
		r.number(margins[i].Degrees())
		r.word(standing(margins[i], closeness).Key())
	}
}

func standing(margin, closeness unit.Angle) kinematics.Standing {
	switch {
	case margin <= kinematics.Touch:
		return kinematics.Short
	case margin < closeness:
		return kinematics.Close
	}
	return kinematics.Met
}

// Words for whether there is a cup position that serves.
const (
	targetServes      = "serves"      // within the case's bounds
	targetFallsShort  = "short"       // the best within the bounds does not serve
	targetOutOfReach  = "unreachable" // no position keeps the bounds; the best is without them
	targetNoPlace     = "none"        // no bearing serves at any position
	targetFieldsAfter = 3
)

// target writes where the cup should point.
func (r *result) target(t kinematics.Target) {
	aim, word := t.Constrained, targetFallsShort
	switch {
	case !t.Fits:
		r.word(targetNoPlace)
		for range targetFieldsAfter {
			r.none()
		}
		return
	case !t.Reachable:
		aim, word = t.Best, targetOutOfReach
	case t.Serves():
		word = targetServes
	}
	r.word(word)
	r.number(aim.Cup.Inclination.Degrees())
	r.number(aim.Cup.Anteversion.Degrees())
	r.number(aim.Margin.Degrees())
}
