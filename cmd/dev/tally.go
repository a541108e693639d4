package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"strings"
)

// tally counts what passed and what failed: tests, subtests and examples as
// `go test -v` names them, and each check that is not a test (format, vet ...)
// as one.
type tally struct {
	passed, failed, skipped int
	failures                []string
}

func (t *tally) pass() { t.passed++ }

func (t *tally) fail(what string) {
	t.failed++
	t.failures = append(t.failures, what)
}

// check counts err as one passed or failed check.
func (t *tally) check(what string, err error) {
	if err == nil {
		t.pass()
		return
	}
	t.fail(fmt.Sprintf("%s: %v", what, err))
}

// event is a line of `go test -json`.
type event struct {
	Action  string
	Package string
	Test    string
	Output  string
}

// follow reads the events of one `go test -json` run, writes every output in
// it on as it came, and counts. A package that fails without a failed test
// (it does not build, it exits early) counts as one failure.
func (t *tally) follow(events io.Reader, out io.Writer) error {
	failed := map[string]int{} // failed tests by package
	lines := bufio.NewReader(events)
	for {
		line, err := lines.ReadString('\n')
		if line != "" {
			t.take(line, failed, out)
		}
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

func (t *tally) take(line string, failed map[string]int, out io.Writer) {
	var e event
	if !strings.HasPrefix(line, "{") || json.Unmarshal([]byte(line), &e) != nil {
		io.WriteString(out, line) // go's own message, not an event
		return
	}
	io.WriteString(out, e.Output)
	switch {
	case e.Action == "fail" && e.Test != "":
		failed[e.Package]++
		t.fail(e.Package + " " + e.Test)
	case e.Action == "fail" && failed[e.Package] == 0:
		t.fail(e.Package + " (no test of it failed: see its output)")
	case e.Action == "pass" && e.Test != "":
		t.pass()
	case e.Action == "skip" && e.Test != "":
		t.skipped++
	}
}

// report writes what failed and, as the very last line, the two sums.
func (t *tally) report(out io.Writer) error {
	for _, f := range t.failures {
		fmt.Fprintln(out, "FAILED", f)
	}
	if t.skipped > 0 {
		fmt.Fprintf(out, "%d skipped\n", t.skipped)
	}
	fmt.Fprintf(out, "%d passed, %d failed\n", t.passed, t.failed)
	if t.failed > 0 {
		return exitCode(1)
	}
	return nil
}
