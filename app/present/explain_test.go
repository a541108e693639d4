package present

import (
	"regexp"
	"strings"
	"testing"

	"rimclear/kinematics/unit"
)

// unfitGerman are the beginnings and parts of German words a patient is not to
// meet: those of the trade, those that promise, and those that order.
var unfitGerman = regexp.MustCompile(`(?i)(imping|anschlag|antever|retrover|inklin|kontakt|luxa|luxier|ausrenk|flex|exten[sd]|addu|abdu|rotat|supin|pron(?:at|ier)|acetab|azetab|femor|femur|becken|pelv|trochan|kondyl|prothes|implant|arthro|endo|ersatz|gleitpaar|inlay|schaft|offset|kippung|kinemat|posterior|anterior|lateral|medial|superior|inferior|proximal|distal|pfanne|sicher|reserve|risiko|gefahr|gefährl|schad|schäd|empf[ie]|empfehl|garant|muss|müss|soll|immer|niemals|\bnie\b|verbot|verbiet|erlaub|zulässig|erfolg|versag|normal|optimal|\bbest|richtig|verschlei|sprung|hebel|osteo|freiheitsgrad|bewegungsumfang|beugung|streckung|spreiz)|°|[0-9][.,][0-9]`)

// fits fails where a text has a word in it that a patient is not to meet.
func fits(t *testing.T, where, text string) {
	t.Helper()
	if bad := unfitGerman.FindString(text); bad != "" || strings.ContainsAny(text, "[]") {
		t.Errorf("%s says %q, with %q in it", where, text, bad)
	}
}

func TestNoUnfitGermanWordIsSaidToAPatient(t *testing.T) {
	w, err := In("de")
	if err != nil {
		t.Fatal(err)
	}
	said := 0
	for key, text := range w.sections[phraseSection] {
		if strings.HasPrefix(key, "explain_") || strings.HasPrefix(key, "window_explain") {
			said++
			fits(t, key, text)
		}
	}
	if said < 50 {
		t.Errorf("only %d phrases are said to a patient", said)
	}
	for share := 0.0; share <= 1; share += 0.01 {
		for _, told := range []Told{{Touches: true, Share: share}, {Bone: true, Touches: true, Share: share}, {Room: unit.Angle(share) * 40 * unit.Degree}} {
			text := w.Told([]Told{told}, []int{0})
			fits(t, "a sentence", text)
			if !strings.Contains(text, "etwa ") || !strings.Contains(text, "In diesem Modell") || strings.Contains(text, "{") {
				t.Errorf("%q says a number without about, or not of what", text)
			}
		}
	}
	for _, word := range []string{"Impingement", "Anteversion", "Inklination", "Randkontakt", "Luxation", "Flexion", "Adduktion", "Außenrotation", "sicher", "Gelenkpfanne", "12,5", "38°"} {
		if !unfitGerman.MatchString(word) {
			t.Errorf("%q would pass", word)
		}
	}
}
