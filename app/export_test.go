package app

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rimclear/app/report"
)

// written waits until the window says that a file is written, and returns its
// contents.
func written(t *testing.T, w *Window, q *queue, path string) []byte {
	t.Helper()
	sees(t, w, q, path)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// sees waits until the window says something with a text, and closes it.
func sees(t *testing.T, w *Window, q *queue, text string) {
	t.Helper()
	q.await(t, "the window says "+text, func() bool {
		said, buttons := asked(w)
		return strings.Contains(strings.ReplaceAll(said, "\n", ""), text) && len(buttons) > 0
	})
	w.window.Canvas().Overlays().Remove(w.window.Canvas().Overlays().Top())
}

func TestAReportIsSavedFromTheWindow(t *testing.T) {
	w, q := start(t, t.TempDir())
	w.set(t, "head_diameter_mm", 36)
	path := filepath.Join(t.TempDir(), "r.pdf")
	w.WriteReport(path, report.Papers[1])
	if data := written(t, w, q, path); !bytes.HasPrefix(data, []byte("%PDF-")) || len(data) < 20000 {
		t.Errorf("%d bytes that begin with %q", len(data), data[:min(len(data), 8)])
	}
}

func TestAFigureIsSavedAsItsEndingSays(t *testing.T) {
	w, q := start(t, t.TempDir())
	dir := t.TempDir()
	for ending, begins := range map[string]string{".svg": "<", ".png": "\x89PNG", ".pdf": "%PDF-"} {
		path := filepath.Join(dir, "f"+ending)
		w.WriteFigure(path, "rim_clock", 96)
		if data := written(t, w, q, path); !bytes.HasPrefix(data, []byte(begins)) {
			t.Errorf("%s begins with %q", ending, data[:8])
		}
	}
}

func TestTablesAreSavedIntoAFolder(t *testing.T) {
	w, q := start(t, t.TempDir())
	dir := t.TempDir()
	w.WriteTables(dir)
	sees(t, w, q, dir)
	if list, err := filepath.Glob(filepath.Join(dir, "*.csv")); err != nil || len(list) < 8 {
		t.Errorf("%d tables, %v", len(list), err)
	}
}

func TestAReportThatCannotBeWrittenSaysSo(t *testing.T) {
	w, q := start(t, t.TempDir())
	path := filepath.Join(t.TempDir(), "no", "folder", "r.pdf")
	w.WriteReport(path, report.Papers[0])
	sees(t, w, q, "no such file")
	if isFile(path) {
		t.Error("a file is there all the same")
	}
}

// What a menu item asks first can be answered without a file.
func TestTheFileMenuAsksForPaperAndFigure(t *testing.T) {
	w, q := start(t, t.TempDir())
	for _, act := range []func(){w.saveReport, w.saveFigure} {
		act()
		q.do()
		if _, buttons := asked(w); buttons[w.context.Words.Phrase("report_next")] == nil {
			t.Fatal("nothing is asked")
		}
		w.window.Canvas().Overlays().Remove(w.window.Canvas().Overlays().Top())
	}
}
