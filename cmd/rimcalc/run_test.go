package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// result is what a run of the program left.
type result struct {
	code      int
	out, errs string
}

// calc runs the program with standard input and arguments.
func calc(t testing.TB, in string, args ...string) result {
	t.Helper()
	var out, errs bytes.Buffer
	code := run(context.Background(), append([]string{"rimcalc"}, args...), strings.NewReader(in), &out, &errs)
	return result{code, out.String(), errs.String()}
}

func TestEveryHelpHasExamplesExitCodesAndTheCaution(t *testing.T) {
	commands := []string{""}
	for _, c := range (&terminal{}).commands() {
		commands = append(commands, c.Name)
	}
	for _, command := range commands {
		r := calc(t, "", strings.Fields(command+" --help")...)
		for _, want := range []string{"rimcalc " + command, "Exit codes: 0", "not a medical device"} {
			if r.code != fine || !strings.Contains(r.out, want) {
				t.Errorf("rimcalc %s --help: code %d, no %q in\n%s", command, r.code, want, r.out)
			}
		}
	}
}

func TestMisuseNamesWhatIsWrongAndAnswersNothing(t *testing.T) {
	for _, tt := range []struct{ args, want string }{
		{"", "name a command: limits"},
		{"walk", `no command "walk"`},
		{"limit", "completion; did you mean limits?"},
		{"limits --nope", "no option --nope of limits"},
		{"limits --cup-anteverson-deg 15", "no option --cup-anteverson-deg of limits; did you mean --cup-anteversion-deg?"},
		{"--json limits", "no option --json of rimcalc"},
		{"completion --nope", "no option --nope of completion"},
		{"limits --head-diameter-mm 32,5", `"32,5": must be from 18 mm to 70 mm, with a decimal point`},
		{"limits hip.json", `"hip.json" is no option`},
		{"limits --head-diameter-mm 500", `--head-diameter-mm "500": must be from 18 mm to 70 mm`},
		{"limits --head-diameter-mm NaN", `--head-diameter-mm "NaN": must be from 18 mm to 70 mm`},
		{"limits --neck-diameter-mm 4e", `--neck-diameter-mm "4e": must be 0 mm (absent) or from 4 mm to 66 mm`},
		{"limits --side up", `--side "up": must be one of right, left`},
		{"limits --neck-diameter-mm 40", "--neck-diameter-mm: Neck diameter 40 mm: the neck must be narrower than the head, which is 32 mm."},
		{"limits --design B", `--design "B": must be from A to A`},
		{"limits --json --csv", "exclude"},
		{"limits --case /nowhere/at/all", "/nowhere/at/all"},
		{"sweep a b", `"b": only one file`},
		{"sweep --workers -1 -", "--workers -1: must be from 0 to 256"},
		{"demo x", `"x" is no option`},
		{"limits --sample nobody", `--sample "nobody": must be one of stemmed-and-resurfacing`},
		{"limits --case a --sample b", "--case and --sample exclude"},
		{"envelope --slice up", `--slice "up": must be one of flexion_rotation`},
		{"envelope --step 0.5", "--step 0.5: must be from 1 to 30 degrees"},
		{"target hip.json", `"hip.json" is no option of target`},
		{"target --motion low_chiar", `--motion "low_chiar": must be none or the key of a motion; rimcalc activities lists them; did you mean low_chair?`},
		{"target --criteria sever", `--criteria "sever": must be none or one of strict, severe`},
		{"target --library /nowhere/at/all", "/nowhere/at/all"},
		{"target --recording /nowhere/at/all", "/nowhere/at/all"},
		{"target --x cup_arc_deg", "--x and --y go together"},
		{"target --x cup_arc_deg --y cup_arc_deg", "two different values, not cup_arc_deg twice"},
		{"target --x cup_ark_deg --y wall_mm", "did you mean cup_arc_deg?"},
		{"target --x flexion_deg --y wall_mm", `--x "flexion_deg": must be KEY or KEY:FROM:TO:COUNT`},
		{"target --x wall_mm --y neck_diameter_mm:20:9:5", `--y "neck_diameter_mm:20:9:5": must be neck_diameter_mm:FROM:TO:COUNT, FROM below TO, both from 4 mm to 66 mm, COUNT from 2 to 1000`},
		{"target --x wall_mm --y neck_diameter_mm:9:NaN:5", "both from 4 mm to 66 mm"},
		{"target --workers 300 --map", "--workers 300: must be from 0 to 256"},
		{"placement --scatter freehand", `--scatter "freehand": must be one of saxler, bosker`},
		{"placement --placements 3", "--placements 3: must be from 16 to"},
		{"placement --motion none", "no motion is required that has an end"},
		{"placement --motion posterior_test", "no motion is required that has an end"},
		{"placement --scatter-tilt-deg -1", `--scatter-tilt-deg "-1": must be from`},
		{"placement --seed x", "seed"},
		{"compare --base E", `--base "E": must be one of the designs compared, A, B`},
		{"compare --design A --base B", `--base "B": must be one of the designs compared, A`},
		{"activities all", `"all" is no option of activities`},
		{"check", "name the files to check"},
		{"check --json --csv -", "exclude"},
		{"completion tcsh", `completion "tcsh": must be one of bash, zsh, fish`},
	} {
		r := calc(t, "", strings.Fields(tt.args)...)
		if r.code != misuse || !strings.Contains(r.errs, tt.want) || r.out != "" {
			t.Errorf("rimcalc %s: code %d, out %q, errors\n%s\nwant %q", tt.args, r.code, r.out, r.errs, tt.want)
		}
	}
}

