package present

import "strings"

// weighedKeys are the questions that the shapes of the parts do not decide, in
// the order in which they are asked; they name the answers in files.
var weighedKeys = []string{"sex_head_size", "dysplasia", "osteonecrosis", "bone_density", "renal_metal", "leg_length_offset"}

// WeighedKeys returns the questions' keys, in the order in which they are asked.
func WeighedKeys() []string { return weighedKeys }

// WeighingRow is a question that geometry does not decide.
type WeighingRow struct {
	Key      string
	Question string
	Why      string // why it matters
	Source   string // of that
	Rule     string // that holds where the user works, "" for none entered
	Answer   string // for this case, or "not answered"
	Answered bool
}

// WeighingRows returns the questions with what the user wrote to each; written
// gives the rule and the answer kept under a key, "" for none.
func (w *Words) WeighingRows(written func(key string) (rule, answer string)) []WeighingRow {
	rows := make([]WeighingRow, len(weighedKeys))
	for i, key := range weighedKeys {
		rule, answer := written(key)
		r := WeighingRow{
			Key: key, Question: w.Phrase("weighing_ask_" + key), Why: w.Phrase("weighing_why_" + key),
			Source: w.Source("source_common_practice"), Rule: strings.TrimSpace(rule), Answer: strings.TrimSpace(answer),
		}
		if r.Answered = r.Answer != ""; !r.Answered {
			r.Answer = w.Phrase("weighing_not_answered")
		}
		rows[i] = r
	}
	return rows
}

// WeighingNote says what a contact of neck and rim is not.
func (w *Words) WeighingNote() string { return w.Phrase("weighing_note") }
