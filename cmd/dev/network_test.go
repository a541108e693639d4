package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// goOutput runs the go command in the module's root without cgo.
func goOutput(t *testing.T, args ...string) []byte {
	t.Helper()
	c := exec.CommandContext(t.Context(), "go", args...)
	c.Dir, c.Env = "../..", secluded(pure)
	var errs bytes.Buffer
	c.Stderr = &errs
	out, err := c.Output()
	if err != nil {
		t.Fatalf("go %s: %v\n%s", strings.Join(args, " "), err, errs.Bytes())
	}
	return out
}

// importsOf returns what each package below a program imports.
func importsOf(t *testing.T, program string) map[string][]string {
	t.Helper()
	all := map[string][]string{}
	d := json.NewDecoder(bytes.NewReader(goOutput(t, "list", "-deps", "-json=ImportPath,Imports", program)))
	for {
		var p struct {
			ImportPath string
			Imports    []string
		}
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all[p.ImportPath] = p.Imports
	}
}

// networked reports whether a package of the standard library can reach the
// network.
func networked(path string) bool {
	return path == "net" || path == "net/http" || path == "net/rpc" || path == "net/smtp" || path == "crypto/tls"
}

func TestNoCodeOfRimcalcKnowsTheNetwork(t *testing.T) {
	if testing.Short() {
		t.Skip("it asks the go command")
	}
	all := importsOf(t, "./cmd/rimcalc")
	if len(all) < 50 {
		t.Fatalf("only %d packages are listed", len(all))
	}
	for path, imports := range all {
		if standard(path) && !within(path, module) {
			continue
		}
		if i := slices.IndexFunc(imports, networked); i >= 0 {
			t.Errorf("%s imports %s", path, imports[i])
		}
	}
}

// TestRimcalcAsksTheSystemForNoSocket watches the program at work.
func TestRimcalcAsksTheSystemForNoSocket(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds rimcalc")
	}
	strace, err := exec.LookPath("strace")
	if err != nil {
		t.Skip("strace is not installed")
	}
	folder := t.TempDir()
	binary, log := filepath.Join(folder, "rimcalc"+exeSuffix), filepath.Join(folder, "log")
	goOutput(t, "build", "-o", binary, "./cmd/rimcalc")
	for _, args := range [][]string{{"limits"}, {"demo", "--out", filepath.Join(folder, "demo")}} {
		c := exec.CommandContext(t.Context(), strace, append([]string{"-f", "--seccomp-bpf", "-qq", "-e", "trace=%network,openat", "-o", log, binary}, args...)...)
		if out, err := c.CombinedOutput(); err != nil {
			if data, _ := os.ReadFile(log); len(data) == 0 {
				t.Skipf("strace may not watch here: %v\n%s", err, out)
			}
			t.Fatalf("rimcalc %v: %v\n%s", args, err, out)
		}
		data, err := os.ReadFile(log)
		if err != nil || !bytes.Contains(data, []byte("openat(")) {
			t.Fatalf("strace saw nothing of rimcalc %v: %v", args, err)
		}
		for line := range strings.Lines(string(data)) {
			if !strings.Contains(line, "openat(") && strings.Contains(line, "(") && !strings.Contains(line, "---") {
				t.Errorf("rimcalc %v: %s", args, line)
			}
		}
	}
}
