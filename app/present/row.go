package present

import (
	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

// Row is one line of the table of limits, in words.
type Row struct {
	Key      string // the question's
	Question string
	Reading  string // "38.7°", "beyond 121°", "free to 180°", "-"
	Status   string
	Clock    string // where on the rim, "" without contact
	Escape   string // which way the head would be levered, "" without contact
	Note     string // the earlier leg that stopped, or why the row is grey
	Grey     bool   // beyond the native passive range
	Source   string // of the native range, where there is one
}

// StatusKey returns how a question was answered as one of the stable words
// limit, none, contact_at_start and not_reached.
func StatusKey(a kinematics.Answer) string {
	switch {
	case a.Limit.Status == kinematics.StartsInContact:
		return "contact_at_start"
	case !a.Reached:
		return "not_reached"
	case a.Limit.Status == kinematics.Free:
		return "none"
	}
	return "limit"
}

// Question returns the title of a question asked of a case.
func (w *Words) Question(c *kinematics.Case, q kinematics.Question) string {
	return fill(w.word(questionSection, q.Key), "given", w.given(c.Hip.GivenAdduction))
}

// given says the given adduction: "10° adduction", "5° abduction".
func (w *Words) given(a unit.Angle) string {
	m, v := Signed(1, a)
	return w.Phrase("given", "angle", w.shortDegrees(v), "movement", w.Movement(m))
}

// shortDegrees returns an angle that was entered, without needless decimals.
func (w *Words) shortDegrees(a unit.Angle) string {
	return w.Shortest(a.Degrees(), 1) + w.Unit(kinematics.Degrees)
}

// Rows returns the table of limits of one design.
func (w *Words) Rows(c *kinematics.Case, answers []kinematics.Answer) []Row {
	rows := make([]Row, len(answers))
	for i, a := range answers {
		rows[i] = w.Row(c, a)
	}
	return rows
}

// Row returns one answer as a line of the table.
func (w *Words) Row(c *kinematics.Case, a kinematics.Answer) Row {
	status := StatusKey(a)
	r := Row{
		Key:      a.Question.Key,
		Question: w.Question(c, a.Question),
		Reading:  w.reading(a, status),
		Status:   w.word(statusSection, status),
		Grey:     a.BeyondNative(),
		Source:   w.Source(a.Question.Native.Source),
	}
	if status != "none" {
		r.Clock = w.Clock(a.Limit.Contact.Azimuth)
		r.Escape = w.Direction(a.Limit.Contact.Escape)
	}
	switch {
	case status == "contact_at_start":
		r.Note = w.Phrase("at_start")
	case status == "not_reached":
		m, v := stopOnTheWay(a)
		r.Note = w.Phrase("earlier_leg", "movement", w.Movement(m), "angle", w.Degrees(v))
	case r.Grey:
		r.Note = w.Phrase("native_first", "native", w.native(a), "source", r.Source)
	}
	return r
}

func (w *Words) reading(a kinematics.Answer, status string) string {
	switch {
	case status == "contact_at_start" || status == "not_reached":
		return w.Phrase("no_reading")
	case a.BeyondNative():
		return w.Phrase("beyond", "native", w.native(a))
	case status == "none":
		return w.Phrase("free_to", "end", w.shortDegrees(a.Reading))
	}
	return w.Degrees(a.Reading)
}

func (w *Words) native(a kinematics.Answer) string { return w.shortDegrees(a.Question.Native.Range) }

// stopOnTheWay returns the movement and angle at which an earlier leg stopped.
func stopOnTheWay(a kinematics.Answer) (kinematics.Movement, unit.Angle) {
	return Signed(a.Limit.Moving, a.Limit.Angle)
}
