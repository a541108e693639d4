package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestEveryFaultHasItsPlaceInTheSource(t *testing.T) {
	if len(mutants) < 30 {
		t.Errorf("%d faults, want 30 at least", len(mutants))
	}
	names := map[string]bool{}
	for _, m := range mutants {
		if names[m.name] {
			t.Errorf("the fault %q is listed twice", m.name)
		}
		names[m.name] = true
		data, err := os.ReadFile(filepath.Join("../..", filepath.FromSlash(m.file)))
		if err != nil {
			t.Error(err)
			continue
		}
		if n := strings.Count(string(data), m.from); n != 1 {
			t.Errorf("%s has %d times %q, want once", m.file, n, m.from)
		}
		if m.from == m.to {
			t.Errorf("the fault %q changes nothing", m.name)
		}
	}
}

func TestAFaultThatDoesNotCompileProvesNothing(t *testing.T) {
	if _, err := firstFailure("# rimclear/kinematics\n./x.go:3:1: syntax error\nFAIL\trimclear/kinematics [build failed]\n"); err == nil {
		t.Error("firstFailure takes a failed build for a test that noticed")
	}
	name, err := firstFailure("=== RUN\n    --- FAIL: TestClock (0.00s)\nFAIL\n")
	if name != "TestClock" || err != nil {
		t.Errorf("firstFailure = %q, %v; want TestClock", name, err)
	}
}