func TestAnAnswerGoesIntoAFileWholeOrNotAtAll(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "limits.json")
	for _, args := range [][]string{{"limits", "--json"}, {"compare", "--no-share"}, {"activities", "--csv"}, {"check", "--csv", "-"}} {
		want := calc(t, demoCase(), args...)
		r := calc(t, demoCase(), append(args[:1:1], append([]string{"--out", path}, args[1:]...)...)...)
		got, err := os.ReadFile(path)
		if r.code != fine || r.out != "" || err != nil || string(got) != want.out {
			t.Errorf("%v: code %d, out %q, %v", args, r.code, r.out, err)
		}
		if r := calc(t, demoCase(), append(args[:1:1], append([]string{"--out", "-"}, args[1:]...)...)...); r != want {
			t.Errorf("%v --out -: %+v", args, r)
		}
	}
	if r := calc(t, "", "target", "--out", filepath.Join(path, "x")); r.code != failed || r.errs == "" || r.out != "" {
		t.Errorf("into a file as a folder: %+v", r)
	}
}

func TestAllBadFlagsAreNamedAtOnce(t *testing.T) {
	r := calc(t, "", "limits", "--wall-mm", "-1", "--cup-arc-deg", "wide")
	if !strings.Contains(r.errs, "--wall-mm") || !strings.Contains(r.errs, "--cup-arc-deg") {
		t.Errorf("errors\n%s", r.errs)
	}
}

func TestCompletionOffersOptionsAndTheirWords(t *testing.T) {
	for _, tt := range []struct{ args, want string }{
		{"target --he", "--head-diameter-mm"},
		{"target --criteria", "severe"},
		{"target --motion", "low_chair"},
		{"target --x", "neck_diameter_mm"},
		{"limits --side", "left"},
		{"limits --sample", "left-hip"},
		{"placement --scatter", "bosker"},
		{"envelope --slice", "thigh_reach"},
	} {
		r := calc(t, "", append(strings.Fields(tt.args), completing)...)
		if r.code != fine || !strings.Contains(r.out, tt.want) || r.errs != "" {
			t.Errorf("rimcalc %s: code %d, no %q in\n%s%s", tt.args, r.code, tt.want, r.out, r.errs)
		}
	}
	for _, shell := range []string{"bash", "zsh", "fish"} {
		if r := calc(t, "", "completion", shell); r.code != fine || !strings.Contains(r.out, completing) && !strings.Contains(r.out, completing[2:]) {
			t.Errorf("%s: code %d, script\n%.300s", shell, r.code, r.out)
		}
	}
}
