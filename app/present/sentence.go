package present

import (
	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

// Headline is the answer in words that stands above every table: which
// movement is the tightest, where the neck then is on the rim, and which way
// the head would be levered.
func (w *Words) Headline(c *kinematics.Case, answers []kinematics.Answer) string {
	i := Tightest(answers)
	if i < 0 {
		return ""
	}
	a := answers[i]
	question := w.Question(c, a.Question)
	switch {
	case a.Limit.Status == kinematics.StartsInContact:
		return w.Limit(c, a)
	case reserve(a) >= 0:
		return w.Phrase("none_short", "question", w.inSentence(question))
	}
	return w.Phrase("first_short", w.contactParts(a.Limit.Contact,
		"question", question, "angle", w.Degrees(a.Reading), "native", w.native(a))...)
}

// Tightest returns the index of the answer that falls shortest of the native
// range, or exceeds it least; of one that starts in contact, if any does; -1 if
// no answer can be compared.
func Tightest(answers []kinematics.Answer) int {
	least := -1
	for i, a := range answers {
		if a.Limit.Status == kinematics.StartsInContact {
			return i
		}
		if a.Reached && a.Question.Native.Known() && (least < 0 || reserve(a) < reserve(answers[least])) {
			least = i
		}
	}
	return least
}

// reserve returns by how much a limit lies beyond the native range, negative
// where it falls short.
func reserve(a kinematics.Answer) unit.Angle { return a.Reading - a.Question.Native.Range }

// Limit says one answer as a sentence.
func (w *Words) Limit(c *kinematics.Case, a kinematics.Answer) string {
	question := w.Question(c, a.Question)
	contact := a.Limit.Contact
	switch status := StatusKey(a); {
	case status == "contact_at_start":
		return w.Phrase("touches_in_neutral", "clock", w.Clock(contact.Azimuth))
	case status == "not_reached":
		m, v := stopOnTheWay(a)
		return w.Phrase("stops_on_the_way", w.contactParts(contact,
			"question", question, "movement", w.Movement(m), "angle", w.Degrees(v))...)
	case a.BeyondNative():
		return w.Phrase("past_native", "question", question, "native", w.native(a))
	case status == "none":
		return w.Phrase("stays_free", "question", question, "angle", w.shortDegrees(a.Reading))
	}
	return w.Phrase("stops", w.contactParts(contact, "question", question, "angle", w.Degrees(a.Reading))...)
}

// Posture says where neck and rim are at one posture.
func (w *Words) Posture(contact kinematics.Contact) string {
	phrase := "clear_here"
	switch {
	case Digits(contact.Margin.Degrees(), 1) == "0.0":
		phrase = "touch_here"
	case contact.InContact():
		phrase = "contact_here"
	}
	return w.Phrase(phrase, w.contactParts(contact,
		"margin", w.Degrees(contact.Margin.Abs()), "clearance", w.Millimetres(contact.Clearance))...)
}

// contactParts adds the clock and the direction of a contact to the parts of a
// phrase.
func (w *Words) contactParts(c kinematics.Contact, parts ...string) []string {
	return append(parts, "clock", w.Clock(c.Azimuth), "direction", w.Direction(c.Escape))
}

// inSentence lowers the first letter of a title that stands inside a sentence.
func (w *Words) inSentence(title string) string {
	if w.language != "en" || title == "" {
		return title
	}
	return string(title[0]|0x20) + title[1:]
}
