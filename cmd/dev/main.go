// Command dev is how one works on Rimclear: it starts the program, tests it,
// and measures it. It needs nothing but Go; what a stage needs besides (a C
// compiler, the window system's headers, a display) the stage looks for itself.
//
//	go run ./cmd/dev start [arguments of rimclear]
//	go run ./cmd/dev test
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
)

// command is one thing one can ask of dev. Its error may carry an exit code.
type command struct {
	name, summary string
	run           func(context.Context, *workshop, []string) error
}

var commands = []command{
	{"start", "build the window and open it; without a display, write the demo to out/demo", start},
	{"test", "everything a change must pass: format, tests, vet, staticcheck, race, a real window", test},
	{"race", "all tests under the race detector, the window's own rooms included", race},
	{"fuzz", "every fuzz test in turn (-for 20s each, -only NAME)", fuzz},
	{"mutate", "deliberate faults, one at a time, each of which a test must notice (-only TEXT)", mutate},
	{"evidence", "write assets/evidence/evidence.md, the published values beside those computed now", evidence},
	{"check", "fresh random designs against solids and meshes that share no code with the solver (-designs 100000, -seed S)", check},
	{"package", "the Linux release in out/release, tried out from a clean folder", pack},
	{"soak", "a long session in a real window: do memory or goroutines grow? (-minutes 20)", soak},
	{"bench", "the speed page, beside peer programs (-peers DIR), or every benchmark (-every)", bench},
}

// exitCode is an error that ends the program with this code and no message.
type exitCode int

func (e exitCode) Error() string { return fmt.Sprintf("exit code %d", int(e)) }

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

func run(ctx context.Context, args []string, out, errs io.Writer) int {
	if len(args) == 0 || strings.TrimLeft(args[0], "-") == "help" || args[0] == "-h" {
		usage(out)
		return 0
	}
	for _, c := range commands {
		if c.name == args[0] {
			return codeOf(c.in(ctx, args[1:], out, errs), errs)
		}
	}
	fmt.Fprintf(errs, "dev: there is no command %q\n\n", args[0])
	usage(errs)
	return 2
}

func (c command) in(ctx context.Context, args []string, out, errs io.Writer) error {
	w, err := openWorkshop(out, errs)
	if err != nil {
		return err
	}
	return c.run(ctx, w, args)
}

func codeOf(err error, errs io.Writer) int {
	var code exitCode
	switch {
	case err == nil:
		return 0
	case errors.As(err, &code):
		return int(code)
	}
	fmt.Fprintln(errs, "dev:", err)
	return 1
}

func usage(to io.Writer) {
	fmt.Fprint(to, "go run ./cmd/dev COMMAND\n\n")
	for _, c := range commands {
		fmt.Fprintf(to, "  %-8s %s\n", c.name, c.summary)
	}
}

// workshop is where the commands work: the module's root, the folder for what
// they build, and where they write.
type workshop struct {
	root  string // holds go.mod
	here  string // where dev was called
	cache string // in the user's cache folder; may be removed at any time
	out   io.Writer
	errs  io.Writer
}

func openWorkshop(out, errs io.Writer) (*workshop, error) {
	here, err := os.Getwd()
	if err != nil {
		return nil, err
	}
	root, err := moduleRoot(here)
	if err != nil {
		return nil, err
	}
	cache, err := os.UserCacheDir()
	if err != nil {
		return nil, err
	}
	cache = filepath.Join(cache, "rimclear-dev")
	return &workshop{root: root, here: here, cache: cache, out: out, errs: errs}, os.MkdirAll(cache, 0o755)
}

// moduleRoot looks upwards for this module's go.mod.
func moduleRoot(from string) (string, error) {
	for folder := from; ; folder = filepath.Dir(folder) {
		if data, err := os.ReadFile(filepath.Join(folder, "go.mod")); err == nil && strings.HasPrefix(string(data), "module "+module+"\n") {
			return folder, nil
		}
		if folder == filepath.Dir(folder) {
			return "", fmt.Errorf("%s lies outside the module %s", from, module)
		}
	}
}

// child is a program run in the module's root with the one environment.
func (w *workshop) child(ctx context.Context, env []string, name string, args ...string) *exec.Cmd {
	c := exec.CommandContext(ctx, name, args...)
	c.Dir, c.Env = w.root, env
	c.Stdout, c.Stderr = w.out, w.errs
	return c
}

// built returns where a program named so is built.
func (w *workshop) built(name string) string { return filepath.Join(w.cache, name+exeSuffix) }
