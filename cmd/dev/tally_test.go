package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// fates is a test file with a test of every fate.
const fates = `package fates

import ("testing"; "os"; "fmt")

func TestGood(t *testing.T) { t.Run("part", func(t *testing.T) {}); fmt.Println("plain words") }
func TestBad(t *testing.T) { t.Run("sound", func(t *testing.T) {}); t.Run("broken", func(t *testing.T) { t.Error("as meant") }) }
func TestLeft(t *testing.T) { t.Skip("not here") }
func Example() { fmt.Println(1)
	// Output: 1
}
func TestMain(m *testing.M) { os.Exit(m.Run()) }
`

// output gathers what two processes write at once.
type output struct {
	mu   sync.Mutex
	text strings.Builder
}

func (o *output) Write(p []byte) (int, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.text.Write(p)
}

func (o *output) String() string {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.text.String()
}

// sketch makes a module of the given files and a workshop on it.
func sketch(t *testing.T, files map[string]string) (*workshop, *output) {
	t.Helper()
	root := t.TempDir()
	files["go.mod"] = "module " + module + "\n\ngo 1.26.0\n"
	for name, text := range files {
		path := filepath.Join(root, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var out output
	return &workshop{root: root, here: root, cache: t.TempDir(), out: &out, errs: &out}, &out
}

func TestEachFateOfATestIsCountedAndItsOutputKept(t *testing.T) {
	w, out := sketch(t, map[string]string{"fates/fates_test.go": fates})
	var got tally
	if err := w.goTest(t.Context(), &got, environment(pure), nil, "-count=1", "./..."); err != nil {
		t.Fatalf("goTest = %v, output %s", err, out)
	}
	// Passed: TestGood, its part, TestBad/sound, Example. Failed: TestBad and its broken part.
	if got.passed != 4 || got.failed != 2 || got.skipped != 1 {
		t.Errorf("counted %d passed, %d failed, %d skipped, want 4, 2, 1\n%s", got.passed, got.failed, got.skipped, out)
	}
	for _, want := range []string{"plain words\n", "as meant", "--- FAIL: TestBad", "FAIL\trimclear/fates"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("the output lacks %q:\n%s", want, out)
		}
	}
}

func TestPackageThatDoesNotBuildIsOneFailure(t *testing.T) {
	w, out := sketch(t, map[string]string{
		"good/good_test.go": "package good\n\nimport \"testing\"\n\nfunc TestGood(t *testing.T) {}\n",
		"bad/bad_test.go":   "package bad\n\nfunc broken( {\n",
		"exit/exit_test.go": "package exit\n\nimport (\"os\"; \"testing\")\n\nfunc TestMain(m *testing.M) { os.Exit(3) }\n",
	})
	var got tally
	if err := w.goTest(t.Context(), &got, environment(pure), nil, "./..."); err != nil {
		t.Fatal(err)
	}
	if got.passed != 1 || got.failed != 2 {
		t.Errorf("counted %d passed, %d failed (%v), want 1 and 2\n%s", got.passed, got.failed, got.failures, out)
	}
	if !strings.Contains(out.String(), "bad_test.go:3") {
		t.Errorf("the compiler's message is not in the output:\n%s", out)
	}
}

func TestPackagesTestedSideBySideDoNotMix(t *testing.T) {
	var got tally
	var out strings.Builder
	err := got.follow(strings.NewReader(`{"Action":"output","Package":"a","Output":"a1\n"}
{"Action":"output","Package":"b","Test":"T","Output":"b1\n"}
{"ImportPath":"c","Action":"build-output","Output":"c.go:1\n"}
go: a message
{"Action":"output","Package":"a","Output":"a2\n"}
{"Action":"pass","Package":"a"}
{"Action":"output","Package":"b","Test":"T","Output":"b2, killed"}
`), &out)
	if want := "c.go:1\ngo: a message\na1\na2\nb1\nb2, killed"; err != nil || out.String() != want {
		t.Errorf("follow wrote %q, %v, want %q", out.String(), err, want)
	}
}

func TestGoThatCannotStartIsNoSuccess(t *testing.T) {
	w, _ := sketch(t, map[string]string{})
	var got tally
	if err := w.goTest(t.Context(), &got, environment(pure), nil, "-no-such-flag", "./..."); err == nil && got.failed == 0 {
		t.Error("go test with an unknown flag counts as success")
	}
	if err := w.goTest(t.Context(), &got, environment(pure), []string{"rimclear-no-such-program"}, "./..."); err == nil {
		t.Error("go test under a program that does not exist counts as success")
	}
}

func TestFailedStageDoesNotStopTheNextAndTheSumComesLast(t *testing.T) {
	w, out := sketch(t, map[string]string{})
	var ran bool
	err := w.work(t.Context(), []stage{
		{"first", func(context.Context, *workshop, *tally) error { return errors.New("as meant") }},
		{"second", func(_ context.Context, _ *workshop, t *tally) error { ran = true; t.pass(); return nil }},
	})
	if code := codeOf(err, out); code != 1 || !ran {
		t.Errorf("exit code %d, second stage ran: %v; want 1, true", code, ran)
	}
	lines := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
	if last := lines[len(lines)-1]; last != "1 passed, 1 failed" {
		t.Errorf("the last line is %q", last)
	}
	if !strings.Contains(out.String(), "FAILED first: as meant") {
		t.Errorf("the failed stage is not named at the end:\n%s", out)
	}
	if err := w.work(t.Context(), []stage{{"only", func(_ context.Context, _ *workshop, t *tally) error { t.pass(); return nil }}}); err != nil {
		t.Errorf("a run without failures ends with %v", err)
	}
}

func TestUnformattedFileIsNamed(t *testing.T) {
	w, out := sketch(t, map[string]string{"a.go": "package a\n", "b/b.go": "package  b\n", "testdata/c.go": "package  c\n", ".d/d.go": "package  d\n"})
	var got tally
	if err := formatted(t.Context(), w, &got); err == nil || !strings.Contains(out.String(), "b.go") || strings.Contains(out.String(), "c.go") || got.passed != 0 {
		t.Errorf("formatted = %v, %+v, output %q; want b/b.go named alone", err, got, out)
	}
	if names, err := unformatted("."); err != nil || len(names) != 0 {
		t.Errorf("unformatted(.) = %v, %v", names, err)
	}
}

func TestUnknownCommandIsAUsageError(t *testing.T) {
	var out, errs bytes.Buffer
	if code := run(t.Context(), []string{"tset"}, &out, &errs); code != 2 || !strings.Contains(errs.String(), `"tset"`) {
		t.Errorf("run(tset) = %d, %q", code, errs.String())
	}
	if code := run(t.Context(), nil, &out, &errs); code != 0 || !strings.Contains(out.String(), "start") {
		t.Errorf("run() = %d, %q", code, out.String())
	}
}

func TestExitCodeOfAProgramIsOurs(t *testing.T) {
	if err := ended(exec.CommandContext(t.Context(), "go", "no-such-command").Run()); codeOf(err, &bytes.Buffer{}) != 2 {
		t.Errorf("ended(go no-such-command) = %v, want exit code 2", err)
	}
}
