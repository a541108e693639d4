package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
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

// TestOnlyTheProgressBarKnowsTheNetwork: the bar's module can serve its state to
// a browser. Nothing calls that, so none of it is linked (next test).
func TestOnlyTheProgressBarKnowsTheNetwork(t *testing.T) {
	if testing.Short() {
		t.Skip("it asks the go command")
	}
	all := importsOf(t, "./cmd/rimcalc")
	if len(all) < 50 {
		t.Fatalf("only %d packages are listed", len(all))
	}
	for path, imports := range all {
		if standard(path) && !within(path, module) || path == "github.com/schollz/progressbar/v3" {
			continue
		}
		if i := slices.IndexFunc(imports, networked); i >= 0 {
			t.Errorf("%s imports %s", path, imports[i])
		}
	}
}

func TestNoCodeOfTheNetworkIsLinkedIntoRimcalc(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds rimcalc")
	}
	binary := filepath.Join(t.TempDir(), "rimcalc"+exeSuffix)
	goOutput(t, "build", "-o", binary, "./cmd/rimcalc")
	symbols := string(goOutput(t, "tool", "nm", binary))
	if !strings.Contains(symbols, " os.OpenFile") {
		t.Fatal("the symbols do not even show that files are read")
	}
	for line := range strings.Lines(symbols) {
		fields := strings.Fields(line)
		if len(fields) < 3 {
			continue
		}
		name := fields[len(fields)-1]
		for _, of := range []string{"net.", "net/http.", "crypto/tls.", "syscall.connect", "syscall.Connect", "syscall.Socket", "syscall.socket"} {
			if strings.HasPrefix(name, of) {
				t.Errorf("%s is linked", name)
			}
		}
	}
}
