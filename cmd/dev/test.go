package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"go/format"
	"os"
	"path/filepath"
	"runtime"
)

// test runs every check. What needs only Go comes first; then the packages the
// window needs are looked for, and the rest follows.
func test(ctx context.Context, w *workshop, args []string) error {
	if err := noArguments("test", args); err != nil {
		return err
	}
	h, err := survey(w.root)
	if err != nil {
		return err
	}
	var prepared error
	needsScreen := func(run func(context.Context, *workshop, *tally) error) func(context.Context, *workshop, *tally) error {
		return func(ctx context.Context, w *workshop, t *tally) error {
			if prepared != nil {
				return errors.New("not run: the packages it needs are not installed")
			}
			return run(ctx, w, t)
		}
	}
	return w.work(ctx, []stage{
		{"format", formatted},
		{"tests without cgo", h.testPure},
		{"rimcalc without cgo", buildTerminal},
		{"evidence page", evident},
		{"system packages", func(ctx context.Context, w *workshop, t *tally) error {
			prepared = w.prepare(ctx)
			t.check("system packages", prepared)
			return nil
		}},
		{"vet", needsScreen(vet)},
		{"staticcheck", needsScreen(staticcheck)},
		{"tests of the window's rooms", needsScreen(h.testWindow)},
		{"race detector", needsScreen(h.racePure)},
		{"a real window", needsScreen(realWindow)},
	})
}

func noArguments(command string, args []string) error {
	f := flag.NewFlagSet("dev "+command, flag.ContinueOnError)
	if err := f.Parse(args); err != nil {
		return exitCode(2)
	}
	if f.NArg() > 0 {
		return fmt.Errorf("%s takes no arguments, not %q", command, f.Args())
	}
	return nil
}

// prepare installs what the window's stages need.
func (w *workshop) prepare(ctx context.Context) error {
	if runtime.GOOS != "linux" {
		return nil
	}
	return w.install(ctx, append(append([]string{}, headers...), screen...), false)
}

// formatted checks that every Go file is as gofmt writes it.
func formatted(_ context.Context, w *workshop, t *tally) error {
	crooked, err := unformatted(w.root)
	if err != nil {
		return err
	}
	for _, name := range crooked {
		fmt.Fprintln(w.out, "gofmt -w", name)
	}
	if len(crooked) > 0 {
		return fmt.Errorf("%d files are not as gofmt writes them", len(crooked))
	}
	t.pass()
	return nil
}

// unformatted returns the Go files below root that gofmt would change.
func unformatted(root string) ([]string, error) {
	var crooked []string
	err := eachSource(root, func(name string) error {
		source, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		if good, err := format.Source(source); err != nil || !bytes.Equal(good, source) {
			crooked = append(crooked, name)
		}
		return nil
	})
	return crooked, err
}

// testPure tests all rooms that are free of Fyne, without cgo.
func (h house) testPure(ctx context.Context, w *workshop, t *tally) error {
	rooms := h.choose(func(r *room) bool { return !h.needsFyne(r.path) })
	return w.goTest(ctx, t, secluded(pure), nil, rooms...)
}

// testWindow tests the rooms that import Fyne, with the tags the program is
// built with.
func (h house) testWindow(ctx context.Context, w *workshop, t *tally) error {
	rooms := h.choose(func(r *room) bool { return h.needsFyne(r.path) })
	if len(rooms) == 0 {
		return errors.New("no room imports Fyne")
	}
	return w.goTest(ctx, t, secluded(cgo), nil, append([]string{"-tags", uiTags}, rooms...)...)
}

// buildTerminal checks that the terminal program needs no C compiler.
func buildTerminal(ctx context.Context, w *workshop, t *tally) error {
	err := w.child(ctx, environment(pure), "go", "build", "-o", w.built("rimcalc"), "./cmd/rimcalc").Run()
	t.check("rimcalc without cgo", err)
	return nil
}

func vet(ctx context.Context, w *workshop, t *tally) error {
	t.check("go vet", w.child(ctx, environment(cgo), "go", "vet", "-tags", uiTags, "./...").Run())
	return nil
}

// staticcheck builds the linter from the tools module, which keeps it out of
// the program's go.mod, and runs it.
func staticcheck(ctx context.Context, w *workshop, t *tally) error {
	linter := w.built("staticcheck")
	build := w.child(ctx, environment(pure), "go", "-C", ".tools", "build", "-o", linter, "honnef.co/go/tools/cmd/staticcheck")
	if err := build.Run(); err != nil {
		return fmt.Errorf("building staticcheck: %w", err)
	}
	t.check("staticcheck", w.child(ctx, environment(cgo), linter, "-tags", uiTags, "./...").Run())
	return nil
}

// realWindow builds the program as a user would and has app/e2e drive it on a
// display of its own in a session bus of its own.
func realWindow(ctx context.Context, w *workshop, t *tally) error {
	if runtime.GOOS != "linux" {
		fmt.Fprintln(w.out, "only on Linux: it needs Xvfb")
		return nil
	}
	program, err := w.buildWindow(ctx)
	if err != nil {
		return err
	}
	env := secluded(pure, "RIMCLEAR_E2E=1", "RIMCLEAR_BINARY="+program, "RIMCLEAR_E2E_OUT="+filepath.Join(w.root, "out", "e2e"))
	return w.goTest(ctx, t, env, []string{"dbus-run-session", "--"}, "-count=1", "./app/e2e")
}
