package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// asProgram makes the test's own binary run as rimcalc.
const asProgram = "RIMCALC_TEST_AS_PROGRAM"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		os.Exit(run(context.Background(), os.Args, os.Stdin, os.Stdout, os.Stderr))
	}
	os.Exit(m.Run())
}

// process returns rimcalc as a process of its own.
func process(t testing.TB, args ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self, args...)
	cmd.Env = append(os.Environ(), asProgram+"=1")
	return cmd
}

// program puts a rimcalc into a folder of its own, for scripts, and returns the
// environment in which they find it.
func program(t testing.TB) []string {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	script := "#!/bin/sh\n" + asProgram + "=1 exec '" + self + "' \"$@\"\n"
	if err := os.WriteFile(filepath.Join(folder, "rimcalc"), []byte(script), 0o755); err != nil {
		t.Fatal(err)
	}
	return append(os.Environ(), "PATH="+folder+string(os.PathListSeparator)+os.Getenv("PATH"))
}

// succeeds runs a command that may say that some lines are at fault.
func succeeds(t testing.TB, cmd *exec.Cmd) string {
	t.Helper()
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil && cmd.ProcessState.ExitCode() != failed {
		t.Fatalf("%v: %v\n%s%s", cmd.Args, err, out.String(), errs.String())
	}
	return out.String()
}
