package report

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// read runs a tool of poppler on a report and returns what it says; without the
// tool the test is skipped.
func read(t *testing.T, q Question, tool string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(tool)
	if err != nil {
		t.Skip("there is no " + tool)
	}
	f, err := Work(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.WritePDF(&b, Papers[0]); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "report.pdf")
	if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	for i, a := range args {
		if a == "FILE" {
			args[i] = file
		}
	}
	out, err := exec.Command(path, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return string(out)
}

// labelled is the sample with a label in three scripts.
func labelled(t *testing.T) Question {
	c := sample(t, 1).Case
	c.Label = "Hüfte, ισχίο, тазобедренный сустав"
	return question(t, c)
}

func TestTheTextOfAReportCanBeSelected(t *testing.T) {
	text := strings.Join(strings.Fields(read(t, labelled(t), "pdftotext", "-layout", "FILE", "-")), " ")
	for _, want := range []string{"Hüfte, ισχίο, тазобедренный сустав", "Serves all 11 motions", "beyond 121°", "Page 1 of 3", "Page 3 of 3"} {
		if !strings.Contains(strings.ReplaceAll(text, "\u00a0", " "), want) {
			t.Errorf("%q cannot be selected", want)
		}
	}
}

func TestAllFontsOfAReportAreEmbedded(t *testing.T) {
	lines := strings.Split(strings.TrimSpace(read(t, labelled(t), "pdffonts", "FILE")), "\n")
	if len(lines) < 4 {
		t.Fatalf("only %d fonts: %v", len(lines)-2, lines)
	}
	for _, line := range lines[2:] {
		cells := strings.Fields(line)
		if n := len(cells); n < 6 || cells[n-5] != "yes" || cells[n-3] != "yes" { // emb, sub, uni, object ID
			t.Errorf("not embedded, or without the meaning of its letters: %s", line)
		}
	}
}
