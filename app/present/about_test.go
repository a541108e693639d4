package present

import (
	"strings"
	"testing"

	"rimclear/assets"
	"rimclear/kinematics"
)

// demandedOfNumbers adds the words that numbers ask for.
func demandedOfNumbers(add func(section, key string)) {
	for _, n := range Numbers {
		for _, s := range []string{aboutNameSection, aboutDefinitionSection, aboutFormulaSection, aboutSourceSection, aboutLimitsSection} {
			add(s, n.Key)
		}
	}
	for _, key := range restKeys {
		add(aboutStatusSection, key)
	}
}

func TestEverySourceOfANumberSaysHowFirmItIs(t *testing.T) {
	for _, language := range assets.Languages() {
		w, err := In(language)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range Numbers {
			a := w.About(n.Key)
			if len(a.Sources) != len(n.Rests) || len(n.Rests) == 0 {
				t.Errorf("%s: %s has %d sources in words and %d in the table", language, n.Key, len(a.Sources), len(n.Rests))
			}
			for _, c := range a.Sources {
				if text := w.Cite(c); !strings.Contains(text, c.Text) || len(text) <= len(c.Text) || strings.Contains(text, "[") {
					t.Errorf("%s: %s cites %q as %q", language, n.Key, c.Text, text)
				}
			}
		}
	}
}

func TestAReferenceFromMemoryIsNeverCalledFound(t *testing.T) {
	w, seen := English(), 0
	for author, key := range map[string]string{"Roach": "source_roach_memory", "ISO 21535": "source_iso_21535_memory"} {
		if !strings.Contains(w.Source(key), author) || !strings.Contains(w.Source(key), "from memory") {
			t.Errorf("%s reads %q", key, w.Source(key))
		}
		for _, n := range Numbers {
			for _, c := range w.About(n.Key).Sources {
				if strings.Contains(c.Text, author) {
					seen++
					if c.Rest != FromMemory {
						t.Errorf("%s cites %s, which is from memory, as %s", n.Key, author, restKeys[c.Rest])
					}
				}
			}
		}
	}
	if seen < 2 {
		t.Errorf("only %d are cited", seen)
	}
}

// linesOf returns every kind of line that is written for a hip: its own
// figures, how the head is held, levers, sizes, and what motions demand.
func linesOf(t *testing.T) []Line {
	t.Helper()
	w := English()
	far := flexed(150)
	s := asking(t, usual(), kinematics.Bounds{}, far, turnedOut(10))
	h := kinematics.Default().Hip
	surface := usual()
	surface.Bearing, surface.Rim.HeadDiameter, surface.Neck.Diameter = kinematics.Resurfacing, 50, 44
	j := kinematics.NewJoint(h, usual())
	share := kinematics.Share{First: []float64{0.2, 0.1}, Uncovered: 0.1}
	var lines []Line
	lines = append(lines, w.Summary(usual(), j.Aperture)...)
	lines = append(lines, w.StabilityLines(kinematics.NewJoint(h, surface), surface)...)
	lines = append(lines, w.LeverLines(j, h, s.Verdict.Outcomes[0])...)
	lines = append(lines, w.Demand(s.Target)...)
	lines = append(lines, w.SizeLines(kinematics.Needed{}, kinematics.Needed{}, kinematics.Needed{}, kinematics.Needed{})...)
	lines = append(lines, w.ShareLines(s.Required, share)...)
	return append(lines, w.MostLine(share, kinematics.BestPlacement{}))
}

func TestEveryLineIsANumberThatCanBeAskedAbout(t *testing.T) {
	shown := map[string]bool{}
	for _, l := range linesOf(t) {
		n := NumberOf(l.Key)
		if n == "" {
			t.Errorf("%q (%s) is no number of the list", l.Name, l.Key)
		}
		shown[n] = true
	}
	for _, key := range []string{"oscillation_deg", "head_neck_ratio", "functional_cup", "jump_lateral", "jump_least", "escape_jump", "lever",
		"patch_to_rim", "total_arc", "demanded", "best_cup", "size_needed", "share", "first_to_fail", "uncovered", "slope", "most"} {
		if !shown[key] {
			t.Errorf("no line shows %s", key)
		}
	}
	if NumberOf("nothing_known") != "" || NumberOfChart("nothing_known") != "" {
		t.Error("a key nobody has is a number")
	}
}
