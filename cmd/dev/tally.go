package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"slices"
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

// ledger follows one `go test -json` run. It holds back what a package writes
// until that package ends, so that packages tested side by side do not mix.
type ledger struct {
	*tally
	out    io.Writer
	failed map[string]int // failed tests by package
	held   map[string]*strings.Builder
}

// follow reads the events of one run, writes every output in it on, package by
// package, and counts. A package that fails without a failed test (it does not
// build, it exits early) counts as one failure.
func (t *tally) follow(events io.Reader, out io.Writer) error {
	l := ledger{t, out, map[string]int{}, map[string]*strings.Builder{}}
	defer l.releaseAll()
	lines := bufio.NewReader(events)
	for {
		line, err := lines.ReadString('\n')
		if line != "" {
			l.take(line)
		}
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

func (l ledger) take(line string) {
	var e event
	switch {
	case !strings.HasPrefix(line, "{") || json.Unmarshal([]byte(line), &e) != nil:
		io.WriteString(l.out, line) // go's own message, not an event
	case e.Package == "":
		io.WriteString(l.out, e.Output) // the compiler's
	default:
		l.hold(e)
		l.count(e)
	}
}

func (l ledger) count(e event) {
	switch {
	case e.Action == "fail" && e.Test != "":
		l.failed[e.Package]++
		l.fail(e.Package + " " + e.Test)
	case e.Action == "fail" && l.failed[e.Package] == 0:
		l.fail(e.Package + " (no test of it failed: see its output)")
	case e.Action == "pass" && e.Test != "":
		l.pass()
	case e.Action == "skip" && e.Test != "":
		l.skipped++
	}
}

func (l ledger) hold(e event) {
	if l.held[e.Package] == nil {
		l.held[e.Package] = &strings.Builder{}
	}
	l.held[e.Package].WriteString(e.Output)
	if e.Test == "" && (e.Action == "pass" || e.Action == "fail" || e.Action == "skip") {
		l.release(e.Package)
	}
}

func (l ledger) release(pkg string) {
	io.WriteString(l.out, l.held[pkg].String())
	delete(l.held, pkg)
}

// releaseAll writes what packages wrote that never ended.
func (l ledger) releaseAll() {
	for _, pkg := range slices.Sorted(maps.Keys(l.held)) {
		l.release(pkg)
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
