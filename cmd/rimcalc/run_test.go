package main

import (
	"bytes"
	"context"
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
	for _, command := range []string{"", "limits", "sweep", "demo"} {
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
		{"limits --nope", "-nope"},
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
	} {
		r := calc(t, "", strings.Fields(tt.args)...)
		if r.code != misuse || !strings.Contains(r.errs, tt.want) || r.out != "" {
			t.Errorf("rimcalc %s: code %d, out %q, errors\n%s\nwant %q", tt.args, r.code, r.out, r.errs, tt.want)
		}
	}
}

func TestAllBadFlagsAreNamedAtOnce(t *testing.T) {
	r := calc(t, "", "limits", "--wall-mm", "-1", "--cup-arc-deg", "wide")
	if !strings.Contains(r.errs, "--wall-mm") || !strings.Contains(r.errs, "--cup-arc-deg") {
		t.Errorf("errors\n%s", r.errs)
	}
}
