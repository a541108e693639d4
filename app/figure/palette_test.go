package figure

import "testing"

func TestWordsAndLinesStandOutFromThePaper(t *testing.T) {
	for name, p := range map[string]Palette{"light": Light(), "dark": Dark()} {
		atLeast := func(what string, want float64, c Colour, grounds ...Colour) {
			for _, g := range grounds {
				if got := Contrast(c, g); got < want {
					t.Errorf("%s: %s has contrast %.2f on #%02X%02X%02X, want %v", name, what, got, g.R, g.G, g.B, want)
				}
			}
		}
		atLeast("ink", 4.5, p.Ink, p.Paper, p.Panel, p.Ramp(0), p.Ramp(0.5), p.Ramp(1))
		atLeast("soft ink", 4.5, p.Soft, p.Paper, p.Panel)
		atLeast("axis", 3, p.Axis, p.Paper, p.Panel)
		for what, tone := range map[string]Tone{"free": p.Free, "close": p.Close, "contact": p.Contact, "beyond": p.Beyond} {
			atLeast(what+" line", 3, tone.Line, p.Paper, p.Panel)
			atLeast(what+" text", 4.5, tone.Text, p.Paper, p.Panel)
		}
		for _, d := range p.Designs {
			atLeast("line of design "+d.Name, 3, d.Line, p.Paper, p.Panel)
			atLeast("text of design "+d.Name, 4.5, d.Text, p.Paper, p.Panel)
		}
	}
}

func TestContrastOfBlackAndWhiteIsTwentyOne(t *testing.T) {
	// The extremes of the WCAG 2.1 definition; #767676 on white is its known
	// grey of 4.54.
	if got := Contrast(Hex("#000000"), Hex("#FFFFFF")); got != 21 {
		t.Errorf("black on white: %v, want 21", got)
	}
	if got := Contrast(Hex("#767676"), Hex("#FFFFFF")); got < 4.53 || got > 4.55 {
		t.Errorf("#767676 on white: %v, want 4.54", got)
	}
}

func TestEachDesignAndEachStateIsToldWithoutColour(t *testing.T) {
	for _, p := range []Palette{Light(), Dark()} {
		dashes := map[string]string{}
		for _, d := range p.Designs {
			key := ""
			for _, l := range d.Dash {
				key += short(l, 2) + " "
			}
			if other, ok := dashes[key]; ok {
				t.Errorf("designs %s and %s share their dashes", d.Name, other)
			}
			dashes[key] = d.Name
		}
		kinds := map[PatternKind]bool{}
		for _, tone := range []Tone{p.Free, p.Close, p.Contact, p.Beyond} {
			kinds[tone.Fill.Pattern.Kind] = true
		}
		if len(kinds) != 4 {
			t.Errorf("four states have %d patterns", len(kinds))
		}
		if p.Forbidden().Pattern.Kind == Plain {
			t.Error("the forbidden side has no pattern")
		}
	}
}
