package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"path/filepath"
	"runtime"
	"time"
)

// soak works in a real window for a long time and fails if memory or goroutines
// grow.
func soak(ctx context.Context, w *workshop, args []string) error {
	f := flag.NewFlagSet("dev soak", flag.ContinueOnError)
	minutes := f.Float64("minutes", 20, "how long to work in the window")
	if err := f.Parse(args); err != nil {
		return exitCode(2)
	}
	switch {
	case f.NArg() > 0:
		return fmt.Errorf("soak takes no arguments, not %q", f.Args())
	case !(*minutes > 0) || *minutes > 24*60:
		return fmt.Errorf("-minutes %v: not between 0 and a day", *minutes)
	case runtime.GOOS != "linux":
		return errors.New("soak needs Linux, for Xvfb and /proc")
	}
	if err := w.prepare(ctx); err != nil {
		return err
	}
	program, err := w.buildWindow(ctx)
	if err != nil {
		return err
	}
	out := filepath.Join(w.root, "out", "soak")
	env := secluded(pure, "RIMCLEAR_E2E=1", "RIMCLEAR_BINARY="+program, "RIMCLEAR_E2E_OUT="+out, fmt.Sprintf("RIMCLEAR_SOAK=%g", *minutes))
	most := time.Duration(*minutes*float64(time.Minute)) + 10*time.Minute
	c := w.child(ctx, env, "dbus-run-session", "--", "go", "test", "-count=1", "-v", "-timeout", most.String(),
		"-run", "^TestALongSessionHoldsItsMemory$", "./app/e2e")
	return ended(c.Run())
}
