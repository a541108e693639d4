package main

import (
	"bytes"
	"context"
	"encoding/json"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// asked runs a command line with the default hip, whose answers come soonest,
// in a folder of the test's own.
func asked(t *testing.T, args ...string) (code int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	code = run(context.Background(), append([]string{"rimcalc"}, args...), strings.NewReader(usualCase), &o, &e)
	return code, o.String(), e.String()
}

const usualCase = `{"format": "rimclear-case", "version": 1, "designs": [{"name": "=usual"}]}`

func TestAReportIsWrittenWithItsTablesAndFigures(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and what it asks is raced elsewhere")
	}
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	code, _, errs := asked(t, "report", "-", "--out", at("r.pdf"), "--paper", "letter", "--tables", at("t"), "--figures", at("f"), "--dpi", "40")
	if code != fine {
		t.Fatalf("exit %d: %s", code, errs)
	}
	data, err := os.ReadFile(at("r.pdf"))
	if err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) {
		t.Errorf("the report is no PDF: %v", err)
	}
	for _, name := range []string{"t/limits.csv", "t/limits.json", "t/sources.csv", "f/rim_clock.svg", "f/joint-A.png", "f/target_map-A.svg", "f/placement_share.png"} {
		if s, err := os.Stat(at(name)); err != nil || s.Size() < 50 {
			t.Errorf("%s: %v", name, err)
		}
	}
	table, err := os.ReadFile(at("t/designs.csv"))
	if err != nil || !bytes.Contains(table, []byte("'=usual")) {
		t.Errorf("a name that is a formula is not made harmless: %v", err)
	}
}

func TestEqualCasesGiveEqualReports(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and what it asks is raced elsewhere")
	}
	_, once, _ := asked(t, "report", "-", "--out", "-")
	_, twice, _ := asked(t, "report", "-", "--out", "-")
	_, dated, _ := asked(t, "report", "-", "--out", "-", "--date", "2026-05-04")
	if once == "" || once != twice || once == dated {
		t.Errorf("reports of %d, %d and %d bytes; want the first two alike and the third with a date", len(once), len(twice), len(dated))
	}
}

func TestTheTablesOfAReportAreOneListOfJSON(t *testing.T) {
	code, out, errs := asked(t, "report", "-", "--json")
	var list []struct {
		Table string
		Rows  []map[string]any
	}
	if err := json.Unmarshal([]byte(out), &list); code != fine || err != nil || len(list) < 8 {
		t.Fatalf("exit %d, %d tables, %v: %s", code, len(list), err, errs)
	}
	for _, table := range list {
		if len(table.Rows) == 0 {
			t.Errorf("table %s has no rows", table.Table)
		}
	}
}

// Words are in the language that is asked for; numbers are read by programs and
// have a point in every language.
func TestAReportIsInTheLanguageAskedFor(t *testing.T) {
	_, english, _ := asked(t, "report", "-", "--json")
	code, german, errs := asked(t, "report", "-", "--json", "--language", "de")
	if code != fine {
		t.Fatalf("exit %d: %s", code, errs)
	}
	if !strings.Contains(german, "Innenrotation bei 90° Flexion") || strings.Contains(english, "Innenrotation") {
		t.Error("the movements are not named in German, or English names them so")
	}
	numbers := regexp.MustCompile(`"limit_deg": ?(-?[0-9.]+)`)
	a, b := numbers.FindAllString(english, -1), numbers.FindAllString(german, -1)
	if len(a) == 0 || !slices.Equal(a, b) {
		t.Errorf("limits %v in English, %v in German", a, b)
	}
}

func TestAFigureIsAsLargeAsAsked(t *testing.T) {
	path := filepath.Join(t.TempDir(), "f.png")
	if code, _, errs := asked(t, "figure", "limit_rulers", "-", "--out", path, "--dpi", "254", "--width", "50", "--height", "40"); code != fine {
		t.Fatalf("exit %d: %s", code, errs)
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	c, err := png.DecodeConfig(f)
	if err != nil || c.Width != 500 || c.Height != 400 {
		t.Errorf("%d × %d pixels, %v; want 500 × 400", c.Width, c.Height, err)
	}
}

func TestAFigureIsWrittenInEachFormat(t *testing.T) {
	for format, begins := range map[string]string{"svg": "<", "png": "\x89PNG", "pdf": "%PDF-"} {
		code, out, errs := asked(t, "figure", "rim_clock", "-", "--out", "-", "--format", format)
		if code != fine || !strings.HasPrefix(out, begins) {
			t.Errorf("%s: exit %d, %d bytes, %s", format, code, len(out), errs)
		}
	}
}

func TestEveryFigureOfTheListCanBeDrawn(t *testing.T) {
	_, out, _ := asked(t, "figure", "--list", "-")
	n := 0
	for line := range strings.Lines(out) {
		key := strings.Fields(line)[0]
		n++
		if code, svg, errs := asked(t, "figure", key, "-", "--out", "-", "--format", "svg"); code != fine || !strings.Contains(svg, "</svg>") {
			t.Errorf("%s: exit %d: %s", key, code, errs)
		}
	}
	if n < 10 {
		t.Errorf("only %d figures are listed", n)
	}
}

func TestAReportRefusesWhatItCannotMean(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"report"}, "wants a case"},
		{[]string{"report", "-", "--paper", "a5"}, "a4, letter"},
		{[]string{"report", "-", "--dpi", "5"}, "--dpi"},
		{[]string{"report", "-", "--language", "xx"}, "de, en"},
		{[]string{"report", "-", "extra"}, "one case"},
		{[]string{"report", "missing.json"}, "missing.json"},
		{[]string{"figure", "rim_clock", "-"}, "--out"},
		{[]string{"figure", "rim_clock", "-", "--out", "f.gif"}, ".svg, .png or .pdf"},
		{[]string{"figure", "clock", "-", "--out", "f.svg"}, "rim_clock"},
		{[]string{"figure", "rim_clock", "-", "--out", "f.png", "--width", "5000"}, "--width"},
		{[]string{"figure", "rim_clock", "-", "--out", "f.png", "--dpi", "2400", "--width", "900"}, "million pixels"},
	} {
		if code, out, errs := asked(t, c.args...); code != misuse || out != "" || !strings.Contains(errs, c.says) {
			t.Errorf("%v: exit %d, says %q; want %d and %q", c.args, code, errs, misuse, c.says)
		}
	}
}
