package main

import (
	"strings"
	"testing"
)

func TestTextThatCouldBeAFormulaIsShownAndNotComputed(t *testing.T) {
	for in, want := range map[string]string{
		"":                    "",
		"hip":                 "hip",
		"=1+1":                "'=1+1",
		"+1+1":                "'+1+1",
		"-2+3":                "'-2+3",
		"@SUM(A1)":            "'@SUM(A1)",
		"\t=1":                "'\t=1",
		"\r=1":                "'\r=1",
		"\n=1":                "'\n=1",
		"＝1":                  "'＝1",
		"-":                   "'-",
		"-5.25":               "-5.25",
		"+3":                  "+3",
		"-1e-3":               "-1e-3",
		"-1e999":              "'-1e999",
		"-0x1p-2":             "'-0x1p-2",
		"-inf":                "'-inf",
		"1-1":                 "1-1",
		"a=1":                 "a=1",
		`=HYPERLINK("x";"y")`: `'=HYPERLINK("x";"y")`,
		"\xff":                "\xff",
	} {
		if got := harmless(in); got != want {
			t.Errorf("harmless(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestASweepCarriesNoFormulaThrough(t *testing.T) {
	in := strings.Replace(header, "\n", ",=head\n", 1) + strings.Replace(sound1, "\n", ",\"=HYPERLINK(\"\"x\"\")\"\n", 1) +
		"+bad,R,40,15,15,135,36,12,many\n"
	r := calc(t, in, "sweep", "-")
	for _, want := range []string{"'=head\n", `"'=HYPERLINK(""x"")"`, "\n'+bad,error"} {
		if !strings.Contains(r.out, want) {
			t.Errorf("no %q in\n%s", want, r.out)
		}
	}
}
