package present

import (
	"strings"

	"rimclear/kinematics"
)

// Warned says what a user should know of a valid case, each thing once. Where it
// holds for some of several designs they are named.
func (w *Words) Warned(c *kinematics.Case) []string {
	var texts []string
	of := map[string][]string{} // the designs' letters by text
	for _, f := range kinematics.Warnings(c) {
		text := w.FaultText(f)
		if _, told := of[text]; !told {
			texts = append(texts, text)
		}
		of[text] = append(of[text], letters(c, f.Design)...)
	}
	for i, text := range texts {
		if n := len(of[text]); n > 0 && n < c.Count {
			texts[i] = w.Phrase("warned_of", "designs", strings.Join(of[text], ", "), "text", text)
		}
	}
	return texts
}

// letters returns the letter of a design, none where there is one design or all
// are meant.
func letters(c *kinematics.Case, design int) []string {
	if c.Count == 1 || design < 0 {
		return nil
	}
	return []string{Letter(design)}
}
