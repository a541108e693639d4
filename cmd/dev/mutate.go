package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// mutate applies each deliberate fault to a copy of the tree, one at a time,
// and runs the tests, which must fail. A fault that none notices is named.
func mutate(ctx context.Context, w *workshop, args []string) error {
	f := flag.NewFlagSet("dev mutate", flag.ContinueOnError)
	only := f.String("only", "", "faults whose name contains this")
	if err := f.Parse(args); err != nil {
		return exitCode(2)
	}
	copied, err := w.copyTree(ctx)
	if err != nil {
		return err
	}
	defer os.RemoveAll(copied)
	caught, missed := 0, 0
	for _, m := range mutants {
		if !strings.Contains(m.name, *only) {
			continue
		}
		noticed, err := w.try(ctx, copied, m)
		if err != nil {
			return fmt.Errorf("%s: %w", m.name, err)
		}
		if noticed == "" {
			missed++
			fmt.Fprintf(w.out, "MISSED  %s (%s)\n", m.name, m.file)
			continue
		}
		caught++
		fmt.Fprintf(w.out, "caught  %s: %s\n", m.name, noticed)
	}
	fmt.Fprintf(w.out, "%d faults caught, %d missed\n", caught, missed)
	if missed > 0 || caught == 0 {
		return exitCode(1)
	}
	return nil
}

// copyTree copies what a test of kinematics needs into a folder of its own.
func (w *workshop) copyTree(ctx context.Context) (string, error) {
	to, err := os.MkdirTemp(w.cache, "mutants")
	if err != nil {
		return "", err
	}
	for _, part := range []string{"go.mod", "go.sum", "kinematics", "assets", "testdata"} {
		if err := exec.CommandContext(ctx, "cp", "-R", filepath.Join(w.root, part), to).Run(); err != nil {
			return "", fmt.Errorf("copying %s: %w", part, err)
		}
	}
	return to, nil
}

// try applies one fault, runs the tests and takes the fault out again. It
// returns the first test that failed.
func (w *workshop) try(ctx context.Context, root string, m mutant) (noticed string, err error) {
	path := filepath.Join(root, filepath.FromSlash(m.file))
	sound, err := os.ReadFile(path)
	if err != nil {
		return "", err
	}
	if n := strings.Count(string(sound), m.from); n != 1 {
		return "", fmt.Errorf("%s has %d times %q, want once: the list of faults is out of date", m.file, n, m.from)
	}
	if err := os.WriteFile(path, []byte(strings.Replace(string(sound), m.from, m.to, 1)), 0o644); err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, os.WriteFile(path, sound, 0o644)) }()
	rooms := m.rooms
	if len(rooms) == 0 {
		rooms = []string{"./kinematics/..."}
	}
	test := w.child(ctx, secluded(pure), "go", append([]string{"test", "-short", "-failfast", "-timeout=120s"}, rooms...)...)
	test.Dir, test.Stdout, test.Stderr = root, nil, nil
	out, failed := test.CombinedOutput()
	if failed == nil {
		return "", nil
	}
	return firstFailure(string(out))
}

// firstFailure names the test that noticed. A fault that does not compile
// proves nothing.
func firstFailure(out string) (string, error) {
	for line := range strings.Lines(out) {
		line = strings.TrimSpace(line)
		if name, ok := strings.CutPrefix(line, "--- FAIL: "); ok {
			name, _, _ = strings.Cut(name, " ")
			return name, nil
		}
		if strings.HasPrefix(line, "panic:") {
			return line, nil
		}
	}
	return "", fmt.Errorf("the tests could not be run:\n%s", out)
}
